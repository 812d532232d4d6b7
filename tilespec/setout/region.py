"""A region with upright and level edges, in whole ticks, cut into slabs: exact and quick to ask.

A slab is a band between two heights in which the region's cross-section does not change. Everything is whole numbers, so nothing
is rounded; a tick is the length of which all sizes of a piece of work are whole numbers.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from tilespec.setout.geometry import sides

Spot = tuple[int, int]
Span = tuple[int, int]
Outline = tuple[Spot, ...]
Slab = tuple[int, int, tuple[Span, ...]]


@dataclass(frozen=True, slots=True)
class Region:
    """Slabs from the lowest to the highest, each (low, high, spans from left to right). Neighbouring slabs differ."""

    slabs: tuple[Slab, ...]
    highs: tuple[int, ...]          # upper edge of each slab, to search in
    left: int
    right: int
    low: int
    high: int

    def across(self, low: int, high: int) -> Sequence[Slab]:
        """The slabs that reach into a band."""
        first = bisect_right(self.highs, low)
        last = bisect_left(self.highs, high)
        return self.slabs[first : last + 1] if self.slabs[min(last, len(self.slabs) - 1)][0] < high else self.slabs[first:last]


def region(rings: Iterable[Outline]) -> Region:
    """The region inside the rings, by the even-odd rule: outlines and what is cut out of them."""
    uprights: list[tuple[int, int, int]] = []
    for ring in rings:
        for (x1, y1), (x2, y2) in sides(ring):
            if x1 == x2 and y1 != y2:
                uprights.append((x1, min(y1, y2), max(y1, y2)))
    heights = sorted({y for _, low, high in uprights for y in (low, high)})
    slabs: list[Slab] = []
    for low, high in zip(heights, heights[1:], strict=False):
        xs = sorted(x for x, a, b in uprights if a <= low and b >= high)
        spans: list[Span] = []
        for a, b in zip(xs[::2], xs[1::2], strict=True):
            if a == b:
                continue
            if spans and spans[-1][1] == a:
                spans[-1] = (spans[-1][0], b)
            else:
                spans.append((a, b))
        if not spans:
            continue
        if slabs and slabs[-1][1] == low and slabs[-1][2] == tuple(spans):
            slabs[-1] = (slabs[-1][0], high, slabs[-1][2])
        else:
            slabs.append((low, high, tuple(spans)))
    return of_slabs(slabs)


def common(slabs: Sequence[Slab], low: int, high: int) -> list[Span]:
    """The spans that lie in the region over the whole height of a band; none where the band is not filled throughout."""
    at = low
    kept: list[Span] | None = None
    for a, b, spans in slabs:
        if a > at:
            return []
        at = b
        kept = list(spans) if kept is None else _both(kept, spans)
    return kept if kept and at >= high else []


def _both(one: Sequence[Span], two: Sequence[Span]) -> list[Span]:
    found: list[Span] = []
    i = j = 0
    while i < len(one) and j < len(two):
        left, right = max(one[i][0], two[j][0]), min(one[i][1], two[j][1])
        if left < right:
            found.append((left, right))
        if one[i][1] < two[j][1]:
            i += 1
        else:
            j += 1
    return found


def anywhere(slabs: Sequence[Slab]) -> list[Span]:
    """The spans in which the region is met at some height of a band."""
    found: list[Span] = []
    for a, b in sorted(s for slab in slabs for s in slab[2]):
        if found and a <= found[-1][1]:
            found[-1] = (found[-1][0], max(b, found[-1][1]))
        else:
            found.append((a, b))
    return found


def clip(slabs: Sequence[Slab], left: int, low: int, right: int, high: int) -> list[tuple[Outline, tuple[Outline, ...]]]:
    """What lies of the region in a box: parts that hang together by more than a corner, each an outline and its holes."""
    strips: list[Slab] = []
    for a, b, spans in slabs:
        inside = tuple((max(p, left), min(q, right)) for p, q in spans if p < right and q > left)
        a, b = max(a, low), min(b, high)
        if not inside or a >= b:
            continue
        if strips and strips[-1][1] == a and strips[-1][2] == inside:
            strips[-1] = (strips[-1][0], b, inside)
        else:
            strips.append((a, b, inside))
    if not strips:
        return []
    if len(strips) == 1:
        a, b, inside = strips[0]
        return [(((p, a), (q, a), (q, b), (p, b)), ()) for p, q in inside]
    return _traced(strips)


def _traced(strips: Sequence[Slab]) -> list[tuple[Outline, tuple[Outline, ...]]]:
    """Walk round the parts, the inside always on the left hand."""
    edges: dict[Spot, list[Spot]] = {}

    def edge(start: Spot, end: Spot) -> None:
        edges.setdefault(start, []).append(end)

    below: tuple[Span, ...] = ()
    top = strips[0][0]
    for a, b, spans in strips:
        if a != top:
            _level(edge, top, below, ())
            below = ()
        _level(edge, a, below, spans)
        for p, q in spans:
            edge((p, b), (p, a))
            edge((q, a), (q, b))
        below, top = spans, b
    _level(edge, top, below, ())
    rings: list[list[Spot]] = []
    while edges:
        start = next(iter(edges))
        ring, at, came = [start], start, (0, 0)
        while True:
            ways = edges[at]
            way = ways[0] if len(ways) == 1 else max(ways, key=lambda w: _left_turn(came, (w[0] - at[0], w[1] - at[1])))
            ways.remove(way)
            if not ways:
                del edges[at]
            came, at = (way[0] - at[0], way[1] - at[1]), way
            if at == start:
                break
            ring.append(at)
        rings.append(_straightened(ring))
    return nested(rings)


def _left_turn(came: Spot, goes: Spot) -> int:
    cross = came[0] * goes[1] - came[1] * goes[0]
    return (cross > 0) - (cross < 0)


def _level(edge: Callable[[Spot, Spot], None], y: int, below: Sequence[Span], above: Sequence[Span]) -> None:
    xs = sorted({x for s in (*below, *above) for x in s})
    for p, q in zip(xs, xs[1:], strict=False):
        under = any(a <= p and b >= q for a, b in below)
        over = any(a <= p and b >= q for a, b in above)
        if over and not under:
            edge((p, y), (q, y))
        elif under and not over:
            edge((q, y), (p, y))


def _straightened(ring: list[Spot]) -> list[Spot]:
    """Without corners that are none."""
    kept: list[Spot] = []
    count = len(ring)
    for n, (x, y) in enumerate(ring):
        (px, py), (qx, qy) = ring[n - 1], ring[(n + 1) % count]
        if (x - px) * (qy - y) != (y - py) * (qx - x):
            kept.append((x, y))
    return kept


def nested(rings: Sequence[list[Spot]]) -> list[tuple[Outline, tuple[Outline, ...]]]:
    """Outlines with the holes that lie in them. Rings that run against the clock are outlines, the others holes."""
    outers = [tuple(r) for r in rings if _twice(r) > 0]
    inner: list[list[Outline]] = [[] for _ in outers]
    for r in rings:
        if _twice(r) >= 0:
            continue
        # A point just inside the hole's corner lies in its outline; of several, the smallest.
        x, y = r[0]
        holders = [(_twice(list(o)), n) for n, o in enumerate(outers) if _holds(o, x, y)]
        inner[min(holders)[1]].append(tuple(r))
    return [(o, tuple(i)) for o, i in zip(outers, inner, strict=True)]


def _twice(ring: Sequence[Spot]) -> int:
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in sides(ring))


def _holds(ring: Outline, x: int, y: int) -> bool:
    """Inside, or on the edge."""
    inside = False
    for (x1, y1), (x2, y2) in sides(ring):
        if min(x1, x2) <= x <= max(x1, x2) and min(y1, y2) <= y <= max(y1, y2) and (x1 == x2 == x or y1 == y2 == y):
            return True
        if x1 == x2 and (y1 > y) != (y2 > y) and x < x1:
            inside = not inside
    return inside


def combined(one: Region, two: Region, *, both: bool) -> Region:
    """What lies in both, or in the first and not in the second."""
    if not one.slabs or (both and not two.slabs):
        return Region((), (), 0, 0, 0, 0)
    heights = sorted({y for r in (one, two) for s in r.slabs for y in s[:2]})
    slabs: list[Slab] = []
    for low, high in zip(heights, heights[1:], strict=False):
        first, second = (next((s[2] for s in r.across(low, high)), ()) if r.slabs else () for r in (one, two))
        spans = tuple(_both(first, second) if both else _less(first, second))
        if not spans:
            continue
        if slabs and slabs[-1][1] == low and slabs[-1][2] == spans:
            slabs[-1] = (slabs[-1][0], high, spans)
        else:
            slabs.append((low, high, spans))
    return of_slabs(slabs)


def of_slabs(slabs: Sequence[Slab]) -> Region:
    if not slabs:
        return Region((), (), 0, 0, 0, 0)
    return Region(
        tuple(slabs), tuple(s[1] for s in slabs), min(s[2][0][0] for s in slabs), max(s[2][-1][1] for s in slabs),
        slabs[0][0], slabs[-1][1],
    )


def _less(one: Sequence[Span], two: Sequence[Span]) -> list[Span]:
    left = list(one)
    for a, b in two:
        kept: list[Span] = []
        for p, q in left:
            if a >= q or b <= p:
                kept.append((p, q))
                continue
            if a > p:
                kept.append((p, a))
            if b < q:
                kept.append((b, q))
        left = kept
    return left


def outlines(r: Region) -> list[tuple[Outline, tuple[Outline, ...]]]:
    """The region as outlines with holes."""
    return _traced(r.slabs) if r.slabs else []
