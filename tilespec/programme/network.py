"""Critical path: the longest path through activities and lags, on a clock that never stops.

Finish-to-start links with lags; earliest times forwards, latest times backwards (critical path method, textbook form).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Lag:
    """The activity starts no earlier than `lag` after the end of `activity`."""

    activity: str
    lag: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Activity:
    id: str
    duration: Fraction
    after: tuple[Lag, ...] = ()


@dataclass(frozen=True, slots=True)
class Times:
    """Earliest and latest start and finish of one activity.

    total_float  how much later it may start without a later end of the whole
    free_float   how much later it may end without a later start of any that follows
    """

    id: str
    early_start: Fraction
    early_finish: Fraction
    late_start: Fraction
    late_finish: Fraction
    free_float: Fraction

    @property
    def total_float(self) -> Fraction:
        return self.late_start - self.early_start

    @property
    def critical(self) -> bool:
        return self.total_float == 0


def analyse(activities: Sequence[Activity]) -> tuple[Times, ...]:
    """Times of every activity, in the order given: each must come after those it waits for. KeyError where one does not."""
    durations = {a.id: a.duration for a in activities}
    early: dict[str, Fraction] = {}
    for a in activities:
        early[a.id] = max((early[p.activity] + durations[p.activity] + p.lag for p in a.after), default=Fraction(0))
    end = max((early[a.id] + a.duration for a in activities), default=Fraction(0))
    late = {a.id: end for a in activities}
    free = {a.id: end - early[a.id] - a.duration for a in activities}
    for a in reversed(activities):
        start = late[a.id] - a.duration
        for p in a.after:
            late[p.activity] = min(late[p.activity], start - p.lag)
            gap = early[a.id] - p.lag - early[p.activity] - durations[p.activity]
            free[p.activity] = min(free[p.activity], gap)
    return tuple(
        Times(a.id, early[a.id], early[a.id] + a.duration, late[a.id] - a.duration, late[a.id], free[a.id]) for a in activities
    )

