"""Exact plane geometry on upright rectangles and straight-sided outlines. Fractions of a metre in and out.

A region is asked for as a test on points; it is cut on the grid of all edges that bound it, so that overlaps are never
counted twice and nothing is rounded.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import TypeVar

from tilespec.job.types import Point, Rect

NANO = 10**9
_Spot = TypeVar("_Spot")


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle by its edges."""

    left: Fraction
    low: Fraction
    right: Fraction
    high: Fraction

    @property
    def area(self) -> Fraction:
        return max(self.right - self.left, Fraction(0)) * max(self.high - self.low, Fraction(0))

    def within(self, other: Box) -> Box:
        """The part that lies in another box (of no area when they do not meet)."""
        return Box(max(self.left, other.left), max(self.low, other.low), min(self.right, other.right), min(self.high, other.high))

    def meets(self, other: Box) -> bool:
        """They share some area, not only an edge."""
        return self.within(other).right > self.within(other).left and self.within(other).high > self.within(other).low

    def holds(self, x: Fraction, y: Fraction) -> bool:
        return self.left <= x <= self.right and self.low <= y <= self.high


def box(rect: Rect) -> Box:
    return Box(rect.x.value, rect.y.value, rect.right, rect.top)


def bounds(outline: Sequence[Point]) -> Box:
    xs, ys = [p[0] for p in outline], [p[1] for p in outline]
    return Box(min(xs), min(ys), max(xs), max(ys))


def sides(outline: Sequence[_Spot]) -> tuple[tuple[_Spot, _Spot], ...]:
    """The sides of an outline, each from corner to corner; the last one closes it."""
    return tuple(zip(outline, (*outline[1:], *outline[:1]), strict=True))


def polygon_area(outline: Sequence[Point]) -> Fraction:
    """Shoelace formula, whatever way round the corners are listed."""
    return abs(twice_area(outline)) / 2


def twice_area(outline: Sequence[Point]) -> Fraction:
    """Twice the area; negative when the corners run against the clock as x and y are drawn."""
    return sum((x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in sides(outline)), Fraction(0))


def upright(outline: Sequence[Point]) -> bool:
    """The outline is one upright rectangle."""
    frame = bounds(outline)
    corners = {(frame.left, frame.low), (frame.right, frame.low), (frame.left, frame.high), (frame.right, frame.high)}
    return len(outline) == 4 and set(outline) == corners and polygon_area(outline) == frame.area


def _half(outline: list[Point], inside: Callable[[Point], Fraction]) -> list[Point]:
    """The side of a straight cut where `inside` is not negative."""
    result: list[Point] = []
    for a, b in sides(outline):
        da, db = inside(a), inside(b)
        if da >= 0:
            result.append(a)
        if (da > 0 and db < 0) or (da < 0 and db > 0):
            t = da / (da - db)
            result.append((a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t))
    return result


def clip(outline: Sequence[Point], frame: Box) -> tuple[Point, ...]:
    """The outline cut to a box. A re-entrant outline may come back with edges that run to and fro; its area is right."""
    points = list(outline)
    points = _half(points, lambda p: p[0] - frame.left)
    points = _half(points, lambda p: frame.right - p[0])
    points = _half(points, lambda p: p[1] - frame.low)
    points = _half(points, lambda p: frame.high - p[1])
    return tuple(points)


def cut(boxes: Iterable[Box], frame: Box, inside: Callable[[Fraction, Fraction], bool]) -> tuple[Box, ...]:
    """The part of `frame` where `inside` is true, as rectangles that do not overlap.

    `boxes` are all the rectangles that `inside` asks about: between their edges its answer must not change.
    """
    xs, ys = {frame.left, frame.right}, {frame.low, frame.high}
    for b in boxes:
        xs.update(x for x in (b.left, b.right) if frame.left < x < frame.right)
        ys.update(y for y in (b.low, b.high) if frame.low < y < frame.high)
    columns, rows = sorted(xs), sorted(ys)
    open_strips: dict[tuple[Fraction, Fraction], Fraction] = {}
    done: list[Box] = []
    for low, high in pairwise(rows):
        strips: list[tuple[Fraction, Fraction]] = []
        for left, right in pairwise(columns):
            if inside((left + right) / 2, (low + high) / 2):
                if strips and strips[-1][1] == left:
                    strips[-1] = (strips[-1][0], right)
                else:
                    strips.append((left, right))
        for strip in [s for s in open_strips if s not in strips]:
            done.append(Box(strip[0], open_strips.pop(strip), strip[1], low))
        for strip in strips:
            open_strips.setdefault(strip, low)
    done.extend(Box(left, low, right, rows[-1]) for (left, right), low in open_strips.items())
    return tuple(sorted(done, key=lambda b: (b.low, b.left)))


