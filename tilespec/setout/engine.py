"""Every tile of a pattern over a region: full tiles as runs, cut ones piece by piece.

Where all edges are upright or level, the work is done in whole ticks and is exact: a course that lies in one slab of the region
is full tiles between two cuts, so that only the tiles at an edge are looked at one by one. Turned patterns and slanted edges are
done in floats with shapely, again only where a tile meets an edge.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor, hypot, lcm, sqrt
from typing import TYPE_CHECKING

from tilespec.job.types import Pattern, Point
from tilespec.setout import pattern as patterns
from tilespec.setout import region as regions
from tilespec.setout.area import straight
from tilespec.setout.geometry import NANO, anticlockwise, nano, sides, unlike
from tilespec.setout.pattern import Grille, Line
from tilespec.setout.region import Region
from tilespec.setout.types import Hole, Piece, Ring, Run, Shape

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_HALF = sqrt(0.5)
_PICO = 10**12
# Smaller bits (m2) are what rounding leaves of an edge that only touches a tile.
_NOTHING = 1e-10
_TOUCH = 1e-9
_HAIR = 1e-7
# A tile that ends along a wall to within this (m) ends there: corners are rounded to a nanometre.
_FLUSH = 4e-9


@dataclass(frozen=True, slots=True)
class Lattice:
    """What is laid: one piece's size and joint, the pattern, and where the first tile's lower left corner lies. Metres.

    `x`, `y` in the face's coordinates; a turned pattern is turned about that corner.
    """

    width: Fraction
    height: Fraction
    joint: Fraction
    pattern: Pattern
    x: Fraction
    y: Fraction

    @property
    def turned(self) -> bool:
        return self.pattern.turned or self.pattern.name == "diagonal"

    @property
    def shift(self) -> Fraction:
        """Of one course against the next."""
        side = self.height if self.pattern.upright else self.width
        return patterns.shift_of(self.pattern, side + self.joint)


@dataclass(frozen=True, slots=True)
class Filled:
    """What a region is filled with. Pieces carry no number yet (0)."""

    runs: tuple[Run, ...]
    pieces: tuple[Piece, ...]

    @property
    def full(self) -> int:
        return sum(r.count for r in self.runs)


def fill(region: Sequence[Shape], lattice: Lattice, holes: Sequence[Hole] = ()) -> Filled:
    """Lay a pattern over a region (shapes that do not overlap).

    Every tile of the endless pattern that shares area with the region appears once: whole in a run, or as one or more pieces.
    """
    rings = [r for s in region for r in s.rings]
    exact = not lattice.turned and all(straight(r) for r in rings)
    filled = _exact(rings, lattice) if exact else _slanted(region, lattice)
    return drilled(filled, holes) if holes else filled


# ---------------------------------------------------------------- straight

def _exact(rings: Sequence[Ring], lattice: Lattice) -> Filled:
    p = lattice.pattern
    second = p.second.width.value if p.second is not None else Fraction(0)
    sizes = [lattice.width, lattice.height, lattice.joint, lattice.x, lattice.y, lattice.shift, second]
    unit = lcm(*(v.denominator for v in sizes), *{v.denominator for ring in rings for spot in ring for v in spot})

    def ticks(v: Fraction) -> int:
        return v.numerator * (unit // v.denominator)

    turned_over = p.upright and p.name in patterns.OFFSET
    if turned_over:
        rings = [tuple((y, x) for x, y in ring) for ring in rings]
    r = regions.region(tuple((ticks(x), ticks(y)) for x, y in ring) for ring in rings)
    if not r.slabs:
        return Filled((), ())
    wide, high, joint, x, y, shift = (ticks(v) for v in sizes[:6])
    if turned_over:
        wide, high, x, y = high, wide, y, x
    metres = _Metres(unit)

    def spot(px: int, py: int) -> Point:
        return (metres[py], metres[px]) if turned_over else (metres[px], metres[py])

    def ring(corners: Sequence[tuple[int, int]]) -> Ring:
        # Turned over, the corners run the other way round.
        found = tuple(spot(a, b) for a, b in corners)
        return (found[0], *found[:0:-1]) if turned_over else found

    def box(a: int, b: int, c: int, d: int) -> Ring:
        if turned_over:
            a, b, c, d = b, a, d, c
        left, low, right, top = metres[a], metres[b], metres[c], metres[d]
        return (left, low), (right, low), (right, top), (left, top)

    runs: list[Run] = []
    pieces: list[Piece] = []

    def cut(slabs: Sequence[regions.Slab], a: int, b: int, c: int, d: int) -> None:
        if len(slabs) == 1:
            # The usual cut: one slab, so that what is left are boxes.
            low, top, spans = slabs[0]
            low, top = max(low, b), min(top, d)
            for p, q in spans:
                if p < c and q > a:
                    pieces.append(Piece(0, Shape(box(max(p, a), low, min(q, c), top)), box(a, b, c, d)))
            return
        for outer, inner in regions.clip(slabs, a, b, c, d):
            pieces.append(Piece(0, Shape(ring(outer), tuple(ring(i) for i in inner)), box(a, b, c, d)))

    if p.name in ("herringbone", "modular"):
        for g in patterns.grilles(p, x, y, wide, high, joint, ticks(second)):
            _lattice(r, g, runs, cut, box, spot)
    else:
        for line in patterns.lines(p, x, y, wide, high, joint, shift, r.low, r.high):
            _line(r, line, runs, cut, box, spot)
    return Filled(tuple(runs), tuple(pieces))


class _Metres(dict[int, Fraction]):
    """Metres by ticks, each worked out once."""

    def __init__(self, unit: int) -> None:
        self.unit = unit

    def __missing__(self, ticks: int) -> Fraction:
        found = self[ticks] = Fraction(ticks, self.unit)
        return found


_Cut = Callable[[Sequence[regions.Slab], int, int, int, int], None]
_Box = Callable[[int, int, int, int], Ring]
_Spot = Callable[[int, int], Point]


def _line(r: Region, line: Line[int], runs: list[Run], cut: _Cut, box: _Box, spot: _Spot) -> None:
    """One line of tiles: between the cuts at its ends, full tiles by formula."""
    low, top, wide, step = line.y, line.y + line.high, line.wide, line.step
    slabs = r.across(low, top)
    if not slabs:
        return
    full: list[tuple[int, int]] = []
    for left, right in regions.common(slabs, low, top):
        first, last = -((line.x - left) // step), (right - wide - line.x) // step
        if first <= last:
            full.append((first, last))
            a = line.x + first * step
            runs.append(Run(box(a, low, a + wide, top), spot(step, 0), last - first + 1))
    done = -(10**18)
    for left, right in regions.anywhere(slabs):
        # Tiles that reach into the span: right edge beyond `left`, left edge before `right`.
        n, last = (left - wide - line.x) // step + 1, -((line.x - right) // step) - 1
        n = max(n, done + 1)
        while n <= last:
            at = bisect_right(full, (n, 10**18)) - 1
            if at >= 0 and full[at][0] <= n <= full[at][1]:
                n = full[at][1] + 1
                continue
            a = line.x + n * step
            cut(slabs, a, low, a + wide, top)
            done = n
            n += 1


def _lattice(r: Region, g: Grille[int], runs: list[Run], cut: _Cut, box: _Box, spot: _Spot) -> None:
    """Tiles one by one; full ones that follow each other along the lattice's first vector make a run."""
    step = spot(g.ax, g.ay)
    for k, first, last in patterns.places(g, r.left, r.low, r.right, r.high):
        x, y = g.x + k * g.bx + first * g.ax, g.y + k * g.by + first * g.ay
        begun: tuple[int, int] | None = None
        count = 0
        for _ in range(first, last + 1):
            right, top = x + g.wide, y + g.high
            slabs = r.across(y, top)
            whole = bool(slabs) and any(a <= x and right <= b for a, b in regions.common(slabs, y, top))
            if whole:
                begun = begun or (x, y)
                count += 1
            else:
                if begun is not None:
                    runs.append(Run(box(begun[0], begun[1], begun[0] + g.wide, begun[1] + g.high), step, count))
                    begun, count = None, 0
                if slabs:
                    cut(slabs, x, y, right, top)
            x, y = x + g.ax, y + g.ay
        if begun is not None:
            runs.append(Run(box(begun[0], begun[1], begun[0] + g.wide, begun[1] + g.high), step, count))


