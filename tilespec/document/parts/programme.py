"""Part 9: the days."""

from __future__ import annotations

from tilespec.document.model import DayRow, PauseRow, ProgrammePart, SlotRow, TradeRow
from tilespec.document.parts.view import View
from tilespec.document.text import Ref, Said, date_ref, time_ref
from tilespec.programme.types import Day


def programme(view: View, charts: tuple[Ref, ...]) -> ProgrammePart:
    p = view.programme
    trades = tuple(
        TradeRow(Said(op.trade), view.number(op.id), view.starts(op.id)) for op in view.sequence.operations if op.trade != "tiler"
    )
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
    pauses = tuple(
        PauseRow(q.why, view.number(q.after), view.number(q.before), view.moment(q.until))
        for q in p.pauses
        if q.start.date() == day.on
    )
    return DayRow(Ref(str(day.number), "step"), date_ref(day.on) if p.dated else None, slots, pauses)
