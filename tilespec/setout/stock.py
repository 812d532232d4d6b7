"""What a plan of cuts is made for: the tile that is cut up, the pieces wanted, and what a saw can do to one tile.

A tile is cut up in at most two steps, as on a wet saw: right across into strips (levels or uprights), then each strip across
into pieces; a piece lower than its strip is trimmed. The kerf is modelled by adding it to tile and pieces alike: pieces w1 ... wn
come out of a length L where (w1 + kerf) + ... + (wn + kerf) <= L + kerf. A scored and snapped cut loses nothing,
but a plan has one kerf.

A side of a piece at which a joint shows must be the tile's own (factory) edge; so such a piece lies at that side of the tile.
What is left of a tile is cut again only where it is at least `least` wide and high, or as wide (high) as the tile itself; a strip
from which several pieces come is cut that high.

All lengths here are Fractions of any one unit, or whole numbers of a finer one after `measured`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

SIDES = ("left", "right", "low", "high")
LEFT, RIGHT, LOW, HIGH = 1, 2, 4, 8         # sides of a piece that must be factory edges, added up
ALONG, ACROSS = LEFT | RIGHT, LOW | HIGH

Key = tuple[str, int]                       # surface and number in its cut list


@dataclass(frozen=True, slots=True)
class Stock:
    """The tile that is cut up.

    kerf        lost between two pieces; of a mosaic sheet, the joint between its chips
    least       least usable strip
    directional it may not be turned at all (veins); else it may be turned half round, and a square one by a quarter
    """

    width: Fraction
    height: Fraction
    kerf: Fraction = Fraction(0)
    least: Fraction = Fraction(0)
    directional: bool = False


@dataclass(frozen=True, slots=True)
class Demand:
    """Pieces of one size: the bounding box of each, how many, and which sides must be factory edges (of `SIDES`)."""

    key: Key
    width: Fraction
    height: Fraction
    count: int
    factory: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Turned:
    """A size as it may lie in the tile. `size`: its number."""

    size: int
    width: int
    height: int
    sides: int

    def flipped(self) -> Turned:
        """Seen with x and y exchanged, so that one routine serves both directions of the first cut."""
        return Turned(self.size, self.height, self.width, _swapped(self.sides, ((LEFT, LOW), (RIGHT, HIGH))))

    def half(self) -> Turned:
        return Turned(self.size, self.width, self.height, _swapped(self.sides, ((LEFT, RIGHT), (LOW, HIGH))))

    def quarter(self) -> Turned:
        """A quarter turn to the left: what was on the left is low."""
        sides = 0
        for old, new in ((LEFT, LOW), (LOW, RIGHT), (RIGHT, HIGH), (HIGH, LEFT)):
            sides |= new if self.sides & old else 0
        return Turned(self.size, self.height, self.width, sides)


def _swapped(sides: int, pairs: tuple[tuple[int, int], ...]) -> int:
    result = 0
    for a, b in pairs:
        result |= (b if sides & a else 0) | (a if sides & b else 0)
    return result


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip of a tile and what is cut from it, in order along it."""

    height: int
    pieces: tuple[Turned, ...]

    @property
    def sides(self) -> int:
        """The sides of the tile at which it must lie (across the strips)."""
        result = 0
        for p in self.pieces:
            result |= p.sides & ACROSS
        return result


@dataclass(frozen=True, slots=True)
class Pattern:
    """How one tile is cut up. `upright`: the strips are upright (they and their pieces are kept with x and y exchanged)."""

    upright: bool
    strips: tuple[Strip, ...]

    def sizes(self) -> tuple[tuple[int, int], ...]:
        """(size, how many), in order of size."""
        counts: dict[int, int] = {}
        for strip in self.strips:
            for p in strip.pieces:
                counts[p.size] = counts.get(p.size, 0) + 1
        return tuple(sorted(counts.items()))


@dataclass(frozen=True, slots=True)
class Bench:
    """The tile in whole numbers, as the saw sees it: `width` along the strips, `height` across them."""

    width: int
    height: int
    kerf: int
    least_width: int
    least_height: int

    def flipped(self) -> Bench:
        return Bench(self.height, self.width, self.kerf, self.least_height, self.least_width)


@dataclass(frozen=True, slots=True)
class Task:
    """The whole problem in whole numbers.

    unit        of them: so many to one unit of length of the stock
    counts      pieces of each size
    turns       each size in all the ways it may lie
    members     the demands of each size (equal ones are one size), with how many
    order       (size, how many) as the demands were given
    symmetric   a pattern turned half round is as good
    """

    bench: Bench
    unit: int
    counts: tuple[int, ...]
    turns: tuple[tuple[Turned, ...], ...]
    members: tuple[tuple[tuple[Key, int], ...], ...]
    order: tuple[tuple[int, int], ...]
    symmetric: bool


