"""Part 9: the days."""

from __future__ import annotations

from datetime import datetime

from tilespec.document.model import Call, DayRow, PauseRow, ProgrammePart, SlotRow, TradeRow
from tilespec.document.parts.view import View
from tilespec.document.text import Ref, Said, date_ref, time_ref
from tilespec.programme.types import Day, Pause


def programme(view: View, charts: tuple[Ref, ...]) -> ProgrammePart:
    p = view.programme
    calls: dict[str, list[Call]] = {}
    for op in view.sequence.operations:
        if op.trade != "tiler":
            calls.setdefault(op.trade, []).append(Call(view.number(op.id), view.starts(op.id)))
    trades = tuple(TradeRow(Said(trade), tuple(each)) for trade, each in calls.items())
    return ProgrammePart(
        p.dated,
        tuple(_day(view, day) for day in p.days),
        charts,
        view.moment(p.finish) if p.finish else None,
        p.working_days,
        p.person_hours,
        tuple(view.number(id) for id in p.critical),
        trades,
    )


def _day(view: View, day: Day) -> DayRow:
    p = view.programme
    slots = tuple(
        SlotRow(time_ref(s.start), time_ref(s.end), view.number(s.operation), s.last, s.operation in p.critical)
        for s in day.slots
    )
    # Of several waits for one reason that hold back one step, the last to end counts.
    last: dict[tuple[str, str], Pause] = {}
    for q in p.pauses:
        if q.start.date() == day.on and ((known := last.get((q.why, q.before))) is None or q.until > known.until):
            last[q.why, q.before] = q
    held: dict[tuple[str, datetime, str], list[str]] = {}
    for (why, before), q in last.items():
        held.setdefault((why, q.until, q.after), []).append(before)
    order = {op.id: i for i, op in enumerate(view.sequence.operations)}
    ended = {s.operation for s in day.slots if s.last}
    pauses = tuple(
        PauseRow(
            why, tuple(view.number(id) for id in sorted(ids, key=order.__getitem__)), view.moment(until),
            view.number(after) if after in ended else None,
        )
        for (why, until, after), ids in held.items()
    )
    return DayRow(Ref(str(day.number), "step"), date_ref(day.on) if p.dated else None, slots, pauses)
