"""Part 8: one sheet a surface."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.document.model import Position, SetOutPart, Sheet
from tilespec.document.parts.scope import covering_rows
from tilespec.document.parts.view import View, said
from tilespec.document.text import Ref, Said
from tilespec.job.types import Rect, Room, Surface, Words
from tilespec.quantity import UNITS, Kind, Quantity


@dataclass(frozen=True, slots=True)
class Hung:
    """A drawing of the document: its name, what stands above it, its scale, and the sizes written in it."""

    name: Ref
    title: Said
    scale: Ref
    shown: tuple[Quantity, ...]


def set_out(view: View, drawings: dict[str, Hung]) -> SetOutPart:
    """`drawings`: by surface id; the plan of a room by its name."""
    sheets: list[Sheet] = []
    for room in view.job.rooms:
        d = drawings[room.name]
        sheets.append(Sheet(Said(room.name), "plan", d.name, d.title, d.scale, (), (), _sizes(d), None))
        sheets += [_sheet(view, room, s, drawings[s.id]) for s in room.surfaces if s.id in drawings]
    return SetOutPart(tuple(sheets), view.job.measured_to)


def _sizes(drawing: Hung) -> tuple[Quantity, ...]:
    """The sizes written in a drawing, in the millimetres that it writes them in."""
    return tuple(q.shown_in(UNITS["mm"]) if q.kind is Kind.LENGTH else q for q in drawing.shown)


def _sheet(view: View, room: Room, s: Surface, drawing: Hung) -> Sheet:
    positions = (
        *(_box(o.kind, None, o.rect) for o in s.openings),
        *(_box("niche", None, n.rect) for n in s.niches),
        *(_box("not tiled", None, r) for r in s.untiled),
        *(Position(p.kind, said(p.label), p.x, p.y, None, None) for p in s.penetrations),
        *(_box(f.kind, f.label, f.rect) for f in s.fittings),
    )
    return Sheet(
        view.place(s.id),
        s.kind,
        drawing.name,
        drawing.title,
        drawing.scale,
        covering_rows(view, s),
        tuple(dict.fromkeys(positions)),
        _sizes(drawing),
        room.levels.datum if s.kind == "wall" else None,
    )


def _box(kind: str, label: Words | None, r: Rect) -> Position:
    return Position(kind, said(label), r.x, r.y, r.width, r.height)