def measured(stock: Stock, demands: Sequence[Demand]) -> Task:
    """Stock and demands in whole numbers. ValueError where a piece cannot come out of the tile, or is wanted less than once."""
    unit = math.lcm(*(x.denominator for x in (stock.width, stock.height, stock.kerf, stock.least)),
                    *(x.denominator for d in demands for x in (d.width, d.height)))

    def whole(x: Fraction) -> int:
        return int(x * unit)

    width, height, least = whole(stock.width), whole(stock.height), whole(stock.least)
    bench = Bench(width, height, whole(stock.kerf), min(least, width), min(least, height))
    merged: dict[tuple[tuple[int, int, int], ...], list[tuple[Key, int]]] = {}
    order: list[tuple[int, int]] = []
    for d in demands:
        ways = _ways(stock, bench, whole(d.width), whole(d.height), _mask(d))
        if d.count < 1 or min(d.width, d.height) <= 0 or not ways:
            raise ValueError(f"{d.key[0]}, piece {d.key[1]}: does not come out of the tile")
        merged.setdefault(ways, []).append((d.key, d.count))
        order.append((list(merged).index(ways), d.count))
    return Task(
        bench, unit, tuple(sum(n for _, n in m) for m in merged.values()),
        tuple(tuple(Turned(i, *way) for way in ways) for i, ways in enumerate(merged)),
        tuple(tuple(m) for m in merged.values()), tuple(order), not stock.directional,
    )


def _mask(d: Demand) -> int:
    return sum(1 << SIDES.index(s) for s in set(d.factory))


def _ways(stock: Stock, bench: Bench, width: int, height: int, sides: int) -> tuple[tuple[int, int, int], ...]:
    """(width, height, sides) of a piece in each way that it may lie, those that do not fit left out."""
    ways = [Turned(0, width, height, sides)]
    if not stock.directional:
        ways.append(ways[0].half())
        if bench.width == bench.height:
            ways += [w.quarter() for w in ways]
    return tuple(sorted({
        (w.width, w.height, w.sides) for w in ways
        if w.width <= bench.width and w.height <= bench.height
        and (w.sides & ALONG != ALONG or w.width == bench.width) and (w.sides & ACROSS != ACROSS or w.height == bench.height)
    }))


def room(size: int, kerf: int, least: int, used: int, largest: int, number: int) -> bool:
    """Whether so many pieces in a row, `used` long with a kerf each, come out of a length.

    All but the last are cut off what is left; the last is best the largest, and what it comes out of is not too narrow to keep.
    """
    return used + (max(0, least - largest) if number > 1 else 0) <= size + kerf


def places(bench: Bench, pattern: Pattern) -> tuple[tuple[int, int, int, int, int], ...]:
    """(size, left, low, width, height) of each piece in the tile, from its lower left corner, in order of the cuts."""
    if pattern.upright:
        bench = bench.flipped()
    result = []
    for n, low in _row([(s.height, s.sides // LOW) for s in pattern.strips], bench.height, bench.kerf, bench.least_height):
        strip = pattern.strips[n]
        along = [(p.width, p.sides & ALONG) for p in strip.pieces]
        for m, left in _row(along, bench.width, bench.kerf, bench.least_width):
            p = strip.pieces[m]
            y = low + strip.height - p.height if p.sides & HIGH else low
            result.append((p.size, y, left, p.height, p.width) if pattern.upright else (p.size, left, y, p.width, p.height))
    return tuple(result)


def _row(things: Sequence[tuple[int, int]], length: int, kerf: int, least: int) -> list[tuple[int, int]]:
    """(number, where it begins) of things of (size, ends) along a length: near end (1) first, far end (2) last.

    What is left over lies before what needs the far end, or at the far end; the last piece is cut from it. Where the two would be
    too narrow to hold, it lies after what needs the near end.
    """
    order = sorted(range(len(things)), key=lambda i: ((0, -1, 1, 0)[things[i][1]], things[i][0]))
    sizes = [things[i][0] for i in order]
    rest = length - sum(sizes) - kerf * (len(sizes) - 1)
    before = sum(1 for i in order if not things[i][1] & 2) or 1
    beside = sizes[before - 1:before + 1] if before < len(sizes) else sizes[-1:]
    if max(beside) + rest < least and len(sizes) > 1:
        before = 1
    at, result = 0, []
    for n, i in enumerate(order):
        # What needs both ends, or stands alone, lies where it is asked for.
        if n == before or (n == 0 and len(sizes) == 1 and things[i][1] == 2):
            at += rest
        result.append((i, at))
        at += sizes[n] + kerf
    return result
