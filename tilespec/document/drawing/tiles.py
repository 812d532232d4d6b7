"""The tiles of a layout on paper: the joints between them as single lines, and what is sawn hatched and numbered.

A joint is two edges a few tenths of a millimetre apart on paper, so each tile is drawn out to the middle of its joints, and lines
that fall on each other are drawn once. Where a piece is cut it ends at the cut.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from math import hypot

from tilespec.document.drawing.lettering import CAPITAL, SMALL, width
from tilespec.document.drawing.shape import Box, Line, Polygon, Spot, bounds, hatch, inside, sides
from tilespec.document.drawing.sheet import Sheet
from tilespec.setout.start import COURSED
from tilespec.setout.types import Layout, Piece, Ring

# More lines than these are noise on paper, and a file too large to send.
MOST_LINES = 7000
MOST_HATCHED = 1500
MOST_NUMBERS = 700
# Lines closer than this on paper (mm) run into each other.
CLOSEST = 1.0
# A joint wider than this on paper (mm) is drawn with both its edges.
_WIDE = 0.28
# Two lines are one when they are nearer than this in the room (m).
_SAME = 1e-4
_HATCH = 1.5
_GAP = 0.25  # around a number
_DOT = 0.3  # where a leader begins


def floats(ring: Ring) -> Polygon:
    return tuple((float(x), float(y)) for x, y in ring)


# ---------------------------------------------------------------- joints


class _Lines:
    """Straight lines of a few directions; those that lie on each other become one."""

    def __init__(self) -> None:
        self._kept: dict[tuple[float, float], list[tuple[float, float, float]]] = {}

    def add(self, x1: float, y1: float, x2: float, y2: float) -> None:
        dx, dy = x2 - x1, y2 - y1
        long = hypot(dx, dy)
        if long < _SAME:
            return
        ux, uy = dx / long, dy / long
        if ux < -1e-9 or (abs(ux) <= 1e-9 and uy < 0):
            ux, uy = -ux, -uy
        key = round(ux, 5) + 0.0, round(uy, 5) + 0.0
        ux, uy = key
        a, b = x1 * ux + y1 * uy, x2 * ux + y2 * uy
        off = (y1 + y2) / 2 * ux - (x1 + x2) / 2 * uy
        self._kept.setdefault(key, []).append((off, min(a, b), max(a, b)))

    def merged(self) -> tuple[Line, ...]:
        found: list[Line] = []
        for (ux, uy), spans in sorted(self._kept.items()):
            spans.sort()
            square = ux * ux + uy * uy
            at = 0
            while at < len(spans):
                first = spans[at][0]
                end = at
                while end < len(spans) and spans[end][0] - first <= _SAME:
                    end += 1
                for a, b in _joined(sorted((a, b) for _, a, b in spans[at:end])):
                    found.append((
                        (a * ux - first * uy) / square, (a * uy + first * ux) / square,
                        (b * ux - first * uy) / square, (b * uy + first * ux) / square,
                    ))
                at = end
        return tuple(found)


def _joined(spans: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    low, high = spans[0]
    for a, b in spans[1:]:
        if a > high + 2 * _SAME:
            yield low, high
            low, high = a, b
        else:
            high = max(high, b)
    yield low, high


def _grown(ring: Polygon, by: float) -> Polygon:
    """A tile out to the middle of its joints."""
    (x0, y0), (x1, y1), _, (x3, y3) = ring
    wide, high = hypot(x1 - x0, y1 - y0) or 1.0, hypot(x3 - x0, y3 - y0) or 1.0
    ux, uy, vx, vy = (x1 - x0) / wide * by, (y1 - y0) / wide * by, (x3 - x0) / high * by, (y3 - y0) / high * by
    ways = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return tuple((x + i * ux + j * vx, y + i * uy + j * vy) for (x, y), (i, j) in zip(ring, ways, strict=True))


def _run(lines: _Lines, ring: Polygon, step: Spot, count: int, by: float, courses: bool) -> None:
    """The edges of a run of tiles: those along it in one piece, the others once between two tiles."""
    tile = _grown(ring, by)
    stride = hypot(*step)
    last = count - 1
    for a, b in sides(tile):
        dx, dy = b[0] - a[0], b[1] - a[1]
        long = hypot(dx, dy)
        if stride and abs(dx * step[1] - dy * step[0]) < 1e-7 * stride and stride <= long + _SAME:
            far = (step[0] * last, step[1] * last)
            if dx * step[0] + dy * step[1] > 0:
                lines.add(*a, b[0] + far[0], b[1] + far[1])
            else:
                lines.add(a[0] + far[0], a[1] + far[1], *b)
        elif not courses or count == 1:
            for n in range(count):
                lines.add(a[0] + step[0] * n, a[1] + step[1] * n, b[0] + step[0] * n, b[1] + step[1] * n)


def _at_cut(a: Spot, b: Spot, tile: Polygon) -> bool:
    """Is this side of a piece a cut: none of the tile's own sides?"""
    for (x1, y1), (x2, y2) in sides(tile):
        long = hypot(x2 - x1, y2 - y1) or 1.0
        if all(abs((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)) / long < 2e-6 for x, y in (a, b)):
            return False
    return True


