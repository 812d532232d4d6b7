"""A room on one sheet: the floor in the middle, the walls folded down around it, every tile drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, hypot

from tilespec.document.drawing.dimension import standard
from tilespec.document.drawing.elevation import bare_outline
from tilespec.document.drawing.ground import what_is_in
from tilespec.document.drawing.lettering import PLAIN, SMALL
from tilespec.document.drawing.scale import SCALES, Paper, bar, paper, words
from tilespec.document.drawing.shape import Line, Polygon, Spot, bounds, clip, hatch, sides
from tilespec.document.drawing.sheet import ASSUMED, Sheet
from tilespec.document.drawing.svg import plain
from tilespec.document.drawing.tiles import MOST_LINES, Tiles, floats, hatch_cut, laid_on
from tilespec.document.drawing.types import Drawing, Show
from tilespec.job.types import Job, Rect, Room, Surface, WallLine
from tilespec.setout.plane import wall_plan
from tilespec.setout.types import Face, SetOut

_MARGIN = 5.0  # around the whole, for letters
_GAP = 3.0
_TOUCH = 1e-6  # m2

Place = Callable[[Spot], Spot]


@dataclass(frozen=True, slots=True)
class _Leaf:
    """A surface laid flat: `place` takes a spot of its own (metres) to the common plane (metres, y down)."""

    surface: Surface
    face: Face | None
    tiles: tuple[Tiles, ...]
    outline: Polygon  # in the common plane
    place: Place


def unfolded(room: Room, job: Job, setout: SetOut, show: Show | None = None) -> Drawing:
    """The room unfolded, at the largest scale that fits the job's paper. Walls that would cover others stand in a strip below.

    `show` as for `elevation`. Raises ValueError for a room too large for any scale.
    """
    leaves = _leaves(room, setout)
    sheet = paper(job.paper)
    for scale in SCALES:
        made = _drawn(room, job, leaves, setout, show or standard(job.family), scale, sheet)
        if made is not None:
            return made
    raise ValueError("fits no sheet at any scale")


def _leaves(room: Room, setout: SetOut) -> tuple[_Leaf, ...]:
    most = MOST_LINES // max(1, len(setout.layouts)) if len(setout.layouts) > 6 else MOST_LINES // 6

    def leaf(s: Surface, to: Place) -> _Leaf:
        face = next((f for f in setout.faces if f.id == s.id), None)
        tiles = tuple(t for t in laid_on(setout.on(s.id), s.id, most))
        return _Leaf(s, face, tiles, tuple(to(p) for p in floats(bare_outline(s, room))), to)

    corners = floats(wall_plan(room)) if room.walls else ()
    found: list[_Leaf] = []
    if room.floor is not None:
        found.append(leaf(room.floor, lambda p: p))
    taken: list[Polygon] = [corners] if corners else [found[0].outline] if found else []
    rest: list[Surface] = []
    for s in room.wall_surfaces:
        n = next((i for i, w in enumerate(room.walls) if w.letter == s.letter), None)
        if n is None:
            rest.append(s)
            continue
        made = leaf(s, _folded(room.walls[n], corners[n], corners[(n + 1) % len(corners)]))
        if any(_cover(made.outline, t) for t in taken):
            rest.append(s)
            continue
        found.append(made)
        taken.append(made.outline)
    if rest:
        found += _strip(rest, found, leaf)
    return tuple(found)


def _folded(line: WallLine, start: Spot, end: Spot) -> Place:
    """Wall's own coordinates to the plan: its foot on its line, its height away from the room."""
    long = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long

    def to(p: Spot) -> Spot:
        return start[0] + ux * p[0] + uy * p[1], start[1] + uy * p[0] - ux * p[1]

    return to


def _cover(a: Polygon, b: Polygon) -> bool:
    import shapely

    return float(shapely.Polygon(a).intersection(shapely.Polygon(b)).area) > _TOUCH


def _strip(rest: list[Surface], found: list[_Leaf], leaf: Callable[[Surface, Place], _Leaf]) -> list[_Leaf]:
    """Walls side by side, upright, below the rest, in rows no wider than it (or than the widest of them)."""
    whole = bounds(p for x in found for p in x.outline) if found else None
    left, top = (whole.left, whole.bottom) if whole else (0.0, 0.0)
    most = max([whole.width if whole else 0.0] + [float(s.width.value) for s in rest])
    gap = 0.25
    made: list[_Leaf] = []
    x, row = left, 0.0
    top += gap
    for s in rest:
        wide, high = float(s.width.value), float(s.height.value)
        if x > left and x + wide > left + most + 1e-9:
            x, top, row = left, top + row + gap, 0.0

        def to(p: Spot, x: float = x, foot: float = top + high) -> Spot:
            return x + p[0], foot - p[1]

        made.append(leaf(s, to))
        x, row = x + wide + gap, max(row, high)
    return made


