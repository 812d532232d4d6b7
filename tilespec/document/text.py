"""What may be printed beside quantities: words of the spec, and references such as step numbers, codes and dates.

The template layer refuses everything else that holds a digit (see templates.py).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Said:
    """Words that come from a spec or a stock file, such as the name of a tile. Never markup."""

    text: str

    def __bool__(self) -> bool:
        return bool(self.text)


@dataclass(frozen=True, slots=True)
class Ref:
    """Something that names and does not measure: its digits are no quantity.

    kind      "step", "part", "mark", "date", "time", "code", "class", "source", "fingerprint", "letter", "version", "drawing"
    """

    text: str
    kind: str


_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def date_ref(on: date) -> Ref:
    """An ISO date with its weekday: `Mon 2026-03-09`."""
    return Ref(f"{_WEEKDAYS[on.weekday()]} {on.isoformat()}", "date")


def time_ref(at: datetime) -> Ref:
    """Clock time only: `07:30`."""
    return Ref(f"{at:%H:%M}", "time")


@dataclass(frozen=True, slots=True)
class Moment:
    """A point of the programme. `date` is None where the spec names no start: then only the working day counts."""

    day: Ref
    date: Ref | None
    time: Ref
