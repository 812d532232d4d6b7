"""Tilings worked out the long way, to hold the set-out engine against. Shares no code with it.

Every tile of the lattice is made, far beyond the region, and laid over it, by counting cells of whole numbers.
Slanted rooms stand in slanted.py.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction as F
from typing import TYPE_CHECKING

from tilespec.quantity import Kind
from tilespec.setout.types import Hole, Ring, Shape

if TYPE_CHECKING:
    from tilespec.setout.engine import Filled, Lattice

Box = tuple[int, int, int, int]  # left, low, right, high


# ---------------------------------------------------------------- the lattice

def share(lattice: Lattice) -> F:
    """By how much one course stands off the one before, in metres."""
    p = lattice.pattern
    pitch = lattice.joint + (lattice.height if p.upright else lattice.width)
    named = {"half": F(1, 2), "third": F(1, 3), "quarter": F(1, 4)}
    if p.name in named:
        return named[p.name] * pitch
    if p.name == "run":
        assert p.run is not None
        return p.run.value if p.run.kind is Kind.LENGTH else p.run.value * pitch
    return F(0)


def second(lattice: Lattice) -> F:
    return lattice.pattern.second.width.value if lattice.pattern.second is not None else F(0)


def lengths(lattice: Lattice) -> list[F]:
    """All that the lattice is made of."""
    return [lattice.width, lattice.height, lattice.joint, lattice.x, lattice.y, share(lattice), second(lattice)]


def _motif(vectors: tuple[tuple[int, int], tuple[int, int]], boxes: list[Box], window: Box) -> Iterator[Box]:
    """Boxes repeated along two vectors, wherever they may touch a window."""
    (ax, ay), (bx, by) = vectors
    det = ax * by - ay * bx
    reach = max(max(abs(v) for v in box) for box in boxes)
    x0, y0, x1, y1 = window[0] - reach, window[1] - reach, window[2] + reach, window[3] + reach
    corners = [(x, y) for x in (x0, x1) for y in (y0, y1)]
    firsts = [(x * by - y * bx) / det for x, y in corners]
    for i in range(math.floor(min(firsts)) - 1, math.ceil(max(firsts)) + 2):
        # For this i: which k put it into the window, by x and by y.
        low, high = -math.inf, math.inf
        for a, b, least, most in ((ax, bx, x0, x1), (ay, by, y0, y1)):
            if b:
                ends = sorted(((least - i * a) / b, (most - i * a) / b))
                low, high = max(low, ends[0]), min(high, ends[1])
        if low > high + 2:
            continue
        for k in range(math.floor(low) - 1, math.ceil(high) + 2):
            dx, dy = i * ax + k * bx, i * ay + k * by
            for left, bottom, right, top in boxes:
                yield left + dx, bottom + dy, right + dx, top + dy


def _courses(w: int, h: int, joint: int, step: int, back: bool, window: Box) -> Iterator[Box]:
    """Level courses of tiles from (0, 0); each stands off the one before."""
    a, b = w + joint, h + joint
    for n in range(window[1] // b - 1, window[3] // b + 2):
        shift = step * (n % 2) if back else step * n
        for i in range((window[0] - shift) // a - 1, (window[2] - shift) // a + 2):
            yield i * a + shift, n * b, i * a + shift + w, n * b + h


def tiles(lattice: Lattice, window: Box, scale: int) -> Iterator[Box]:
    """All tiles that may touch a window, in the lattice's own frame (its first tile's corner at 0, 0).

    Lengths are whole numbers: metres times `scale`. The window is in the same.
    """
    def whole(value: F) -> int:
        scaled = value * scale
        assert scaled.denominator == 1
        return scaled.numerator

    p = lattice.pattern
    w, h, joint = whole(lattice.width), whole(lattice.height), whole(lattice.joint)
    name = p.name
    if name in ("straight", "stack", "diagonal", "half", "third", "quarter", "run"):
        step = whole(share(lattice))
        if p.upright:
            x0, y0, x1, y1 = window
            found: Iterable[Box] = (
                (x, y, right, top) for y, x, top, right in _courses(h, w, joint, step, not p.stepped, (y0, x0, y1, x1))
            )
        else:
            found = _courses(w, h, joint, step, not p.stepped, window)
    elif name == "herringbone":
        long, short = max(w, h), min(w, h)
        side, s = long + joint, short + joint
        if p.double:
            top = 2 * s + long
            boxes = [(0, 0, long, short), (0, s, long, s + short), (0, 2 * s, short, top), (s, 2 * s, s + short, top)]
            found = _motif(((2 * s, 2 * s), (side, -side)), boxes, window)
        else:
            found = _motif(((s, s), (side, -side)), [(0, 0, long, short), (0, s, short, s + long)], window)
    elif name == "basket":
        long, short = max(w, h), min(w, h)
        side, s = long + joint, short + joint
        n, left = divmod(side, s)
        assert left == 0
        boxes = [(0, m * s, long, m * s + short) for m in range(n)]
        boxes += [(side + m * s, 0, side + m * s + short, long) for m in range(n)]
        if h > w:                                       # the first block stands where the tile was said standing
            boxes = [(x - side, y, right - side, top) for x, y, right, top in boxes]
        found = _motif(((2 * side, 0), (side, side)), boxes, window)
    else:
        assert name == "modular"
        other = whole(second(lattice))
        a, b = w + joint, other + joint
        found = _motif(((a, b), (-b, a)), [(0, 0, w, w), (a, 0, a + other, other)], window)
    x0, y0, x1, y1 = window
    return (t for t in found if t[0] < x1 and t[2] > x0 and t[1] < y1 and t[3] > y0)


def is_turned(lattice: Lattice) -> bool:
    return lattice.pattern.name == "diagonal" or lattice.pattern.turned


# ---------------------------------------------------------------- straight rooms: cells of whole numbers

@dataclass(frozen=True, slots=True)
class Part:
    """One piece of one tile: an area in one, as boxes that do not overlap."""

    boxes: tuple[Box, ...]

    @property
    def area(self) -> int:
        return sum((r - left) * (t - b) for left, b, r, t in self.boxes)

    @property
    def bounds(self) -> Box:
        lefts, lows, rights, tops = zip(*self.boxes)
        return min(lefts), min(lows), max(rights), max(tops)


WholeRing = tuple[tuple[int, int], ...]


def scale_of(region: Iterable[Shape], lattice: Lattice, holes: Iterable[Hole] = ()) -> int:
    """What makes every length a whole number (and half of every diameter)."""
    numbers = [v for s in region for ring in s.rings for p in ring for v in p] + lengths(lattice)
    numbers += [v for h in holes for v in (h.x, h.y, h.diameter / 2)]
    return math.lcm(*(v.denominator for v in numbers))


def whole_ring(ring: Ring, scale: int) -> WholeRing:
    out = []
    for x, y in ring:
        a, b = x * scale, y * scale
        assert a.denominator == b.denominator == 1, "a corner off the lines of the room and of the lattice"
        out.append((a.numerator, b.numerator))
    return tuple(out)


def _uprights(rings: Iterable[WholeRing]) -> list[tuple[int, int, int]]:
    """The sides that stand: x, low, high. All others must lie level."""
    found = []
    for ring in rings:
        for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0])):
            assert x1 == x2 or y1 == y2, "a slanted side"
            if x1 == x2 and y1 != y2:
                found.append((x1, min(y1, y2), max(y1, y2)))
    return found


class Grid:
    """A straight shape, cut along all its lines: which of the cells belong to it (crossings of a ray, even or odd)."""

    def __init__(self, rings: Iterable[WholeRing], more: Iterable[Box] = ()) -> None:
        rings = tuple(rings)
        more = tuple(more)
        self.xs = sorted({p[0] for r in rings for p in r} | {v for b in more for v in (b[0], b[2])})
        self.ys = sorted({p[1] for r in rings for p in r} | {v for b in more for v in (b[1], b[3])})
        sides = sorted(_uprights(rings))
        self.inside: list[list[bool]] = []
        for y1, y2 in zip(self.ys, self.ys[1:]):
            crossings = [x for x, low, high in sides if low <= y1 and y2 <= high]
            self.inside.append([bisect_right(crossings, x) % 2 == 1 for x in self.xs[:-1]])

    @property
    def area(self) -> int:
        return sum(
            (self.xs[i + 1] - self.xs[i]) * (self.ys[j + 1] - self.ys[j])
            for j, row in enumerate(self.inside) for i, here in enumerate(row) if here
        )

    def parts(self, tile: Box) -> list[Part]:
        """What a tile has in common with the shape, as pieces that hang together by more than a point."""
        left, low, right, high = tile
        cells = {}
        for j in range(max(bisect_right(self.ys, low) - 1, 0), min(bisect_left(self.ys, high), len(self.ys) - 1)):
            for i in range(max(bisect_right(self.xs, left) - 1, 0), min(bisect_left(self.xs, right), len(self.xs) - 1)):
                if self.inside[j][i]:
                    cells[i, j] = (
                        max(left, self.xs[i]), max(low, self.ys[j]), min(right, self.xs[i + 1]), min(high, self.ys[j + 1]),
                    )
        found = []
        while cells:
            todo = [next(iter(cells))]
            boxes = [cells.pop(todo[0])]
            while todo:
                i, j = todo.pop()
                for at in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)):
                    if at in cells:
                        todo.append(at)
                        boxes.append(cells.pop(at))
            found.append(Part(tuple(boxes)))
        return found


def same_shape(rings: tuple[WholeRing, ...], part: Part) -> bool:
    """The very same points, and its area by the corners agrees: no ring crosses itself or runs twice."""
    grid = Grid(rings, part.boxes)
    for j, row in enumerate(grid.inside):
        for i, here in enumerate(row):
            x, y = grid.xs[i], grid.ys[j]
            if here != any(left <= x < right and low <= y < high for left, low, right, high in part.boxes):
                return False
    return grid.area == part.area


def pierces(kind: str, x: int, y: int, radius: int, part: Part) -> bool:
    """A hole takes something from a piece: a round one, or the square grate of a drain."""
    for left, low, right, high in part.boxes:
        dx = max(left - x, 0, x - right)
        dy = max(low - y, 0, y - high)
        if kind == "drain":
            if x - radius < right and x + radius > left and y - radius < high and y + radius > low:
                return True
        elif dx * dx + dy * dy < radius * radius:
            return True
    return False


@dataclass(frozen=True, slots=True)
class Laid:
    """A straight region, tiled: what each tile gives."""

    scale: int
    region: int                         # area
    tiles: dict[Box, list[Part]]        # those that have something in the region

    @property
    def full(self) -> list[Box]:
        return [t for t, parts in self.tiles.items() if sum(p.area for p in parts) == (t[2] - t[0]) * (t[3] - t[1])]

    @property
    def tile_area(self) -> int:
        return sum(p.area for parts in self.tiles.values() for p in parts)


def lay(region: tuple[Shape, ...], lattice: Lattice, scale: int) -> Laid:
    grids = [Grid(whole_ring(r, scale) for r in s.rings) for s in region]
    x, y = lattice.x * scale, lattice.y * scale
    assert x.denominator == y.denominator == 1
    dx, dy = x.numerator, y.numerator
    window = (
        min(g.xs[0] for g in grids) - dx, min(g.ys[0] for g in grids) - dy,
        max(g.xs[-1] for g in grids) - dx, max(g.ys[-1] for g in grids) - dy,
    )
    found: dict[Box, list[Part]] = {}
    for left, low, right, high in tiles(lattice, window, scale):
        tile = (left + dx, low + dy, right + dx, high + dy)
        assert tile not in found, "the lattice gives a tile twice"
        parts = [p for g in grids for p in g.parts(tile)]
        if parts:
            found[tile] = parts
    return Laid(scale, sum(g.area for g in grids), found)


def box_of(ring: Ring, scale: int) -> Box:
    """A tile that lies straight; refuses anything else."""
    points = whole_ring(ring, scale)
    xs, ys = sorted({p[0] for p in points}), sorted({p[1] for p in points})
    assert len(points) == 4 and len(xs) == len(ys) == 2 and len(set(points)) == 4, ring
    _uprights([points])
    return xs[0], ys[0], xs[1], ys[1]


def compare_straight(region: tuple[Shape, ...], lattice: Lattice, holes: tuple[Hole, ...], filled: Filled) -> Laid:
    """Holds what the engine made against the long way, exactly: every tile, every piece, every hole."""
    scale = scale_of(region, lattice, holes)
    laid = lay(region, lattice, scale)
    drills = [
        (h, (h.x * scale).numerator, (h.y * scale).numerator, (h.diameter / 2 * scale).numerator) for h in holes
    ]

    def drilled(part: Part) -> set[Hole]:
        return {h for h, x, y, r in drills if pierces(h.kind, x, y, r, part)}

    full = set(laid.full)
    untouched = {t for t in full if not drilled(laid.tiles[t][0])}
    runs = [box_of(t, scale) for run in filled.runs for t in run.tiles()]
    assert len(runs) == len(set(runs)), "a full tile twice"
    assert set(runs) == untouched, (sorted(set(runs) - untouched), sorted(untouched - set(runs)))

    pieces = defaultdict(list)
    for piece in filled.pieces:
        assert piece.number == 0
        pieces[box_of(piece.tile, scale)].append(piece)
    expected = {t: parts for t, parts in laid.tiles.items() if t not in untouched}
    assert set(pieces) == set(expected), (sorted(set(pieces) - set(expected)), sorted(set(expected) - set(pieces)))
    for tile, parts in expected.items():
        got = pieces[tile]
        assert len(got) == len(parts), (tile, got, parts)
        left = list(got)
        for part in parts:
            one = next((p for p in left if same_shape(tuple(whole_ring(r, scale) for r in p.shape.rings), part)), None)
            assert one is not None, (tile, part, got)
            left.remove(one)
            assert one.shape.area * scale * scale == part.area
            assert tuple(v * scale for v in one.shape.bounds) == part.bounds
            assert set(one.holes) == drilled(part) and len(one.holes) == len(set(one.holes)), (tile, one.holes, drilled(part))
            for ring in one.shape.rings:
                assert is_plain(ring), ring
    return laid


def is_plain(ring: Ring) -> bool:
    """No corner that is none: no point twice, none in the middle of a straight side."""
    n = len(ring)
    if n < 4 or len(set(ring)) != n:
        return False
    for (x0, y0), (x1, y1), (x2, y2) in ((ring[i - 2], ring[i - 1], ring[i]) for i in range(n)):
        if (x1 - x0) * (y2 - y1) == (y1 - y0) * (x2 - x1):
            return False
    return True
