"""Plane geometry of a drawing: boxes on paper, lines clipped to outlines, hatching, the outline of several rectangles.

Floats throughout: nothing here is measured, it is only drawn.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, floor, hypot, radians, sin

Spot = tuple[float, float]
Line = tuple[float, float, float, float]
Polygon = tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle on paper: millimetres, y down."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    @property
    def middle(self) -> Spot:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    @property
    def corners(self) -> Polygon:
        return (self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: Box) -> bool:
        return self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom

    def within(self, other: Box) -> bool:
        return self.left >= other.left and self.right <= other.right and self.top >= other.top and self.bottom <= other.bottom

    def crossed(self, line: Line) -> bool:
        """Does the line touch the inside of the box?"""
        x1, y1, x2, y2 = line
        low, high = 0.0, 1.0
        for start, step, least, most in ((x1, x2 - x1, self.left, self.right), (y1, y2 - y1, self.top, self.bottom)):
            if step == 0:
                if not least < start < most:
                    return False
                continue
            a, b = (least - start) / step, (most - start) / step
            low, high = max(low, min(a, b)), min(high, max(a, b))
        return low < high


def text_box(x: float, y: float, width: float, above: float, below: float, anchor: str, turn: float) -> Box:
    """The box around one line of text whose anchor stands at x, y on its base line and which is turned by `turn` degrees."""
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[anchor]
    c, s = cos(radians(turn)), sin(radians(turn))
    spots = [(u * c - v * s, u * s + v * c) for u in (start, start + width) for v in (-above, below)]
    return Box(
        x + min(p[0] for p in spots),
        y + min(p[1] for p in spots),
        x + max(p[0] for p in spots),
        y + max(p[1] for p in spots),
    )


def inside(spot: Spot, polygon: Polygon) -> bool:
    x, y = spot
    odd = False
    for (x1, y1), (x2, y2) in sides(polygon):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            odd = not odd
    return odd


def lies_in(box: Box, polygon: Polygon) -> bool:
    """Is the box inside the polygon, edges and all?"""
    return inside(box.middle, polygon) and not any(box.crossed((*a, *b)) for a, b in sides(polygon))


def sides(polygon: Polygon) -> Iterable[tuple[Spot, Spot]]:
    return zip(polygon, polygon[1:] + polygon[:1])


def bounds(polygon: Iterable[Spot]) -> Box:
    spots = tuple(polygon)
    return Box(min(p[0] for p in spots), min(p[1] for p in spots), max(p[0] for p in spots), max(p[1] for p in spots))


def rectangle(x: float, y: float, width: float, height: float) -> Polygon:
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


def _cuts(line: Line, polygon: Polygon) -> list[float]:
    x1, y1, x2, y2 = line
    dx, dy = x2 - x1, y2 - y1
    found = []
    for (ax, ay), (bx, by) in sides(polygon):
        # On which side of the line each end lies; an end on the line counts to one side, so that corners count once.
        a, b = dx * (ay - y1) - dy * (ax - x1), dx * (by - y1) - dy * (bx - x1)
        if (a > 0) != (b > 0):
            share = a / (a - b)
            x, y = ax + share * (bx - ax), ay + share * (by - ay)
            found.append(((x - x1) * dx + (y - y1) * dy) / (dx * dx + dy * dy))
    return sorted(found)


def _stretches(line: Line, polygon: Polygon) -> list[tuple[float, float]]:
    """Where the line is inside, as shares of it."""
    cuts = _cuts(line, polygon)
    return [(max(0.0, a), min(1.0, b)) for a, b in zip(cuts[::2], cuts[1::2]) if b > 0 and a < 1]


def clip(line: Line, into: Sequence[Polygon], out_of: Sequence[Polygon] = ()) -> tuple[Line, ...]:
    """The parts of a line inside every polygon of `into` and outside every one of `out_of`."""
    x1, y1, x2, y2 = line
    if x1 == x2 and y1 == y2:
        return ()
    parts = [(0.0, 1.0)]
    for polygon in into:
        stretches = _stretches(line, polygon)
        parts = [(max(a, c), min(b, d)) for a, b in parts for c, d in stretches if max(a, c) < min(b, d)]
    for polygon in out_of:
        for c, d in _stretches(line, polygon):
            parts = [p for a, b in parts for p in ((a, min(b, c)), (max(a, d), b)) if p[0] < p[1]]
    least = 1e-6
    return tuple(
        (x1 + a * (x2 - x1), y1 + a * (y2 - y1), x1 + b * (x2 - x1), y1 + b * (y2 - y1)) for a, b in parts if b - a > least
    )


def hatch(polygon: Polygon, gap: float, falling: bool = False, out_of: Sequence[Polygon] = ()) -> tuple[Line, ...]:
    """Slanting lines through a polygon, `gap` apart; on one raster, so that neighbours join."""
    box = bounds(polygon)
    slope = 1 if falling else -1
    ends = [y - slope * x for x, y in box.corners]
    first, last = floor(min(ends) / gap), floor(max(ends) / gap) + 1
    lines = [(box.left, slope * box.left + n * gap, box.right, slope * box.right + n * gap) for n in range(first, last + 1)]
    return tuple(part for line in lines for part in clip(line, (polygon,), out_of))


def union_outline(boxes: Sequence[Box]) -> tuple[Line, ...]:
    """The edges of what several upright boxes cover together: upright edges first, each as long as it runs."""
    xs = sorted({x for b in boxes for x in (b.left, b.right)})
    ys = sorted({y for b in boxes for y in (b.top, b.bottom)})

    def covered(i: int, j: int) -> bool:
        if not (0 <= i < len(xs) - 1 and 0 <= j < len(ys) - 1):
            return False
        x, y = (xs[i] + xs[i + 1]) / 2, (ys[j] + ys[j + 1]) / 2
        return any(b.left < x < b.right and b.top < y < b.bottom for b in boxes)

    lines: list[Line] = []
    for i, x in enumerate(xs):
        start: float | None = None
        for j in range(len(ys)):
            edge = covered(i - 1, j) != covered(i, j)
            if edge and start is None:
                start = ys[j]
            elif not edge and start is not None:
                lines.append((x, start, x, ys[j]))
                start = None
    for j, y in enumerate(ys):
        start = None
        for i in range(len(xs)):
            edge = covered(i, j - 1) != covered(i, j)
            if edge and start is None:
                start = xs[i]
            elif not edge and start is not None:
                lines.append((start, y, xs[i], y))
                start = None
    return tuple(lines)


def apart(places: Sequence[float], sizes: Sequence[float]) -> tuple[float, ...]:
    """Moves things on a line as little as possible (least squares), in their order, until they do not overlap.

    Pool adjacent violators: with each thing's own offset taken away, "not closer than" becomes "not falling".
    """
    offsets: list[float] = []
    run = 0.0
    for i, size in enumerate(sizes):
        if i:
            run += (sizes[i - 1] + size) / 2
        offsets.append(run)
    blocks: list[tuple[float, int]] = []  # mean, number
    for place, offset in zip(places, offsets):
        mean, number = place - offset, 1
        while blocks and blocks[-1][0] >= mean:
            other, count = blocks.pop()
            mean, number = (mean * number + other * count) / (number + count), number + count
        blocks.append((mean, number))
    means = [mean for mean, number in blocks for _ in range(number)]
    return tuple(mean + offset for mean, offset in zip(means, offsets))


def distance(a: Spot, b: Spot) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def inner_outline(outline: Polygon, by: float) -> tuple[Line, ...]:
    """The outline moved inwards; exact where its sides meet square."""
    clockwise = sum(a[0] * b[1] - b[0] * a[1] for a, b in sides(outline)) > 0
    moved: list[tuple[float, float]] = []
    count = len(outline)
    for i, (x, y) in enumerate(outline):
        total = [0.0, 0.0]
        for a, b in ((outline[i - 1], (x, y)), ((x, y), outline[(i + 1) % count])):
            long = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 or 1.0
            normal = (-(b[1] - a[1]) / long, (b[0] - a[0]) / long)
            total[0] += normal[0] * by * (1 if clockwise else -1)
            total[1] += normal[1] * by * (1 if clockwise else -1)
        moved.append((x + total[0], y + total[1]))
    return tuple((*a, *b) for a, b in sides(tuple(moved)))
