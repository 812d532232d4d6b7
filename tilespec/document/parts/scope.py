"""Part 2: surfaces and finishes, levels, what is assumed or generic, deviations and records."""

from __future__ import annotations

from tilespec.document.model import (
    BaseRow,
    CoveringRow,
    DeliveryRow,
    Layer,
    LevelRow,
    MembraneRow,
    NoteRow,
    QuestionRow,
    RecordRow,
    ScopePart,
    SurfaceRow,
    WarningRow,
    ZoneRow,
)
from tilespec.document.parts.view import View, area, said
from tilespec.document.text import Ref, Said, date_ref
from tilespec.job.types import Base, Covering, Question, Room, Surface, Zone
from tilespec.practice.lookup import Word
from tilespec.quantity import Quantity


def scope(view: View) -> ScopePart:
    job = view.job
    return ScopePart(
        tuple(row for s in job.tiled if (row := _surface(view, s)) is not None),
        tuple(_levels(view, room) for room in job.rooms),
        tuple(question_row(q, view.place(q.about), view.line(q.span)) for q in job.questions),
        tuple(view.product(p) for p in job.products if p.generic),
        tuple(row for row, _ in view.deviations),
        tuple(NoteRow(Said(n.about.text), Said(n.text.text), view.line(n.text.span)) for n in job.notes),
        tuple(
            RecordRow(
                Said(r.kind.text),
                view.place(r.place),
                date_ref(r.on),
                Said(r.by.text),
                r.reading,
                r.depth,
                r.result,
                view.line(r.span),
                r.over,
                r.samples,
                r.lasted,
                r.fell,
                said(r.work_by),
            )
            for r in job.records
        ),
        tuple(
            DeliveryRow(
                Said(d.tile.name),
                date_ref(d.on) if d.on else None,
                said(d.shade),
                said(d.caliber),
                d.width,
                d.height,
                d.warp,
                view.line(d.span),
            )
            for d in job.deliveries
        ),
        tuple(
            WarningRow(Ref(d.code, "code"), d.name, d.severity.value, Said(d.message), Said(d.help), view.line(d.primary.span))
            for d in view.diagnostics
        ),
    )


def question_row(q: Question, place: Said, line: Ref | None) -> QuestionRow:
    return QuestionRow(q.topic, place, Said(q.text), q.ask, q.value, line, q.limits, tuple(Said(x) for x in q.each))


def covering_rows(view: View, surface: Surface) -> tuple[CoveringRow, ...]:
    measure = view.measure(surface.id)
    areas: tuple[Quantity | None, ...] = measure.coverings if measure else (None,) * len(surface.coverings)
    return tuple(covering_row(view, c, q) for c, q in zip(surface.coverings, areas, strict=True))


def covering_row(view: View, c: Covering, q: Quantity | None) -> CoveringRow:
    return CoveringRow(
        view.tile(c.tile),
        c.joint,
        c.pattern.name,
        c.pattern.stepped,
        c.pattern.upright,
        c.pattern.double,
        c.pattern.turned,
        view.tile(c.pattern.second) if c.pattern.second is not None else None,
        c.pattern.run,
        c.start.across,
        c.start.up,
        c.role,
        area(c.region),
        c.border,
        q,
    )


def _base(base: Base) -> BaseRow:
    return BaseRow(base.kind, said(base.words), base.thickness, date_ref(base.laid) if base.laid else None, base.existing)


def _surface(view: View, s: Surface) -> SurfaceRow | None:
    m = view.measure(s.id)
    if m is None:
        return None
    return SurfaceRow(
        view.place(s.id),
        s.kind,
        s.width,
        s.height,
        s.tiled_height,
        _base(s.base),
        covering_rows(view, s),
        tuple(ZoneRow(z.exposure, Said(z.cause), area(z.rect), _exposure_class(view, s, z)) for z in s.zones),
        tuple(MembraneRow(a.reason, area(a.rect), a.basis) for a in s.membrane_areas),
        m.gross_area,
        m.openings,
        m.untiled,
        m.tiled_area,
        m.membrane_area,
    )


def _exposure_class(view: View, s: Surface, z: Zone) -> Word | None:
    """What the family calls so wet a place (W1-I ...), where it has classes at all."""
    showers = tuple(x for r in view.job.rooms if r.name == s.room for x in r.showers)
    level = s.kind == "floor" and (z.exposure == "wet floor" or any(not x.tray for x in showers))
    key = f"exposure-{'level-shower' if level else z.exposure.replace(' ', '-')}-{s.kind}"
    return view.practice.word(key) if view.practice.entry(key) is not None else None


def _levels(view: View, room: Room) -> LevelRow:
    levels = room.levels
    return LevelRow(
        Said(room.name),
        tuple(Layer(name, q) for name, q in levels.build_up),
        levels.total,
        levels.hall,
        levels.datum,
        levels.drain_grate,
        room.fall.slope if room.fall else None,
        room.fall.planes if room.fall else "",
    )