def _piece(lines: _Lines, piece: Piece, by: float) -> None:
    tile = floats(piece.tile)
    for n, ring in enumerate(piece.shape.rings):
        spots = floats(ring)
        if n:
            for a, b in sides(spots):
                lines.add(*a, *b)
            continue
        turn = 1.0 if sum(a[0] * b[1] - b[0] * a[1] for a, b in sides(spots)) > 0 else -1.0
        moved: list[tuple[Spot, Spot]] = []
        for a, b in sides(spots):
            off = 0.0 if _at_cut(a, b, tile) else by
            long = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
            nx, ny = (b[1] - a[1]) / long * off * turn, -(b[0] - a[0]) / long * off * turn
            moved.append(((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny)))
        corners = [_meet(moved[i - 1], moved[i]) for i in range(len(moved))]
        for i, a in enumerate(corners):
            lines.add(*a, *corners[(i + 1) % len(corners)])


def _meet(before: tuple[Spot, Spot], after: tuple[Spot, Spot]) -> Spot:
    (x1, y1), (x2, y2) = before
    (x3, y3), (x4, y4) = after
    d = (x1 - x2) * (y3 - y4) - (y1 - y2) * (x3 - x4)
    if abs(d) < 1e-9:
        return x3, y3
    t = ((x1 - x3) * (y3 - y4) - (y1 - y3) * (x3 - x4)) / d
    x, y = x1 + t * (x2 - x1), y1 + t * (y2 - y1)
    # A corner so sharp that its lines meet far off stays where it is.
    return (x, y) if hypot(x - x3, y - y3) < 0.05 else (x3, y3)