def rim(
    piece: Box, region: Callable[[Fraction, Fraction], bool], boxes: Iterable[Box],
) -> tuple[tuple[str, Fraction, Fraction], ...]:
    """The stretches of a rectangle's edge with `region` on their outer side: (side, from, to).

    Sides are "left", "right", "low", "high"; stretches run along the side.
    """
    small = Fraction(1, 10**9)
    edges = list(boxes)
    result: list[tuple[str, Fraction, Fraction]] = []
    for side, at, start, end in (
        ("low", piece.low - small, piece.left, piece.right), ("right", piece.right + small, piece.low, piece.high),
        ("high", piece.high + small, piece.left, piece.right), ("left", piece.left - small, piece.low, piece.high),
    ):
        level = side in ("low", "high")
        marks = {start, end}
        for e in edges:
            marks.update(m for m in ((e.left, e.right) if level else (e.low, e.high)) if start < m < end)
        cuts = sorted(marks)
        open_from: Fraction | None = None
        for a, b in pairwise(cuts):
            middle = (a + b) / 2
            if region(middle, at) if level else region(at, middle):
                open_from = a if open_from is None else open_from
                continue
            if open_from is not None:
                result.append((side, open_from, a))
                open_from = None
        if open_from is not None:
            result.append((side, open_from, end))
    return tuple(result)


def holds(outline: Sequence[Point], x: Fraction, y: Fraction) -> bool:
    """A point lies inside an outline (crossing rule; the edge itself is not asked about)."""
    inside = False
    for (x1, y1), (x2, y2) in sides(outline):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside


def nano(v: Fraction | float) -> Fraction:
    """To the nanometre: what is worked out for slanted edges is kept no finer, and is the same on every machine."""
    return Fraction(round(v * NANO), NANO)


def unlike(ring: Sequence[Point]) -> tuple[Point, ...]:
    """Without corners that rounding has put on the one before."""
    return tuple(p for n, p in enumerate(ring) if p != ring[n - 1])


def anticlockwise(ring: tuple[Point, ...]) -> tuple[Point, ...]:
    """The outline from the same corner, turned over where it runs the other way round (as x and y are drawn)."""
    return ring if twice_area(ring) > 0 else (ring[0], *ring[:0:-1])


def set_back(outline: tuple[Point, ...], by: Sequence[Fraction]) -> tuple[Point, ...]:
    """The outline with each side moved inwards by its own distance (outwards where it is negative), in the order of the sides.

    Side n runs from corner n to the next. ValueError where nothing is left.
    """
    turn = 1 if twice_area(outline) > 0 else -1
    lines: list[tuple[Fraction, Fraction, Fraction]] = []  # a x + b y = c, (a, b) pointing inwards
    for ((x1, y1), (x2, y2)), distance in zip(sides(outline), by, strict=True):
        ux, uy = _unit(x2 - x1, y2 - y1)
        a, b = -uy * turn, ux * turn
        lines.append((a, b, a * x1 + b * y1 + distance))
    found: list[Point] = []
    for n, (a2, b2, c2) in enumerate(lines):
        a1, b1, c1 = lines[n - 1]
        det = a1 * b2 - a2 * b1
        if det == 0:
            # Two sides on one line: their corner moves with the second.
            x, y = outline[n]
            found.append((x + a2 * by[n], y + b2 * by[n]))
            continue
        found.append((_plain((c1 * b2 - c2 * b1) / det), _plain((a1 * c2 - a2 * c1) / det)))
    if twice_area(found) * turn <= 0 or all(_reversed(a, b) for a, b in zip(sides(outline), sides(found), strict=True)):
        raise ValueError("nothing is left of the outline")
    return tuple(found)


def _reversed(side: tuple[Point, Point], moved: tuple[Point, Point]) -> bool:
    (ax, ay), (bx, by) = side
    (cx, cy), (dx, dy) = moved
    return (bx - ax) * (dx - cx) + (by - ay) * (dy - cy) < 0


def _plain(v: Fraction) -> Fraction:
    """Slanted sides give long fractions."""
    return v if v.denominator <= 10**7 else nano(v)


def _unit(dx: Fraction, dy: Fraction) -> tuple[Fraction, Fraction]:
    if dx == 0 or dy == 0:
        return Fraction((dx > 0) - (dx < 0)), Fraction((dy > 0) - (dy < 0))
    # Slanted sides only: twelve digits, the same on every machine.
    size = Fraction(f"{math.hypot(dx, dy):.12g}")
    return dx / size, dy / size


def reach(start: Point, end: Point, frame: Box) -> tuple[Fraction, Fraction] | None:
    """The part of a straight line that lies in a box (its edge included), as shares 0 to 1 of the line.

    None where they share only a point, or nothing.
    """
    low, high = Fraction(0), Fraction(1)
    for at, to, least, most in ((start[0], end[0], frame.left, frame.right), (start[1], end[1], frame.low, frame.high)):
        step = to - at
        if step == 0:
            if not least <= at <= most:
                return None
            continue
        a, b = sorted(((least - at) / step, (most - at) / step))
        low, high = max(low, a), min(high, b)
    return (low, high) if high > low else None