# ---------------------------------------------------------------- slanted

@dataclass(frozen=True, slots=True)
class _Frame:
    """The tiles' own frame: turned by half a right angle about a point, or turned over, or neither."""

    x: float
    y: float
    turned: bool
    over: bool

    def inside(self, px: float, py: float) -> tuple[float, float]:
        dx, dy = px - self.x, py - self.y
        if self.turned:
            dx, dy = (dx + dy) * _HALF, (dy - dx) * _HALF
        return (dy, dx) if self.over else (dx, dy)

    def outside(self, u: float, v: float) -> Point:
        if self.over:
            u, v = v, u
        if self.turned:
            u, v = (u - v) * _HALF, (u + v) * _HALF
        return nano(u + self.x), nano(v + self.y)

    def vector(self, u: float, v: float) -> Point:
        """A step, to a thousandth of a nanometre: the last of ten thousand tiles is still in its place."""
        if self.over:
            u, v = v, u
        if self.turned:
            u, v = (u - v) * _HALF, (u + v) * _HALF
        return Fraction(round(u * _PICO), _PICO), Fraction(round(v * _PICO), _PICO)


def _slanted(region: Sequence[Shape], lattice: Lattice) -> Filled:
    import shapely

    p = lattice.pattern
    frame = _Frame(float(lattice.x), float(lattice.y), lattice.turned, p.upright and p.name in patterns.OFFSET)

    def into(ring: Ring) -> list[tuple[float, float]]:
        return [frame.inside(float(a), float(b)) for a, b in ring]

    shapes = [shapely.Polygon(into(s.outer), [into(i) for i in s.inner]) for s in region]
    shape = shapes[0] if len(shapes) == 1 else shapely.MultiPolygon(shapes)
    if shape.is_empty:
        return Filled((), ())
    edges = [(*a, *b) for s in region for ring in s.rings for a, b in sides(into(ring))]
    left, low, right, top = shape.bounds
    wide, high, joint = float(lattice.width), float(lattice.height), float(lattice.joint)
    if frame.over:
        wide, high = high, wide
    runs: list[Run] = []
    touched: list[tuple[float, float, float, float]] = []

    def box(a: float, b: float, c: float, d: float) -> Ring:
        corners = tuple(frame.outside(u, v) for u, v in ((a, b), (c, b), (c, d), (a, d)))
        return (corners[0], *corners[:0:-1]) if frame.over else corners

    if p.name in ("herringbone", "modular"):
        second = float(p.second.width.value) if p.second is not None else 0.0
        for g in patterns.grilles(p, 0.0, 0.0, wide, high, joint, second):
            _float_lattice(shape, g, (left, low, right, top), runs, touched, box, frame)
    else:
        for line in patterns.lines(p, 0.0, 0.0, wide, high, joint, float(lattice.shift), low, top):
            _float_line(line, edges, runs, touched, box, frame)
    pieces: list[Piece] = []
    if touched:
        # On a grid: without one, edges that nearly lie on each other can make GEOS lose a part.
        parts = shapely.intersection(shapely.box(*zip(*touched, strict=True)), shape, grid_size=1 / NANO)
        for at, part in zip(touched, parts, strict=True):
            tile = box(*at)
            for polygon in _polygons(part):
                outer, inner = tuple(polygon.exterior.coords)[:-1], [tuple(i.coords)[:-1] for i in polygon.interiors]
                wide, high = at[2] - at[0], at[3] - at[1]
                if wide * high - polygon.area <= _FLUSH * (wide + high) and not inner:
                    runs.append(Run(tile, (Fraction(0), Fraction(0)), 1))
                    continue
                pieces.append(Piece(0, Shape(
                    anticlockwise(unlike([frame.outside(u, v) for u, v in outer])),
                    tuple(unlike([frame.outside(u, v) for u, v in i]) for i in inner),
                ), tile))
    return Filled(tuple(runs), tuple(pieces))