@dataclass(slots=True)
class Tiles:
    """One layout, ready to be drawn at any scale. Lines are in metres, in the coordinates of its face."""

    layout: Layout
    most: int = MOST_LINES
    _lines: dict[tuple[bool, bool], tuple[Line, ...]] = field(default_factory=dict)

    def _all(self, grown: bool, courses: bool) -> tuple[Line, ...]:
        found = self._lines.get((grown, courses))
        if found is None:
            by = float(self.layout.joint.value) / 2 if grown else 0.0
            lines = _Lines()
            for r in self.layout.runs:
                step = (float(r.step[0]), float(r.step[1]))
                _run(lines, floats(r.first), step, r.count, by, courses)
            if len(self.layout.pieces) <= self.most:
                for p in self.layout.pieces:
                    _piece(lines, p, by)
            found = self._lines[(grown, courses)] = lines.merged()
        return found

    def detail(self, scale: int) -> str:
        """What can be drawn at a scale: "tiles", "courses" or, where these too would run into each other, "region"."""
        x = self.layout
        joint = float(x.joint.value)
        across, up = (float(q.value) + joint for q in (x.width, x.height))
        fine = CLOSEST * scale / 1000
        pattern = x.covering.pattern
        count = sum(r.count for r in x.runs) + len(x.pieces)
        # In a plain grid lines run through, however many the tiles are.
        few = pattern.name in ("straight", "stack") or count <= 2 * self.most
        if min(across, up) >= fine and few and len(self._all(self._grows(scale), False)) <= self.most:
            return "tiles"
        pitch = across if pattern.upright else up
        coursed = pattern.name in COURSED and pattern.name != "basket"
        return "courses" if coursed and pitch >= fine and len(self._all(True, True)) <= self.most else "region"

    def _grows(self, scale: int) -> bool:
        return float(self.layout.joint.value) * 1000 / scale < _WIDE

    def lines(self, scale: int) -> tuple[Line, ...]:
        match self.detail(scale):
            case "tiles":
                return self._all(self._grows(scale), False)
            case "courses":
                return self._all(True, True)
            case _:
                return tuple((*a, *b) for s in self.layout.region for ring in s.rings for a, b in sides(floats(ring)))


# ---------------------------------------------------------------- cut pieces


def hatch_cut(sheet: Sheet, pieces: Sequence[Piece], place: Callable[[Spot], Spot]) -> None:
    """Hatch what is cut or drilled, so that it is seen without colour."""
    for p in pieces[:MOST_HATCHED]:
        rings = [tuple(place(s) for s in floats(r)) for r in p.shape.rings]
        sheet.picture.lines("cut", hatch(rings[0], _HATCH, out_of=rings[1:]))


@dataclass(frozen=True, slots=True)
class _Numbered:
    text: str
    outline: Polygon
    inner: tuple[Polygon, ...]
    box: Box
    key: tuple[int, int, int, int]  # its bounds on paper in hundredths of a millimetre

    @property
    def upright(self) -> bool:
        """An oblong with upright and level sides."""
        return len(self.outline) == 4 and all(a[0] == b[0] or a[1] == b[1] for a, b in sides(self.outline))

    @property
    def middle(self) -> Spot:
        if self.upright:
            return self.box.middle
        return _heart(self.outline, self.box)


def _heart(outline: Polygon, box: Box) -> Spot:
    """A spot well inside an outline."""
    best = (-1.0, box.middle)
    for i in range(1, 12):
        for j in range(1, 12):
            x, y = box.left + box.width * i / 12, box.top + box.height * j / 12
            if inside((x, y), outline):
                away = min(_off((x, y), a, b) for a, b in sides(outline))
                if away > best[0] + 1e-9:
                    best = away, (x, y)
    return best[1]


def _off(p: Spot, a: Spot, b: Spot) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy or 1.0
    t = min(1.0, max(0.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square))
    return hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)


@dataclass(frozen=True, slots=True)
class Told:
    """How many numbers stand off their piece, and how many pieces could not be given theirs."""

    off: int
    missing: int

    @property
    def hard(self) -> int:
        """How hard this is to read, against the same at another scale: a few leaders more do not matter."""
        return self.missing * 100 + self.off // 5


def number_cut(sheet: Sheet, pieces: Sequence[Piece], place: Callable[[Spot], Spot], face: Box) -> Told:
    """Write each cut piece's number of the cut list in it, or beside it with a leader.

    In a row of like pieces too close for a number each, the ends carry it.
    """
    left: list[_Numbered] = []
    all_ = [_numbered(p, place) for p in pieces]
    for n, p in enumerate(all_):
        if n >= MOST_NUMBERS or not _inside(sheet, p):
            left.append(p)
    for p in left[:MOST_NUMBERS]:
        # Where its leader begins nothing else may stand.
        sheet.taken.append(_dot(p.middle))
    cut = [p.box for p in all_] if len(all_) <= MOST_NUMBERS else []
    missing, leaders = 0, list[Line]()
    for group in _rows(left):
        ends = group if len(group) < 3 or _pitch(group) >= SMALL * 1.15 else [group[0], group[-1]]
        done = sum(_beside(sheet, p, face, leaders, cut) for p in ends)
        if not done:
            missing += len(group)
        elif done < len(ends) and len(ends) == len(group):
            missing += len(ends) - done if len(group) < 3 else 0
    return Told(len(leaders), missing)


