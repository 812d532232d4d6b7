"""Rooms, lattices and pipe holes made up by hypothesis: measured in millimetres, in inches, and in neither."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction as F
from typing import TYPE_CHECKING, NamedTuple

from hypothesis import strategies as st

from tests.setout.slanted import drawn
from tests.takeoff.building import HERE, tile
from tilespec.job.types import Pattern
from tilespec.quantity import UNITS, Given, Quantity
from tilespec.setout.types import Hole, Ring, Shape

if TYPE_CHECKING:
    from tilespec.setout.engine import Lattice

MM = F(1, 1000)
SIXTEENTH = F(127, 80_000)          # of an inch, in metres
OFFSETS = ("half", "third", "quarter", "run")
STRAIGHT = ("straight", "stack", *OFFSETS, "herringbone", "basket", "modular")
SLANTED = ("diagonal", "herringbone")


class Case(NamedTuple):
    region: tuple[Shape, ...]
    lattice: Lattice
    holes: tuple[Hole, ...]


def metres(value: F) -> Quantity:
    return Quantity(value, UNITS["m"].kind, UNITS["m"], Given(HERE))


def times(value: F) -> Quantity:
    return Quantity(value, UNITS["count"].kind, UNITS["count"], Given(HERE))


def _number(least: int, most: int, units: tuple[F, ...] = (MM, MM, MM / 10, SIXTEENTH, MM / 7)) -> st.SearchStrategy[F]:
    """A length between two numbers of millimetres."""
    return st.sampled_from(units).flatmap(
        lambda unit: st.integers(math.ceil(least * MM / unit), math.floor(most * MM / unit)).map(lambda n: n * unit)
    )


JOINTS = st.sampled_from([
    F(0), F(0), MM, 3 * MM / 2, 2 * MM, 2 * MM, 3 * MM, 3 * MM, 5 * MM, 10 * MM, SIXTEENTH, 2 * SIXTEENTH, 3 * SIXTEENTH,
])
SIDES = st.one_of(
    _number(30, 900),
    st.sampled_from([F(s, 1000) for s in (98, 100, 150, 200, 298, 300, 300, 330, 450, 600, 600, 1200)]),
    st.sampled_from([n * 16 * SIXTEENTH for n in (3, 4, 6, 12, 13, 24)]),
)


@st.composite
def lattices(draw: st.DrawFn, names: tuple[str, ...]) -> Lattice:
    from tilespec.setout.engine import Lattice

    name = draw(st.sampled_from(names))
    joint = draw(JOINTS)
    width, height = draw(SIDES), draw(SIDES)
    p = Pattern(name)
    if name in OFFSETS:
        p = replace(p, stepped=draw(st.booleans()), upright=draw(st.booleans()))
    if name == "stack":
        p = replace(p, upright=draw(st.booleans()))
    if name == "run":
        along = height if p.upright else width
        length = st.builds(lambda n: metres(along * n / 16), st.integers(1, 15))
        part = st.fractions(F(1, 20), F(19, 20), max_denominator=20).map(times)
        p = replace(p, run=draw(st.one_of(length, part)))
    elif name == "herringbone":
        p = replace(p, double=draw(st.booleans()))
    elif name == "basket":
        many = draw(st.integers(1, 5))
        short = draw(_number(25, 250))
        width, height = many * (short + joint) - joint, short
        if draw(st.booleans()):
            width, height = height, width
    elif name == "modular":
        height = width
        other = draw(SIDES)
        p = replace(p, second=replace(tile("second"), width=metres(other), height=metres(other)))
    return Lattice(width, height, joint, p, F(0), F(0))


# ---------------------------------------------------------------- rooms on lines that cross at right angles

def outlines(cells: list[list[bool]], xs: list[F], ys: list[F]) -> tuple[Shape, ...]:
    """The shapes that cells of a grid make: walks round the rooms, with what is left free in their middle."""
    rows, columns = len(cells), len(cells[0])
    cells = [list(row) for row in cells]
    # Rooms that meet in a point only are filled up: no wall is built like that.
    again = True
    while again:
        again = False
        for j in range(rows - 1):
            for i in range(columns - 1):
                a, b, c, d = cells[j][i], cells[j][i + 1], cells[j + 1][i], cells[j + 1][i + 1]
                if (a and d and not b and not c) or (b and c and not a and not d):
                    cells[j][i] = cells[j][i + 1] = cells[j + 1][i] = cells[j + 1][i + 1] = again = True

    def at(i: int, j: int) -> bool:
        return 0 <= i < columns and 0 <= j < rows and cells[j][i]

    # Sides with the room on their left, from each corner to the next.
    onward: dict[tuple[int, int], tuple[int, int]] = {}
    for j in range(rows):
        for i in range(columns):
            if at(i, j):
                if not at(i, j - 1):
                    onward[i, j] = (i + 1, j)
                if not at(i + 1, j):
                    onward[i + 1, j] = (i + 1, j + 1)
                if not at(i, j + 1):
                    onward[i + 1, j + 1] = (i, j + 1)
                if not at(i - 1, j):
                    onward[i, j + 1] = (i, j)
    rings = []
    while onward:
        ring = [next(iter(onward))]
        while (after := onward.pop(ring[-1])) != ring[0]:
            ring.append(after)
        n = len(ring)
        rings.append([p for k, p in enumerate(ring) if not (ring[k - 1][0] == p[0] == ring[(k + 1) % n][0])
                      and not (ring[k - 1][1] == p[1] == ring[(k + 1) % n][1])])

    def turning(ring: list[tuple[int, int]]) -> int:
        return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]]))

    def holds(ring: list[tuple[int, int]], p: tuple[int, int]) -> bool:
        """A point half a cell up and right of p lies in a ring."""
        sides = zip(ring, [*ring[1:], ring[0]])
        crossings = [a[0] for a, b in sides if a[0] == b[0] and min(a[1], b[1]) <= p[1] < max(a[1], b[1])]
        return sum(x <= p[0] for x in crossings) % 2 == 1

    def placed(ring: list[tuple[int, int]]) -> Ring:
        return tuple((xs[i], ys[j]) for i, j in ring)

    outers = [r for r in rings if turning(r) > 0]
    inners = [r for r in rings if turning(r) < 0]
    found = []
    for outer in outers:
        # The innermost outline round a free place is the one that it is cut out of.
        mine = []
        for inner in inners:
            around = [o for o in outers if holds(o, min(inner))]
            if around and min(around, key=turning) is outer:
                mine.append(placed(inner))
        found.append(Shape(placed(outer), tuple(mine)))
    return tuple(found)


def _turned_about(shape: Shape, backwards: bool, start: int) -> Shape:
    """The same shape, its corners named from another one, and the other way round."""
    def again(ring: Ring) -> Ring:
        k = start % len(ring)
        ring = ring[k:] + ring[:k]
        return ring[::-1] if backwards else ring

    return Shape(again(shape.outer), tuple(again(r) for r in shape.inner))


FORMS = {
    "rectangle": ["1"],
    "L": ["10", "11"],
    "U": ["101", "111"],
    "T": ["111", "010"],
    "cross": ["010", "111", "010"],
    "window": ["111", "101", "111"],
    "two windows": ["11111", "10101", "11111"],
    "window and recess": ["1111", "1011", "1110"],
    "walk": ["0011", "0111", "1110", "1100"],
    "two parts": ["101", "101"],
    "ring in a ring": ["11111", "10001", "10101", "10001", "11111"],
}


@st.composite
def grids(draw: st.DrawFn) -> list[list[bool]]:
    if draw(st.booleans()):
        form = FORMS[draw(st.sampled_from(sorted(FORMS)))]
        rows = [[c == "1" for c in row] for row in form]
    else:
        columns = draw(st.integers(2, 4))
        rows = draw(st.lists(st.lists(st.booleans(), min_size=columns, max_size=columns), min_size=2, max_size=4))
        rows[0][0] = True
    if draw(st.booleans()):
        rows = [list(r) for r in zip(*rows)]
    return rows[::-1] if draw(st.booleans()) else rows


@st.composite
def _lines(draw: st.DrawFn, spaces: int, pitch: F, joint: F, at: F, least: F) -> list[F]:
    """Lines of a room: often where a joint begins or ends, sometimes a hair apart."""
    most = max(7 // spaces, 2)
    out = [at]
    for _ in range(spaces):
        kind = draw(st.integers(0, 9))
        n = draw(st.integers(1, most))
        if kind < 3:
            step = n * pitch - (joint if kind == 0 else 0) + (joint if kind == 1 else 0)
        elif kind == 3:
            step = draw(_number(1, 12))
        else:
            step = pitch * draw(st.integers(4, 16 * most)) / 16 + draw(_number(0, 9))
        out.append(out[-1] + max(step, least))
    return out


@st.composite
def straight_cases(draw: st.DrawFn, names: tuple[str, ...] = STRAIGHT) -> Case:
    lattice = draw(lattices(names))
    cells = draw(grids())
    a, b = lattice.width + lattice.joint, lattice.height + lattice.joint
    if lattice.pattern.name == "herringbone":
        a = b = min(a, b) * 2
    corner = draw(st.sampled_from([(F(0), F(0)), (F(0), F(0)), (F(-3, 7), F(5, 4)), (F(500), F(-40))]))
    xs = draw(_lines(len(cells[0]), a, lattice.joint, corner[0], MM))
    ys = draw(_lines(len(cells), b, lattice.joint, corner[1], MM))
    backwards, start = draw(st.booleans()), draw(st.integers(0, 7))
    region = tuple(_turned_about(s, backwards, start) for s in outlines(cells, xs, ys))
    x, y = draw(_origin(xs, a, lattice.joint)), draw(_origin(ys, b, lattice.joint))
    return Case(region, replace(lattice, x=x, y=y), draw(_holes(xs, ys)))


@st.composite
def _origin(draw: st.DrawFn, lines: list[F], pitch: F, joint: F) -> F:
    at = draw(st.sampled_from(lines))
    kind = draw(st.integers(0, 5))
    if kind == 0:
        return at
    if kind == 1:
        return (lines[0] + lines[-1]) / 2 + joint / 2
    if kind == 2:
        return (lines[0] + lines[-1] - pitch + joint) / 2
    if kind == 3:
        return at + joint
    return at + pitch * draw(st.integers(-40, 40)) / 16 + draw(_number(0, 9))


@st.composite
def _holes(draw: st.DrawFn, xs: list[F], ys: list[F]) -> tuple[Hole, ...]:
    out = []
    for n in range(draw(st.sampled_from([0, 0, 1, 2, 3]))):
        x = xs[0] + (xs[-1] - xs[0]) * draw(st.integers(0, 64)) / 64
        y = ys[0] + (ys[-1] - ys[0]) * draw(st.integers(0, 64)) / 64
        out.append(Hole(draw(st.sampled_from(["pipe", "valve", "drain"])), f"hole {n}", x, y, draw(_number(12, 200))))
    return tuple(out)


# ---------------------------------------------------------------- slanted rooms

@st.composite
def slanted_cases(draw: st.DrawFn) -> Case:
    """Patterns turned by 45 degrees in straight rooms, and any pattern where walls are out of square."""
    turned = draw(st.booleans())
    lattice = draw(lattices(SLANTED if turned else STRAIGHT))
    name = lattice.pattern.name
    if turned and name == "herringbone":
        lattice = replace(lattice, pattern=replace(lattice.pattern, turned=True))
    cells = draw(grids())
    side = max(lattice.width, lattice.height) if name not in ("herringbone", "basket") else 2 * min(lattice.width, lattice.height)
    xs = draw(_lines(len(cells[0]), side, lattice.joint, F(0), 40 * MM))
    ys = draw(_lines(len(cells), side, lattice.joint, F(0), 40 * MM))
    region = outlines(cells, xs, ys)
    skew = draw(st.sampled_from(["none", "quarter"])) if turned else draw(st.sampled_from(["shear", "taper", "diamond"]))
    dx, dy = draw(st.integers(-60, 60)) / 1000, draw(st.integers(-60, 60)) / 1000
    wide, tall = float(xs[-1] - xs[0]), float(ys[-1] - ys[0])

    def moved(x: F, y: F) -> tuple[float, float]:
        u, v = float(x), float(y)
        if skew == "shear":                             # every wall out of square or out of plumb
            return u + dx * v / tall, v + dy * u / wide
        if skew == "taper":                             # opposite walls not parallel
            return u * (1 + dx * v / tall), v * (1 + dy * u / wide)
        if skew == "quarter":                           # a corner at half a right angle to the tiles
            return (u - v) * math.sqrt(0.5), (u + v) * math.sqrt(0.5)
        if skew == "diamond":
            return u - v * 0.6, v + u * 0.6
        return u, v

    backwards, start = draw(st.booleans()), draw(st.integers(0, 7))
    if skew != "none":
        region = tuple(
            Shape(drawn([moved(*p) for p in s.outer]), tuple(drawn([moved(*p) for p in r]) for r in s.inner)) for s in region
        )
    region = tuple(_turned_about(s, backwards, start) for s in region)
    xs = sorted(p[0] for s in region for p in s.outer)
    ys = sorted(p[1] for s in region for p in s.outer)
    x, y = draw(_origin(xs, side, lattice.joint)), draw(_origin(ys, side, lattice.joint))
    return Case(region, replace(lattice, x=x, y=y), draw(_holes(xs, ys)))
