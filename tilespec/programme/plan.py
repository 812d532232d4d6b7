"""Laying operations on the calendar: one crew, one place at a time, waits on the clock."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from tilespec.programme.calendar import Calendar, Span

# Longer chains of primer and coat windows than this do not occur; then the programme says which window is missed.
_ROUNDS = 200


@dataclass(frozen=True, slots=True)
class After:
    """Not before `least` after the end of `task`, and not later than `most` after it, where there is a limit."""

    task: str
    least: timedelta = timedelta(0)
    most: timedelta | None = None


@dataclass(frozen=True, slots=True)
class Task:
    """What is laid: `length` is working time; `holds` names what it occupies (the crew, a room, a trade)."""

    id: str
    length: timedelta
    holds: tuple[str, ...]
    after: tuple[After, ...] = ()


@dataclass(frozen=True, slots=True)
class Laid:
    """When a task is done: one span a day, at least one."""

    id: str
    spans: tuple[Span, ...]

    @property
    def start(self) -> datetime:
        return self.spans[0].start

    @property
    def end(self) -> datetime:
        return self.spans[-1].end


def lay(tasks: Sequence[Task], calendar: Calendar, begin: datetime, least_start: timedelta) -> tuple[Laid, ...]:
    """Each task, in the order given, at the earliest moment that its predecessors, their waits and free hands allow.

    A task may slip into a gap that earlier ones leave while they wait. Where a wait has a limit that would be overrun, over a
    weekend say, the work before it is done later instead. `least_start`: with less than this left of a day nothing is begun
    that does not end that day. Tasks must come after those that they wait for.
    """
    not_before: dict[str, datetime] = {}
    hopeless: set[tuple[str, str]] = set()
    laid = _once(tasks, calendar, begin, least_start, not_before)
    for _ in range(_ROUNDS):
        overrun = _overrun(tasks, laid, hopeless)
        if overrun is None:
            break
        before, after, most, length = overrun
        wanted = _start_to_end_by(calendar, laid[before].start, length, laid[after].start - most)
        tried = not_before | {before: wanted}
        trial = _once(tasks, calendar, begin, least_start, tried)
        if trial[after].start - trial[before].end < laid[after].start - laid[before].end:
            laid, not_before = trial, tried
        else:
            # Both move together: nothing is won by waiting, and the programme says that the limit is missed.
            hopeless.add((before, after))
    return tuple(laid[t.id] for t in tasks)


def _once(
    tasks: Sequence[Task], calendar: Calendar, begin: datetime, least_start: timedelta, not_before: Mapping[str, datetime],
) -> dict[str, Laid]:
    busy: dict[str, list[Span]] = {}
    laid: dict[str, Laid] = {}
    for t in tasks:
        at = max([begin, not_before.get(t.id, begin), *(laid[a.task].end + a.least for a in t.after)])
        if not t.length:
            moment = calendar.event_from(at)
            laid[t.id] = Laid(t.id, (Span(moment, moment),))
            continue
        taken = [span for name in t.holds for span in busy.get(name, ())]
        spans = _free(calendar, at, t.length, taken, least_start)
        laid[t.id] = Laid(t.id, spans)
        for name in t.holds:
            busy.setdefault(name, []).extend(spans)
    return laid


def _free(
    calendar: Calendar, at: datetime, length: timedelta, taken: Sequence[Span], least_start: timedelta,
) -> tuple[Span, ...]:
    """The earliest stretch of working time of this length, without interruption, in which nothing needed is taken."""
    while True:
        at = calendar.work_from(at)
        left = calendar.left(at)
        if left < length and left < least_start:
            at = calendar.next_day(at)
            continue
        spans = calendar.spread(at, length)
        clash = max((b.end for b in taken for s in spans if b.start < s.end and s.start < b.end), default=None)
        if clash is None:
            return spans
        at = clash


def _overrun(
    tasks: Sequence[Task], laid: Mapping[str, Laid], hopeless: set[tuple[str, str]],
) -> tuple[str, str, timedelta, timedelta] | None:
    """The first limit that is overrun: work before, work after, the limit, and how long the work before takes."""
    lengths = {t.id: t.length for t in tasks}
    for t in tasks:
        for a in t.after:
            if a.most is None or not lengths[a.task] or (a.task, t.id) in hopeless:
                continue
            if laid[t.id].start > laid[a.task].end + a.most:
                return a.task, t.id, a.most, lengths[a.task]
    return None


def _start_to_end_by(calendar: Calendar, start: datetime, length: timedelta, wanted: datetime) -> datetime:
    """The earliest start after `start` with which work of this length ends at `wanted` or later."""
    at = start
    while True:
        end = calendar.spread(at, length)[-1].end
        if end >= wanted:
            return at
        following = calendar.next_day(at)
        # On the last day, later by just as much as is lacking; otherwise a day later.
        lacking = wanted - end
        if lacking < calendar.left(at) and calendar.spread(at + lacking, length)[-1].end >= wanted:
            return at + lacking
        at = following