def _numbered(p: Piece, place: Callable[[Spot], Spot]) -> _Numbered:
    rings = [tuple(place(s) for s in floats(r)) for r in p.shape.rings]
    box = bounds(rings[0])
    key = tuple(round(v * 100) for v in (box.left, box.top, box.right, box.bottom))
    return _Numbered(str(p.number), rings[0], tuple(rings[1:]), box, (key[0], key[1], key[2], key[3]))


def _inside(sheet: Sheet, p: _Numbered) -> bool:
    wide, high = width(p.text, SMALL) + 2 * _GAP, SMALL * CAPITAL + 2 * _GAP
    best: tuple[float, Box, bool] | None = None
    centre = p.middle
    for turned in (False, True):
        w, h = (high, wide) if turned else (wide, high)
        if p.box.width < w or p.box.height < h:
            continue
        for i, j in _NEAR:
            x, y = centre[0] + i * (p.box.width - w) / 2 * 0.96, centre[1] + j * (p.box.height - h) / 2 * 0.96
            box = Box(x - w / 2, y - h / 2, x + w / 2, y + h / 2)
            if not box.within(p.box) or not (p.upright or _lies(box, p.outline)) or not sheet.free(box):
                continue
            if any(_touches(box, r) for r in p.inner):
                continue
            cost = sheet.cost(box) + (abs(i) + abs(j)) * 0.6 + (0.8 if turned else 0.0)
            if best is None or cost < best[0] - 1e-9:
                best = cost, box, turned
            if cost == 0:
                break
    if best is None:
        return False
    _put(sheet, p.text, best[1], best[2])
    return True


_NEAR = sorted(((i / 2, j / 2) for i in range(-2, 3) for j in range(-2, 3)), key=lambda s: (abs(s[0]) + abs(s[1]), s))


def _lies(box: Box, outline: Polygon) -> bool:
    return all(inside(c, outline) for c in box.corners) and not any(box.crossed((*a, *b)) for a, b in sides(outline))


def _touches(box: Box, ring: Polygon) -> bool:
    return inside(box.middle, ring) or any(box.crossed((*a, *b)) for a, b in sides(ring))


def _put(sheet: Sheet, text: str, box: Box, turned: bool) -> None:
    p = sheet.picture
    p.box("clear", box)
    sheet.taken.append(box)
    x, y = box.middle
    if turned:
        p.text(x + SMALL * CAPITAL / 2, y, text, SMALL, "middle", -90)
    else:
        p.text(x, y + SMALL * CAPITAL / 2, text, SMALL, "middle")


