"""Parts 5, 6, 7 and 10: hazards, inspection, the steps, and the checklist. They share the steps' numbers."""

from __future__ import annotations

from tilespec.document.model import (
    ChecklistPart,
    CheckRow,
    HazardMark,
    HazardRow,
    HazardsPart,
    InspectionPart,
    LiftRow,
    PointRow,
    SequencePart,
    Step,
    TestRow,
    WaitRow,
)
from tilespec.document.parts.view import View, named, said
from tilespec.document.text import Moment, Ref, Said
from tilespec.job.types import Words
from tilespec.sequence.types import Operation, Point, Wait


def hazards(view: View) -> HazardsPart:
    rows = tuple(
        HazardRow(view.hazard_letters[h.key], h.key, tuple(view.number(o) for o in h.operations), named(h.values), h.licensed)
        for h in view.sequence.hazards
    )
    lifts = tuple(LiftRow(f.what, Said(f.name), f.load, f.limit, f.index, f.measure) for f in view.sequence.lifts)
    trades = [h.licensed for h in view.sequence.hazards] + [
        op.trade for op in view.sequence.operations if op.trade.startswith("licensed")
    ]
    return HazardsPart(rows, lifts, tuple(Said(t) for t in dict.fromkeys(trades) if t))


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
