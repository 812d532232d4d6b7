"""The programme: the sequence's operations on the calendar, for one crew."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, timedelta
from fractions import Fraction
from math import ceil

from tilespec.job.types import Job
from tilespec.practice.lookup import Practice
from tilespec.programme.calendar import Calendar, calendar
from tilespec.programme.network import Activity, Lag, analyse
from tilespec.programme.plan import After, Laid, Task, lay
from tilespec.programme.types import Day, Pause, Programme, Slot
from tilespec.quantity import Quantity, counted, work
from tilespec.quantity.total import total
from tilespec.sequence.types import Operation, Sequence

CREW = "tiler"
# A Monday like any other: without a start in the spec only the day numbers are printed.
UNDATED = date(2001, 1, 1)


def schedule(job: Job, practice: Practice, sequence: Sequence) -> Programme:
    """Lay the operations in their order, each as early as it can be.

    Labour is divided by the crew and runs in working hours; waits run on the clock, day and night. Other operations go on
    while one waits. Other trades occupy the room they work in, not the crew.
    """
    site = calendar(job.hours, job.closed)
    first = site.hours(site.open_day(job.begin or UNDATED)).start
    durations = {op.id: duration(op, job) for op in sequence.operations}
    step = practice.limit("programme-step")
    rooms = tuple(dict.fromkeys(op.room for op in sequence.operations if op.room))
    tasks = tuple(_task(op, durations[op.id], step, rooms) for op in sequence.operations)
    least = timedelta(seconds=int(practice.limit("programme-least-start").value))
    laid = {p.id: p for p in lay(tasks, site, first, least)}
    days = _days(sequence, laid, site)
    finish = max((p.end for p in laid.values()), default=None)
    return Programme(
        job.begin is not None, days, _pauses(sequence, laid), finish,
        counted(sum(1 for d in days if d.slots), "days on which somebody works"),
        total([(op.id, op.labour) for op in sequence.operations if op.trade == CREW and op.labour is not None], "h",
              of="labour of the crew", source="labour of all steps"),
        critical(sequence, durations),
    )


def duration(op: Operation, job: Job) -> Quantity | None:
    """Working time: person-time shared by the crew; another trade's time as it is; None for what takes none."""
    if op.labour is None or op.labour.value <= 0:
        return None
    if op.trade != CREW:
        return op.labour
    persons = total(list(job.crew), "count", of="crew", source="everybody in the crew")
    if persons.value <= 1:
        return op.labour
    return work("labour / persons", "h", source="shared by the crew", labour=op.labour, persons=persons)


def critical(sequence: Sequence, durations: Mapping[str, Quantity | None]) -> tuple[str, ...]:
    """Operations that delay the end when they are late: labour and waits on a clock that never stops."""
    activities: list[Activity] = []
    for op in sequence.operations:
        lags = tuple(Lag(a.operation, _seconds(a.wait.minimum if a.wait else None)) for a in op.after)
        activities.append(Activity(op.id, _seconds(durations[op.id]), lags))
    return tuple(t.id for t in analyse(activities) if t.critical)


def _seconds(q: Quantity | None) -> Fraction:
    return q.value if q is not None else Fraction(0)


def _task(op: Operation, length: Quantity | None, step: Quantity, rooms: tuple[str, ...]) -> Task:
    steps = ceil(_seconds(length) / step.value)
    # Work without a room is work on the whole site: it takes every room.
    places = (f"room {op.room}",) if op.room else ("site", *(f"room {r}" for r in rooms))
    after = tuple(
        After(
            a.operation, _time(a.wait.minimum) if a.wait else timedelta(0),
            _time(a.wait.maximum) if a.wait and a.wait.maximum is not None else None,
        ) for a in op.after
    )
    return Task(op.id, timedelta(seconds=int(steps * step.value)), (f"trade {op.trade}", *places), after)


def _time(q: Quantity) -> timedelta:
    """On the calendar, waits run to the full second: a part of one more is waited."""
    return timedelta(seconds=ceil(q.value))


def _days(sequence: Sequence, laid: Mapping[str, Laid], site: Calendar) -> tuple[Day, ...]:
    slots: dict[date, list[Slot]] = {}
    for op in sequence.operations:
        spans = laid[op.id].spans
        for n, s in enumerate(spans, 1):
            slots.setdefault(s.start.date(), []).append(Slot(op.id, s.start, s.end, n == len(spans)))
    if not slots:
        return ()
    days: list[Day] = []
    on, last = min(slots), max(slots)
    while on <= last:
        days.append(Day(on, len(days) + 1, tuple(sorted(slots.get(on, ()), key=lambda s: (s.start, s.end)))))
        on = site.add_days(on, 1)
    return tuple(days)


def _pauses(sequence: Sequence, laid: Mapping[str, Laid]) -> tuple[Pause, ...]:
    pauses: list[Pause] = []
    for op in sequence.operations:
        for link in op.after:
            w = link.wait
            if w is None or (w.minimum.value <= 0 and w.maximum is None):
                continue
            start: datetime = laid[link.operation].end
            latest = start + _time(w.maximum) if w.maximum is not None else None
            late = latest is not None and laid[op.id].start > latest
            pauses.append(Pause(link.operation, op.id, w.why, start, start + _time(w.minimum), latest, late))
    return tuple(sorted(pauses, key=lambda p: (p.start, p.until)))
