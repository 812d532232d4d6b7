"""Joints that run through from one surface to another: where they are asked for, and by how much they miss."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tilespec.job.types import Room, WallLine
from tilespec.quantity import UNITS, Kind, Quantity, Worked
from tilespec.setout.standing import wall_line
from tilespec.setout.start import COURSED
from tilespec.setout.types import Alignment, Layout

_SOURCE = "joints of one surface against those of the other"


def module(layout: Layout, axis: int) -> Fraction:
    return (layout.width if axis == 0 else layout.height).value + layout.joint.value


def coursed(layout: Layout) -> bool:
    p = layout.covering.pattern
    return p.name in COURSED and not p.turned


def on_plan(line: WallLine) -> tuple[int, Fraction, int] | None:
    """How a wall lies in plan: its axis, the plan coordinate of its left end, and +1 or -1. None for a slanted wall."""
    (ax, ay), (bx, by) = line.start, line.end
    if ay == by and ax != bx:
        return 0, ax, 1 if bx > ax else -1
    if ax == bx and ay != by:
        return 1, ay, 1 if by > ay else -1
    return None


def missed(first: Fraction, second: Fraction, step: Fraction) -> Fraction:
    off = (first - second) % step
    return min(off, step - off)


def _off(value: Fraction, one: Layout, two: Layout, what: str) -> Quantity:
    why = Worked(what, (("first start", one.begin.across), ("second start", two.begin.across)), _SOURCE)
    return Quantity(value, Kind.LENGTH, UNITS["mm"], why)


def _never(one: Layout, two: Layout) -> Quantity:
    """Patterns without straight courses have no joints that could run on: the worst that can be is half a module."""
    turned = two if coursed(one) else one
    why = Worked("(tile + joint) ÷ 2", (("tile", turned.height), ("joint", turned.joint)), "a pattern without straight courses")
    return Quantity(module(turned, 1) / 2, Kind.LENGTH, UNITS["mm"], why)


def report(room: Room, layouts: Sequence[Layout]) -> Iterator[Alignment]:
    """Courses round internal and external corners, and joints of walls against those of the floor.

    Only where both have the same module, or where the spec asks for it; with different modules `off` is how far each further
    joint misses.
    """
    fields = {x.surface: x for x in layouts if x.face == x.surface and x.role == "field"}
    for c in room.corners:
        one, two = (fields.get(f"{room.name}/wall {letter}") for letter in (c.before, c.after))
        if one is None or two is None:
            continue
        asked = f"wall {c.before}" in two.covering.start.follows or f"wall {c.after}" in one.covering.start.follows
        if not (coursed(one) and coursed(two)):
            if asked:
                yield Alignment("corner", one.face, two.face, _never(one, two), asked)
            continue
        a, b = module(one, 1), module(two, 1)
        if a == b:
            off = missed(one.begin.first[0][1], two.begin.first[0][1], a)
            yield Alignment("corner", one.face, two.face, _off(off, one, two, "levels of the courses on both sides"), asked)
        elif asked:
            yield Alignment("corner", one.face, two.face, _off(abs(a - b), one, two, "difference of tile and joint"), asked)
    floor = fields.get(f"{room.name}/floor")
    if floor is None:
        return
    for letter in (w.letter for w in room.walls):
        wall, line = fields.get(f"{room.name}/wall {letter}"), wall_line(room, letter)
        at = on_plan(line) if line is not None else None
        if wall is None or at is None:
            continue
        axis, left, sign = at
        asked = "floor" in wall.covering.start.follows or f"wall {letter}" in floor.covering.start.follows
        if not (coursed(wall) and coursed(floor)):
            if asked:
                yield Alignment("floor-wall", wall.face, floor.face, _never(wall, floor), asked)
            continue
        a, b = module(wall, 0), module(floor, axis)
        if a == b:
            # A tile that starts at x on the wall starts (or, mirrored, ends) at this place in plan.
            x = wall.begin.first[0][0]
            place = left + x if sign > 0 else left - x - wall.width.value
            off = missed(place, floor.begin.first[0][axis], a)
            yield Alignment("floor-wall", wall.face, floor.face, _off(off, wall, floor, "joints of the wall on the floor"), asked)
        elif asked:
            step = _off(abs(a - b), wall, floor, "difference of tile and joint")
            yield Alignment("floor-wall", wall.face, floor.face, step, asked)