def _rows(pieces: Sequence[_Numbered]) -> list[list[_Numbered]]:
    """Pieces that carry no number yet, those of one number that follow each other in one line together."""
    found: list[list[_Numbered]] = []
    rest = sorted(pieces, key=lambda p: (p.text, p.key))
    for axis in (0, 1):
        lines: dict[tuple[str, int, int], list[_Numbered]] = {}
        for p in rest:
            lines.setdefault((p.text, p.key[axis] // 3, p.key[axis + 2] // 3), []).append(p)
        rest = []
        for line in lines.values():
            line.sort(key=lambda p: p.key[1 - axis])
            begun = 0
            for n in range(1, len(line) + 1):
                size = line[begun].key[3 - axis] - line[begun].key[1 - axis]
                if n == len(line) or line[n].key[1 - axis] - line[n - 1].key[3 - axis] > max(size, 20):
                    if n - begun >= 2:
                        found.append(line[begun:n])
                    else:
                        rest += line[begun:n]
                    begun = n
    found += [[p] for p in rest]
    found.sort(key=lambda g: (g[0].key, g[0].text))
    return found


def _pitch(group: Sequence[_Numbered]) -> float:
    (x1, y1), (x2, y2) = group[0].box.middle, group[-1].box.middle
    return hypot(x2 - x1, y2 - y1) / max(1, len(group) - 1)


_AROUND = tuple((dx, dy) for dx, dy in (
    (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1), (1, 0.5), (1, -0.5), (-1, 0.5), (-1, -0.5), (0.5, 1),
    (0.5, -1), (-0.5, 1), (-0.5, -1), (1, 0.25), (1, -0.25), (-1, 0.25), (-1, -0.25), (0.25, 1), (0.25, -1), (-0.25, 1),
    (-0.25, -1),
))


def _dot(spot: Spot) -> Box:
    return Box(spot[0] - _DOT, spot[1] - _DOT, spot[0] + _DOT, spot[1] + _DOT)


def _beside(sheet: Sheet, p: _Numbered, face: Box, leaders: list[Line], cut: Sequence[Box]) -> bool:
    """A number off its piece, with a leader to a dot in it."""
    wide, high = width(p.text, SMALL) + 2 * _GAP, SMALL * CAPITAL + 2 * _GAP
    x0, y0 = p.middle
    own = _dot((x0, y0))
    best: tuple[float, Box] | None = None
    near = [c for c in cut if c.meets(p.box.grown(16.0))]
    for ring in range(1, 13):
        for dx, dy in _AROUND:
            off = ring * 1.5
            x = x0 + dx * (off - 0.6 + (p.box.width + wide) / 2 if abs(dx) == 1 else off + wide)
            y = y0 + dy * (off - 0.6 + (p.box.height + high) / 2 if abs(dy) == 1 else off + high)
            box = Box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
            if not box.within(face) or not sheet.free(box):
                continue
            way = Box(min(x0, x), min(y0, y), max(x0, x), max(y0, y))
            if any(t != own and t.crossed((x0, y0, x, y)) for t in sheet.taken.near(way)):
                continue
            astray = 2.0 * sum(1 for other in leaders if _cross((x0, y0, x, y), other))
            astray += 2.5 * sum(1 for c in near if c.meets(box))
            cost = astray + ring * 0.7 + sheet.cost(box) + (0.4 if dx and dy else 0.0)
            if best is None or cost < best[0] - 1e-9:
                best = cost, box
        if best is not None and best[0] <= ring * 0.7:
            break
    if best is None:
        return False
    box = best[1]
    x, y = _edge(box, (x0, y0))
    sheet.picture.line("top", (x0, y0, x, y))
    leaders.append((x0, y0, x, y))
    sheet.crossing.append((x0, y0, x, y))
    sheet.picture.circle("solid", x0, y0, _DOT)
    _put(sheet, p.text, box, False)
    return True


def _cross(a: Line, b: Line) -> bool:
    """Do two lines cross each other?"""

    def side(line: Line, x: float, y: float) -> float:
        return (line[2] - line[0]) * (y - line[1]) - (line[3] - line[1]) * (x - line[0])

    return side(a, *b[:2]) * side(a, *b[2:]) < 0 and side(b, *a[:2]) * side(b, *a[2:]) < 0


def _edge(box: Box, spot: Spot) -> Spot:
    """Where a line from a spot to the middle of a box meets its edge."""
    (mx, my), (x, y) = box.middle, spot
    dx, dy = x - mx, y - my
    share = min(box.width / 2 / abs(dx) if dx else 9.0, box.height / 2 / abs(dy) if dy else 9.0, 1.0)
    return mx + dx * share, my + dy * share


def laid_on(layouts: Iterable[Layout], face: str, most: int = MOST_LINES) -> tuple[Tiles, ...]:
    """The layouts of one face; they share the lines that a drawing can hold."""
    here = [x for x in layouts if x.face == face]
    return tuple(Tiles(x, max(300, most // max(1, len(here)))) for x in here)
