"""Part 8: one sheet a surface."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tilespec.document.model import (
    ChipRow,
    CriterionRow,
    CutOutRow,
    CutRow,
    CuttingRow,
    FallRow,
    FoldRow,
    FromPlace,
    FromRow,
    HeightRow,
    HoleRow,
    LaidRow,
    LineUpRow,
    MoreRow,
    PlaneRow,
    PlanRow,
    Position,
    SearchRow,
    SetOutPart,
    Sheet,
    WayRow,
)
from tilespec.document.parts.scope import covering_row, covering_rows
from tilespec.document.parts.view import View, said
from tilespec.document.text import Ref, Said
from tilespec.job.types import Rect, Room, Surface, Words
from tilespec.quantity import UNITS, Kind, Quantity, counted, work
from tilespec.setout.judge import CRITERIA
from tilespec.setout.types import Candidate, Layout, OffcutPlan, Row, Way

_MM = UNITS["mm"]


@dataclass(frozen=True, slots=True)
class Hung:
    """A drawing of the document: its name, what stands above it, its scale, and the sizes written in it."""

    name: Ref
    title: Said
    scale: Ref
    shown: tuple[Quantity, ...]
    more: tuple[tuple[Ref, Said], ...] = ()


def set_out(view: View, drawings: dict[str, Hung]) -> SetOutPart:
    """`drawings`: by surface id; the plan of a room by its name."""
    sheets: list[Sheet] = []
    for room in view.job.rooms:
        d = drawings[room.name]
        sizes = _sizes(d)
        nothing = (False, False, False, False, (), None)
        sheets.append(Sheet(Said(room.name), "plan", d.name, d.title, d.scale, (), (), sizes, None, (), *nothing, _more(d)))
        sheets += [_sheet(view, room, s, drawings[s.id]) for s in room.surfaces if s.id in drawings]
    searched = [row for x in view.setout.layouts if (row := _searched(view, x)) is not None]
    limit = view.practice.limit
    return SetOutPart(
        tuple(sheets), view.job.measured_to,
        tuple(
            CriterionRow(Ref(chr(ord("a") + n), "letter"), name, any(
                v is not None and v.value for row in searched for v in (*row.values[n:n + 1], *row.runner_up_values[n:n + 1])
            ))
            for n, name in enumerate(CRITERIA)
        ),
        tuple(searched),
        limit("cut-poor-share"), limit("cut-poor-size"), limit("cut-min-share"), tuple(_plan(view, p) for p in view.offcuts),
    )


def _more(drawing: Hung) -> tuple[MoreRow, ...]:
    return tuple(MoreRow(ref, title) for ref, title in drawing.more)


def _sizes(drawing: Hung) -> tuple[Quantity, ...]:
    """The sizes written in a drawing, in the millimetres that it writes them in."""
    return tuple(q.shown_in(UNITS["mm"]) if q.kind is Kind.LENGTH else q for q in drawing.shown)


def _sheet(view: View, room: Room, s: Surface, drawing: Hung) -> Sheet:
    laid = tuple(_laid(view, x) for x in view.setout.on(s.id))
    own = [c for x in laid if not x.face for c in x.cuts]
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
        laid,
        bool(own),
        any(c.plain for c in own),
        any(c.thin for x in laid for c in x.cuts),
        any(x.face for x in laid),
        _line_up(view, s),
        _fall(view, room) if s.kind == "floor" else None,
        _more(drawing),
    )


def _laid(view: View, x: Layout) -> LaidRow:
    name, number, side = "", "", ""
    if x.face != x.surface:
        words = x.face.removeprefix(f"{x.surface}/").split()
        number = next((w for w in words if w.isdigit()), "")
        name, side = " ".join(words[:-1]).replace(number, "").strip(), words[-1]
    across, up = (_way(w) for w in x.begin.words)
    return LaidRow(
        name, Ref(number, "letter"), side, covering_row(view, x.covering, x.area), across, up, x.begin.found, x.full,
        tuple(_cut(r) for r in x.rows),
    )


def _way(w: Way) -> WayRow:
    return WayRow(w.words, w.cut, w.lead)


def _cut(r: Row) -> CutRow:
    return CutRow(
        Ref(str(r.number), "letter"), r.kind,
        r.kind in ("width", "height", "both") and not (r.holes or r.folds or r.chips), r.thin,
        r.count, r.width.shown_in(_MM), r.height.shown_in(_MM),
        tuple(q.shown_in(_MM) for q in r.ends),
        tuple(CutOutRow(at, w, h) for at, w, h in r.notches),
        tuple(HoleRow(Said(name), x, y, d, (_outside(x), _outside(y))) for name, x, y, d in r.holes),
        tuple(FoldRow(*f) for f in r.folds),
        tuple(ChipRow(*c) for c in r.chips),
    )


def _outside(place: Quantity) -> Quantity | None:
    if place.value >= 0:
        return None
    return work("-place", "mm", source="centre of a hole that lies outside the piece", place=place)


def _searched(view: View, x: Layout) -> SearchRow | None:
    chosen, other = x.begin.chosen, x.begin.runner_up
    if chosen is None:
        return None
    return SearchRow(
        view.short_place(x.surface), x.role, tuple(_way(w) for w in chosen.words), _values(chosen),
        tuple(_way(w) for w in other.words) if other is not None else (), _values(other) if other is not None else (),
    )


def _values(c: Candidate) -> tuple[Quantity | None, ...]:
    """In the order of all criteria; those that this kind of pattern is not judged by are left out."""
    by_name = {x.name: x.value for x in c.score}
    return tuple(by_name.get(name) for name in CRITERIA)


def _line_up(view: View, s: Surface) -> tuple[LineUpRow, ...]:
    found = []
    for a in view.setout.alignments:
        if s.id in (a.first, a.second):
            other = a.second if a.first == s.id else a.first
            found.append(LineUpRow(a.kind, view.short_place(other), a.off, a.asked, a.off.value == 0))
    return tuple(found)


def _fall(view: View, room: Room) -> FallRow | None:
    f = next((f for f in view.setout.falls if f.room == room.name), None)
    if f is None:
        return None
    return FallRow(
        tuple(PlaneRow(p.side, p.run, p.fall) for p in f.planes),
        tuple(HeightRow(*_lettered(h.name), h.height.shown_in(_MM)) for h in f.heights),
        bool(f.lines), f.threshold_bed,
    )


def _lettered(name: str) -> tuple[str, str]:
    """A place with the letter of its wall apart."""
    place, _, letter = name.partition(" in wall ")
    return place, letter


def _plan(view: View, p: OffcutPlan) -> PlanRow:
    gap = work("cut - bound", "count", source="tiles that a better plan could save at most", cut=p.cut, bound=p.bound)
    several: list[CuttingRow] = []
    alone: dict[tuple[str, int], int] = {}
    for c in p.cuttings:
        if len(c.pieces) == 1 and c.pieces[0][2] == 1:
            place, number, _ = c.pieces[0]
            alone[place, number] = alone.get((place, number), 0) + c.tiles
        else:
            several.append(CuttingRow(counted(c.tiles, "pieces or tiles in the plan of cuts"), _places(view, c.pieces)))
    return PlanRow(
        view.tile(p.tile), p.whole, p.cut, p.bound, gap, p.first_fit, p.proven, p.kerf, tuple(several),
        _places(view, [(place, number, tiles) for (place, number), tiles in alone.items()]),
    )


def _places(view: View, pieces: Sequence[tuple[str, int, int]]) -> tuple[FromPlace, ...]:
    """Pieces by the surface that they are for."""
    found: dict[str, list[FromRow]] = {}
    for place, number, n in pieces:
        row = FromRow(Ref(str(number), "letter"), counted(n, "pieces or tiles in the plan of cuts"))
        found.setdefault(place, []).append(row)
    return tuple(FromPlace(view.short_place(place), tuple(rows)) for place, rows in found.items())


def _box(kind: str, label: Words | None, r: Rect) -> Position:
    return Position(kind, said(label), r.x, r.y, r.width, r.height)