def _polygons(shape: BaseGeometry) -> list[BaseGeometry]:
    return [whole for p in _areas(shape) for whole in ([p] if _convex(p) else _opened(p))]


def _areas(shape: BaseGeometry) -> list[BaseGeometry]:
    parts = [shape] if shape.geom_type == "Polygon" else list(getattr(shape, "geoms", ()))
    return [p for p in parts if p.geom_type == "Polygon" and p.area > max(_NOTHING, _FLUSH * p.length / 2)]


def _opened(polygon: BaseGeometry) -> list[BaseGeometry]:
    """What hangs together by a point or a hair only is cut apart, and the hair goes."""
    smaller = _areas(polygon.buffer(-_HAIR, join_style="mitre"))
    return [p for part in smaller for p in _areas(part.buffer(_HAIR, join_style="mitre"))]


def _convex(polygon: BaseGeometry) -> bool:
    if polygon.interiors:
        return False
    ring = list(polygon.exterior.coords)
    turns = [
        (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)
        for (x0, y0), (x1, y1), (x2, y2) in zip(ring, ring[1:], ring[2:] + ring[1:2], strict=False)
    ]
    return all(t >= 0 for t in turns) or all(t <= 0 for t in turns)


_FloatBox = Callable[[float, float, float, float], Ring]


