"""What the programme returns: operations laid on the calendar for one crew."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from tilespec.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Slot:
    """One operation (or the part of it done on one day)."""

    operation: str
    start: datetime
    end: datetime
    last: bool                          # the operation ends here


@dataclass(frozen=True, slots=True)
class Pause:
    """A wait as it falls on the calendar: no entry, or no next step, until `until`.

    latest    the next step must have begun by then, where the product has a limit
    late      it begins later: working hours and closed days leave no earlier time
    """

    after: str
    before: str
    why: str
    start: datetime
    until: datetime
    latest: datetime | None = None
    late: bool = False


@dataclass(frozen=True, slots=True)
class Day:
    """One working day; `slots` is empty where nobody has anything to do but wait."""

    on: date
    number: int                         # working day of the job, from 1
    slots: tuple[Slot, ...]


@dataclass(frozen=True, slots=True)
class Programme:
    """The days from the first to the last, closed ones left out.

    dated         False when the spec names no start; dates then count from an arbitrary Monday and only day numbers are printed
    working_days  days on which somebody works
    person_hours  labour of the crew; other trades keep their own
    critical      operations on the longest path through labour and waits, on a clock that never stops
    """

    dated: bool
    days: tuple[Day, ...]
    pauses: tuple[Pause, ...]
    finish: datetime | None
    working_days: Quantity
    person_hours: Quantity
    critical: tuple[str, ...] = ()
