"""Parts 5, 6, 7 and 10: hazards, inspection, the steps, and the checklist. They share the steps' numbers."""

from __future__ import annotations

from tilespec.document.model import (
    ChecklistPart,
    CheckRow,
    DustRow,
    DustTable,
    HazardMark,
    HazardRow,
    HazardsPart,
    InspectionPart,
    LiftRow,
    PointRow,
    SequencePart,
    Step,
    TestRow,
    ThrownRow,
    WaitRow,
    WasteTable,
)
from tilespec.document.parts.view import View, named, said
from tilespec.document.text import Moment, Ref, Said
from tilespec.job.types import Words
from tilespec.quantity import Limit, Quantity
from tilespec.sequence.types import Dust, Lift, Operation, Point, Wait


def hazards(view: View) -> HazardsPart:
    rows = tuple(
        HazardRow(view.hazard_letters[h.key], h.key, tuple(view.number(o) for o in h.operations), named(h.values), h.licensed)
        for h in view.sequence.hazards
    )
    lifts = tuple(_lift(f) for f in view.sequence.lifts)
    trades = [h.licensed for h in view.sequence.hazards] + [
        op.trade for op in view.sequence.operations if op.trade.startswith("licensed")
    ]
    return HazardsPart(rows, lifts, tuple(Said(t) for t in dict.fromkeys(trades) if t), _dust(view), _waste(view))


def _lift(f: Lift) -> LiftRow:
    return LiftRow(f.what, Said(f.name), f.load, f.limit, f.index, f.measure)


def _dust(view: View) -> DustTable | None:
    e = view.sequence.exposure
    if e is None or not e.planned:
        return None
    said_so = any(c.span is not None for c in view.job.cutting)
    planned, instead = (tuple(_dust_row(d, e.limit) for d in dusts) for dusts in (e.planned, e.instead))
    return DustTable(planned, instead, e.limit, e.action, e.low, e.high, e.table_hours, said_so, _over(e.low, e.high, e.limit))


def _dust_row(d: Dust, limit: Quantity) -> DustRow:
    why = d.respirator.why if d.respirator is not None else None
    guidance = isinstance(why, Limit) and why.seen == "memory"
    return DustRow(
        d.work, d.method, d.outdoors, d.time, d.a_day, d.low, d.high, d.respirator, guidance, _over(d.low, d.high, limit),
    )


def _over(low: Quantity | None, high: Quantity | None, limit: Quantity) -> str:
    """Against the limit; without an upper figure nobody knows."""
    if low is None:
        return ""
    if low.value > limit.value:
        return "is"
    return "may-be" if high is None or high.value > limit.value else ""


def _waste(view: View) -> WasteTable | None:
    w = view.sequence.waste
    if w is None or not (w.thrown or w.slurry):
        return None
    return WasteTable(tuple(ThrownRow(t.what, t.packs, t.hazardous) for t in w.thrown), w.slurry, w.water)


def inspection(view: View) -> InspectionPart:
    points = tuple(_point(view, op, op.point) for op in view.sequence.operations if op.point is not None)
    return InspectionPart(points, view.job.notice)


def _point(view: View, op: Operation, point: Point) -> PointRow:
    tests = tuple(
        TestRow(t.what, t.limit, t.upper, t.compare, t.recorded, said(t.recorded_by), view.where(t.places), named(t.values))
        for t in point.tests
    )
    return PointRow(point.kind, view.number(op.id), point.releases, tests, said(point.signed), view.starts(op.id))


def sequence(view: View) -> SequencePart:
    return SequencePart(tuple(_step(view, op) for op in view.sequence.operations))


def _step(view: View, op: Operation) -> Step:
    marks = tuple(HazardMark(view.hazard_letters[key], key) for key in op.hazards if key in view.hazard_letters)
    after = tuple(view.number(link.operation) for link in op.after)
    places = op.places or ((op.room,) if op.room else ())
    return Step(
        view.number(op.id),
        Ref(op.id, "id"),
        op.kind,
        op.stage,
        Said(op.room) if op.room else None,
        Said(op.room) if op.room and len(view.job.rooms) > 1 and op.kind != "wall-tiles" else None,
        view.places(places),
        view.where(places),
        Said(op.trade),
        op.trade == "tiler",
        said(op.title),
        tuple(view.product(p) for p in op.products),
        named(op.values),
        op.facts,
        marks,
        after,
        _waits(view, op),
        _point(view, op, op.point) if op.point else None,
        op.labour,
        view.starts(op.id),
        view.line(op.span),
        tuple(row for row, steps in view.deviations if op.id in steps),
        tuple(_lift(f) for f in op.loads),
    )


def _waits(view: View, op: Operation) -> tuple[WaitRow, ...]:
    """The waits that start when this operation ends; the same wait for several steps is said once."""
    grouped: dict[tuple[object, ...], list[tuple[Operation, Wait]]] = {}
    for later in view.sequence.operations:
        for link in later.after:
            if link.operation == op.id and link.wait is not None and link.wait.minimum.value > 0:
                w = link.wait
                key = (w.why, w.minimum, w.maximum, w.product.name if w.product else "")
                grouped.setdefault(key, []).append((later, w))
    return tuple(_wait(view, op, group) for group in grouped.values())


def _wait(view: View, op: Operation, group: list[tuple[Operation, Wait]]) -> WaitRow:
    w = group[0][1]
    overrun = Said(w.overrun.text) if isinstance(w.overrun, Words) else None
    key = w.overrun if isinstance(w.overrun, str) else ""
    return WaitRow(
        w.why,
        w.minimum,
        w.maximum,
        overrun,
        key,
        view.product(w.product) if w.product else None,
        tuple(view.number(later.id) for later, _ in group),
        _until(view, op, group[0][0], w.why),
    )


def _until(view: View, op: Operation, later: Operation, why: str) -> Moment | None:
    found = next((p for p in view.programme.pauses if p.after == op.id and p.before == later.id and p.why == why), None)
    return view.moment(found.until) if found else None


def checklist(view: View) -> ChecklistPart:
    return ChecklistPart(
        tuple(
            CheckRow(
                view.number(op.id),
                op.point is not None and op.point.kind == "hold",
                op.point is not None and op.point.kind == "witness",
            )
            for op in view.sequence.operations
        )
    )