def _float_line(
    line: Line[float], edges: Sequence[tuple[float, float, float, float]], runs: list[Run],
    touched: list[tuple[float, float, float, float]], box: _FloatBox, frame: _Frame,
) -> None:
    """One line of tiles: where no edge of the region passes through its band, it is in or out as a whole."""
    low, top, wide, step = line.y, line.y + line.high, line.wide, line.step
    middle = (low + top) / 2
    spans: list[tuple[float, float]] = []
    crossings: list[float] = []
    for x1, y1, x2, y2 in edges:
        a, b = (y1, y2) if y1 <= y2 else (y2, y1)
        if b <= low + _TOUCH or a >= top - _TOUCH:
            continue
        if y1 == y2:
            p, q = x1, x2
        else:
            slope = (x2 - x1) / (y2 - y1)
            p, q = x1 + (max(a, low) - y1) * slope, x1 + (min(b, top) - y1) * slope
            if (y1 > middle) != (y2 > middle):
                crossings.append(x1 + (middle - y1) * slope)
        spans.append((min(p, q), max(p, q)))
    if not spans:
        return
    spans.sort()
    crossings.sort()
    joined: list[list[float]] = []
    for p, q in spans:
        if joined and p <= joined[-1][1]:
            joined[-1][1] = max(q, joined[-1][1])
        else:
            joined.append([p, q])
    done = -(10**18)

    def meet(p: float, q: float) -> None:
        nonlocal done
        n = max(done + 1, ceil((p - wide - line.x) / step - 1e-12))
        while line.x + n * step < q:
            a = line.x + n * step
            if a + wide > p:
                touched.append((a, low, a + wide, top))
                done = n
            n += 1

    # An edge that a tile only touches does not cut it.
    for n, (p, q) in enumerate(joined):
        if q - p > 2 * _TOUCH:
            meet(p + _TOUCH, q - _TOUCH)
        elif _cuts(line, p):
            meet(p, q)
        if n + 1 == len(joined):
            break
        left, right = q, joined[n + 1][0]
        if bisect_right(crossings, (left + right) / 2) % 2 == 0:
            continue
        first, last = ceil((left - _TOUCH - line.x) / step), floor((right + _TOUCH - wide - line.x) / step)
        first = max(first, done + 1)
        if first <= last:
            a = line.x + first * step
            runs.append(Run(box(a, low, a + wide, top), frame.vector(step, 0.0), last - first + 1))
            done = last


def _cuts(line: Line[float], x: float) -> bool:
    """An upright edge at x passes through a tile of the line, not only along its side."""
    at = (x - line.x) % line.step
    return _TOUCH < at < line.wide - _TOUCH


def _float_lattice(
    shape: BaseGeometry, g: Grille[float], bounds: tuple[float, float, float, float], runs: list[Run],
    touched: list[tuple[float, float, float, float]], box: _FloatBox, frame: _Frame,
) -> None:
    """Tiles far from every edge are in or out by their middle; only the others are laid over the region."""
    import numpy as np
    import shapely

    rows = list(patterns.places(g, *bounds))
    if not rows:
        return
    k = np.repeat([r[0] for r in rows], [r[2] - r[1] + 1 for r in rows])
    i = np.concatenate([np.arange(r[1], r[2] + 1) for r in rows])
    x, y = g.x + k * g.bx + i * g.ax, g.y + k * g.by + i * g.ay
    middle_x, middle_y = x + g.wide / 2, y + g.high / 2
    near = np.zeros(len(x), dtype=bool)
    reach = hypot(g.wide, g.high) / 2 + _TOUCH
    for ring in shapely.get_parts(shapely.boundary(shape)):
        spots = shapely.get_coordinates(ring)
        for (x1, y1), (x2, y2) in zip(spots[:-1], spots[1:], strict=True):
            dx, dy = x2 - x1, y2 - y1
            share = np.clip(((middle_x - x1) * dx + (middle_y - y1) * dy) / (dx * dx + dy * dy), 0.0, 1.0)
            near |= np.hypot(x1 + share * dx - middle_x, y1 + share * dy - middle_y) <= reach
    shapely.prepare(shape)
    full = shapely.contains_xy(shape, middle_x, middle_y)
    close = np.flatnonzero(near)
    boxes = shapely.box(x[close], y[close], x[close] + g.wide, y[close] + g.high)
    wider = shape.buffer(_TOUCH, join_style="mitre")
    shapely.prepare(wider)
    full[close] = shapely.covers(wider, boxes)
    cut = close[~full[close] & shapely.intersects(shape, boxes)]
    touched += [(a, b, a + g.wide, b + g.high) for a, b in zip(x[cut].tolist(), y[cut].tolist(), strict=True)]
    # A run ends where a tile is not full, and with its row.
    step = frame.vector(g.ax, g.ay)
    at = np.flatnonzero(full)
    if not len(at):
        return
    breaks = np.flatnonzero((np.diff(at) != 1) | (np.diff(k[at]) != 0)) + 1
    for begin, end in zip([0, *breaks.tolist()], [*breaks.tolist(), len(at)], strict=True):
        a, b = float(x[at[begin]]), float(y[at[begin]])
        runs.append(Run(box(a, b, a + g.wide, b + g.high), step, end - begin))


