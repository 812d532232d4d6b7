"""The patterns, as lines of equal tiles and as lattices of tiles. Numbers may be whole ticks or floats.

A line is a row of equal tiles at equal distances, endless both ways. Patterns whose tiles do not lie in level lines are lattices:
a tile, repeated by two vectors.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Generic, TypeVar

from tilespec.job.types import Pattern
from tilespec.quantity import Kind

SHARES = {"half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4)}
OFFSET = (*SHARES, "run")

N = TypeVar("N", int, float)


@dataclass(frozen=True, slots=True)
class Line(Generic[N]):
    """Tiles of width `wide` and height `high` with their lower left corners at (x + k step, y), k any whole number."""

    x: N
    y: N
    step: N
    wide: N
    high: N


@dataclass(frozen=True, slots=True)
class Grille(Generic[N]):
    """Tiles with their lower left corners at (x, y) + i (ax, ay) + k (bx, by), i and k any whole numbers."""

    x: N
    y: N
    ax: N
    ay: N
    bx: N
    by: N
    wide: N
    high: N


def shift_of(pattern: Pattern, module: Fraction) -> Fraction:
    """How far a course is moved against the one before, in the unit of `module` (tile and joint, in metres for a said length)."""
    if pattern.name == "run" and pattern.run is not None:
        return pattern.run.value if pattern.run.kind is Kind.LENGTH else pattern.run.value * module
    return SHARES.get(pattern.name, Fraction(0)) * module


def lines(
    pattern: Pattern, x: N, y: N, wide: N, high: N, joint: N, shift: N, low: N, top: N,
) -> Iterator[Line[N]]:
    """The level lines that reach into the band from `low` to `top`. Offset bonds with standing courses are asked for turned over.

    `shift`: of one course against the next.
    """
    if pattern.name == "basket":
        yield from _basket(x, y, wide, high, joint, low, top)
        return
    across, up = wide + joint, high + joint
    first, last = floor((low - y - high) / up), ceil((top - y) / up)
    for n in range(first, last + 1):
        at = y + n * up
        if at < top and at + high > low:
            moved = (n * shift) % across if pattern.stepped else (n % 2) * shift
            yield Line(x + moved, at, across, wide, high)


def _basket(x: N, y: N, wide: N, high: N, joint: N, low: N, top: N) -> Iterator[Line[N]]:
    long, short = max(wide, high), min(wide, high)
    side, pitch = long + joint, short + joint
    number = max(1, round(side / pitch))
    # The first tile is laid as it was said: lying or standing.
    lying_first = 0 if wide >= high else 1
    for q in range(floor((low - y) / side) - 1, ceil((top - y) / side) + 1):
        at = y + q * side
        for i in range(number):
            row = at + i * pitch
            if row < top and row + short > low:
                yield Line(x + ((q + lying_first) % 2) * side, row, 2 * side, long, short)
            if at < top and at + long > low:
                yield Line(x + ((q + lying_first + 1) % 2) * side + i * pitch, at, 2 * side, short, long)


def grilles(pattern: Pattern, x: N, y: N, wide: N, high: N, joint: N, second: N) -> tuple[Grille[N], ...]:
    """The lattices of a herringbone or of a pattern of two sizes (`second`: side of the smaller tile)."""
    if pattern.name == "modular":
        a, b = wide + joint, second + joint
        return Grille(x, y, a, b, -b, a, wide, wide), Grille(x + a, y, a, b, -b, a, second, second)
    long, short = max(wide, high), min(wide, high)
    side, pitch = long + joint, short + joint
    pairs = 2 if pattern.double else 1
    unit = pitch * pairs
    found = []
    for i in range(pairs):
        found.append(Grille(x, y + i * pitch, unit, unit, side, -side, long, short))
        found.append(Grille(x + i * pitch, y + unit, unit, unit, side, -side, short, long))
    return tuple(found)


def places(g: Grille[N], left: N, low: N, right: N, top: N) -> Iterator[tuple[int, int, int]]:
    """The tiles of a lattice that reach into a box: (k, first i, last i). Some may only touch it."""
    det = g.ax * g.by - g.ay * g.bx
    corners = [(cx - g.x, cy - g.y) for cx in (left - g.wide, right) for cy in (low - g.high, top)]
    # k of a point = (ax·dy − ay·dx) / det
    ks = [(g.ax * dy - g.ay * dx) / det for dx, dy in corners]
    for k in range(floor(min(ks)), ceil(max(ks)) + 1):
        ox, oy = g.x + k * g.bx, g.y + k * g.by
        first, last = -(10**9), 10**9
        for step, at, size, near, far in ((g.ax, ox, g.wide, left, right), (g.ay, oy, g.high, low, top)):
            if step == 0:
                if at >= far or at + size <= near:
                    first, last = 1, 0
                continue
            a, b = sorted(((near - size - at) / step, (far - at) / step))
            first, last = max(first, ceil(a - 1e-9)), min(last, floor(b + 1e-9))
        if first <= last:
            yield k, first, last