def _drawn(
    room: Room, job: Job, leaves: tuple[_Leaf, ...], setout: SetOut, show: Show, scale: int, sheet_size: Paper,
) -> Drawing | None:
    k = 1000 / scale
    spots = [p for x in leaves for p in x.outline] + list(floats(wall_plan(room)) if room.walls else ())
    whole = bounds(spots)
    wide, high = whole.width * k, whole.height * k
    if wide + 2 * _MARGIN > sheet_size.width or high + 2 * _MARGIN + 24 > sheet_size.height:
        return None
    left, top = (sheet_size.width - wide) / 2, _MARGIN
    sheet = Sheet(show)
    p = sheet.picture

    def paper_spot(spot: Spot) -> Spot:
        return left + (spot[0] - whole.left) * k, top + (spot[1] - whole.top) * k

    if room.walls and room.floor is None:
        p.polygon("fine", tuple(paper_spot(a) for a in floats(wall_plan(room))))
    small = False
    for x in leaves:
        small = _leaf(x, room, sheet, paper_spot, scale) or small
    for x in leaves:
        _name(x, room, sheet, paper_spot)
    end = top + high + _MARGIN + 1.0
    sheet.explain("datum", sheet.say("datum line ", room.levels.datum, " above the finished floor"))
    sheet.explain("cut", "cut or drilled")
    if any(x.surface.movement_joints for x in leaves):
        sheet.explain("movement", "movement joint")
    if small:
        sheet.explain("note", "where no tiles are drawn they are too small at this scale")
    width = float(sheet_size.width)
    end += sheet.key(width, 0.0, end) + 2.0
    star = f" {ASSUMED} assumed: confirm on site before setting out." if sheet.assumed else ""
    remark = f"The floor seen from above, each wall from inside, folded out at its foot; sizes stand on the sheet of each.{star}"
    end += sheet.foot(bar(scale, job.family == "US"), words(scale), remark, width, 0.0, end)
    if end > sheet_size.height:
        return None
    names = [f"{w.letter} {what_is_in(room, w.letter)}".strip() for w in room.walls]
    alt = f"{plain(room.name)}, unfolded: the floor with its walls folded out around it, every tile drawn; walls clockwise: "
    alt += f"{', '.join(names)}."
    down = ceil(end)
    return Drawing(
        f"unfolded/{room.name}",
        f"{plain(room.name)}: unfolded",
        p.render(sheet_size.width, down, alt),
        words(scale),
        alt,
        sheet_size.width,
        down,
        sheet.shown,
    )


def _leaf(x: _Leaf, room: Room, sheet: Sheet, paper_spot: Callable[[Spot], Spot], scale: int) -> bool:
    """Draw a surface; whether its tiles are too small to be drawn."""
    p = sheet.picture

    def at(spot: Spot) -> Spot:
        return paper_spot(x.place(spot))

    small = False
    outline = tuple(paper_spot(s) for s in x.outline)
    for t in x.tiles:
        small = small or t.detail(scale) != "tiles"
        p.lines("grid", ((*at(q[:2]), *at(q[2:])) for q in t.lines(scale)))
        if t.detail(scale) != "region" and len(t.layout.pieces) <= t.most:
            hatch_cut(sheet, t.layout.pieces, at)
    p.polygon("line", outline)
    for a, b in sides(outline):
        sheet.crossing.append((*a, *b))
    s = x.surface
    for kind, rect in (*((o.kind, o.rect) for o in s.openings), *(("niche", n.rect) for n in s.niches)):
        shape = tuple(at(c) for c in _corners(rect))
        p.polygon("gap", shape)
        if kind == "niche":
            p.lines("hatch", hatch(shape, 1.2, True))
        p.polygon("line", shape)
        sheet.label(((kind,),), bounds(shape))
    into = tuple(at(a) for a in floats(x.face.outline)) if x.face is not None else outline
    if s.kind == "wall":
        level = float(room.levels.datum.value)
        line = (*at((0.0, level)), *at((float(s.width.value), level)))
        out = [tuple(at(c) for c in _corners(o.rect)) for o in s.openings]
        p.lines("datum", clip(line, (outline,), out))
        sheet.crossing.append(line)
    for joint in s.movement_joints:
        box = bounds(floats(bare_outline(s, room)))
        if joint.x is not None:
            v = float(joint.x.value)
            cut: Line = (*at((v, box.top - 1)), *at((v, box.bottom + 1)))
        elif joint.y is not None:
            v = float(joint.y.value)
            cut = (*at((box.left - 1, v)), *at((box.right + 1, v)))
        else:
            continue
        holes = [tuple(at(a) for a in floats(r)) for r in x.face.holes] if x.face is not None else []
        p.lines("movement", clip(cut, (into,), holes))
    for hole in s.penetrations:
        cx, cy = at((float(hole.x.value), float(hole.y.value)))
        p.line("line", (cx - 1.1, cy, cx + 1.1, cy))
        p.line("line", (cx, cy - 1.1, cx, cy + 1.1))
        if hole.diameter is not None:
            p.circle("line", cx, cy, max(0.4, float(hole.diameter.value) * 500 / scale))
    return small


def _corners(rect: Rect) -> Polygon:
    x, y = float(rect.x.value), float(rect.y.value)
    right, top = float(rect.right), float(rect.top)
    return (x, y), (right, y), (right, top), (x, top)


def _name(x: _Leaf, room: Room, sheet: Sheet, paper_spot: Callable[[Spot], Spot]) -> None:
    """The letter of a wall, or "floor", in the middle of its surface where there is room."""
    s = x.surface
    box = bounds(paper_spot(a) for a in x.outline)
    avoid = [bounds(paper_spot(x.place(c)) for c in _corners(o.rect)) for o in s.openings]
    if s.kind == "floor":
        sheet.label((("floor",),), box, avoid=avoid, within=tuple(paper_spot(a) for a in x.outline))
        return
    text = f"{s.letter} {what_is_in(room, s.letter)}".strip()
    within = tuple(paper_spot(a) for a in x.outline)
    if sheet.label(((text,), (s.letter,)), box, size=PLAIN, bold=True, avoid=avoid, within=within) is None:
        sheet.beside(s.letter, box.middle, 0.0, SMALL)
