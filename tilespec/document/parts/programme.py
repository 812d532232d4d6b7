"""Part 9: the days."""

from __future__ import annotations

from datetime import datetime

from tilespec.document.model import Call, DayRow, PauseRow, ProgrammePart, SlotRow, TradeRow
from tilespec.document.parts.view import View
from tilespec.document.text import Ref, Said, date_ref, time_ref
from tilespec.programme.types import Day


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
    last: dict[tuple[str, str], datetime] = {}
    for q in p.pauses:
        if q.start.date() == day.on:
            last[q.why, q.before] = max(q.until, last.get((q.why, q.before), q.until))
    held: dict[tuple[str, datetime], list[str]] = {}
    for (why, before), until in last.items():
        held.setdefault((why, until), []).append(before)
    order = {op.id: i for i, op in enumerate(view.sequence.operations)}
    pauses = tuple(
        PauseRow(why, tuple(view.number(id) for id in sorted(ids, key=order.__getitem__)), view.moment(until))
        for (why, until), ids in held.items()
    )
    return DayRow(Ref(str(day.number), "step"), date_ref(day.on) if p.dated else None, slots, pauses)