# ---------------------------------------------------------------- holes

def drilled(filled: Filled, holes: Sequence[Hole]) -> Filled:
    """Full tiles that a hole meets leave their run; cut pieces get theirs."""
    runs: list[Run] = []
    pieces: list[Piece] = []
    for run in filled.runs:
        met = _met(run, holes)
        if not met:
            runs.append(run)
            continue
        dx, dy = run.step
        begin = 0
        for n in sorted(met):
            if n > begin:
                runs.append(Run(_moved(run.first, dx * begin, dy * begin), run.step, n - begin))
            tile = _moved(run.first, dx * n, dy * n)
            pieces.append(Piece(0, Shape(tile), tile, tuple(met[n])))
            begin = n + 1
        if begin < run.count:
            runs.append(Run(_moved(run.first, dx * begin, dy * begin), run.step, run.count - begin))
    for piece in filled.pieces:
        here = tuple(h for h in holes if meets(h, piece.shape))
        pieces.append(replace(piece, holes=here) if here else piece)
    return Filled(tuple(runs), tuple(pieces))


def _moved(ring: Ring, dx: Fraction, dy: Fraction) -> Ring:
    return tuple((x + dx, y + dy) for x, y in ring)


def _met(run: Run, holes: Sequence[Hole]) -> dict[int, list[Hole]]:
    """The tiles of a run that holes reach into, by their place in it."""
    found: dict[int, list[Hole]] = {}
    xs, ys = [float(p[0]) for p in run.first], [float(p[1]) for p in run.first]
    dx, dy = float(run.step[0]), float(run.step[1])
    for h in holes:
        x, y, r = float(h.x), float(h.y), float(h.diameter) / 2
        first, last = 0, run.count - 1
        for step, least, most, at in ((dx, min(xs), max(xs), x), (dy, min(ys), max(ys), y)):
            if step == 0:
                if not least - r <= at <= most + r:
                    first, last = 1, 0
                continue
            a, b = sorted(((at - r - most) / step, (at + r - least) / step))
            first, last = max(first, ceil(a - 1e-9)), min(last, floor(b + 1e-9))
        for n in range(first, last + 1):
            if meets(h, Shape(_moved(run.first, run.step[0] * n, run.step[1] * n))):
                found.setdefault(n, []).append(h)
    return found


def meets(hole: Hole, shape: Shape) -> bool:
    """A hole takes something from a piece: touching its edge is not enough."""
    x, y = float(hole.x), float(hole.y)
    r = max(float(hole.diameter) / 2, 1e-6) - _TOUCH
    square = hole.kind in ("drain", "channel")
    inside = False
    for ring in shape.rings:
        spots = [(float(a) - x, float(b) - y) for a, b in ring]
        for (x1, y1), (x2, y2) in zip(spots, (*spots[1:], spots[0]), strict=True):
            if square:
                if _crosses(x1, y1, x2, y2, r):
                    return True
            else:
                long = (x2 - x1) ** 2 + (y2 - y1) ** 2
                t = 0.0 if long == 0 else min(1.0, max(0.0, -(x1 * (x2 - x1) + y1 * (y2 - y1)) / long))
                if hypot(x1 + t * (x2 - x1), y1 + t * (y2 - y1)) < r:
                    return True
            if (y1 > 0) != (y2 > 0) and 0 < x1 - y1 * (x2 - x1) / (y2 - y1):
                inside = not inside
    # No edge passes through the hole: all of it lies in the piece, or none.
    return inside


def _crosses(x1: float, y1: float, x2: float, y2: float, r: float) -> bool:
    """A straight line runs through the inside of the square with its middle at 0, 0 and the half side r."""
    low, high = 0.0, 1.0
    for at, to in ((x1, x2), (y1, y2)):
        step = to - at
        if step == 0:
            if not -r < at < r:
                return False
            continue
        a, b = sorted(((-r - at) / step, (r - at) / step))
        low, high = max(low, a), min(high, b)
    return low < high
