"""Bays of a tiled surface for the rules: what lies between its edges and its movement joints, and how far that moves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from tilespec.checks.rule import Context
from tilespec.formula import movement
from tilespec.job.types import MovementJoint, Surface
from tilespec.quantity import UNITS, Given, Quantity
from tilespec.quantity.typed import typed
from tilespec.setout.geometry import Box, bounds, clip, polygon_area


@dataclass(frozen=True, slots=True)
class Bay:
    """A part of the tiling that has no movement joint within it. `whole` tells the sides that no joint cuts off: (across, up)."""

    box: Box
    area: Fraction
    sides: tuple[Quantity, Quantity]
    whole: tuple[bool, bool]

    @property
    def longer(self) -> int:
        """The direction of its longer side: 0 across, 1 up (down the page on a floor)."""
        return 0 if self.sides[0].value >= self.sides[1].value else 1


def bays(surface: Surface) -> tuple[Bay, ...]:
    """Nothing where no tile covers the field: a splashback or a band is no area that could move far."""
    if surface.field is None:
        return ()
    frame = bounds(surface.outline)
    if surface.tiled_height is not None:
        frame = frame.within(Box(frame.left, frame.low, frame.right, surface.tiled_height.value))
    # Joints that are cut out of a floor by its outline are right across it all the same.
    xs = sorted({frame.left, frame.right, *(j.x.value for j in surface.movement_joints if j.x is not None)})
    ys = sorted({frame.low, frame.high, *(j.y.value for j in surface.movement_joints if j.y is not None)})
    found: list[Bay] = []
    for low, high in pairwise(ys):
        for left, right in pairwise(xs):
            part = clip(surface.outline, Box(left, low, right, high).within(frame))
            if len(part) < 3 or not polygon_area(part):
                continue
            b = bounds(part)
            across, up = b.right - b.left, b.high - b.low
            sides = _side(surface.width, across), _side(surface.height, up)
            whole = (across == frame.right - frame.left, up == frame.high - frame.low)
            found.append(Bay(b, polygon_area(part), sides, whole))
    return tuple(found)


def _side(like: Quantity, length: Fraction) -> Quantity:
    return Quantity(length, like.kind, like.shown, like.why)


def too_long(surface: Surface, most: Quantity) -> tuple[Bay, int] | None:
    """The bay with the longest side of all that are longer than `most`, and the direction of that side."""
    over = [(bay, n) for bay in bays(surface) for n in (0, 1) if bay.sides[n].value > most.value]
    return max(over, key=lambda t: t[0].sides[t[1]].value) if over else None


def heated(context: Context, surface: Surface) -> bool:
    return surface.kind == "floor" and context.room(surface).heating is not None


def sunlit(context: Context, surface: Surface) -> bool:
    """Sunlit and not heated as well: what holds of a heated floor is then said of it."""
    return surface.sunlit and not heated(context, surface)


def stricter(one: Quantity, other: Quantity) -> Quantity:
    """A floor that grows warm is never allowed more than one that does not."""
    return one if one.value <= other.value else other


def reach(bay: Bay, n: int) -> str:
    """From where to where a side of a bay runs."""
    return "from edge to edge" if bay.whole[n] else "between its movement joints and edges"


def where_to_cut(context: Context, surface: Surface, bay: Bay, n: int, most: Quantity, width: Quantity) -> str:
    """The line that would divide the bay into parts of no more than `most`: its first joint, the parts being equal."""
    side = bay.sides[n]
    parts = max(2, ceil(side.value / most.value))
    first = (bay.box.left, bay.box.low)[n] + side.value / parts
    at = typed(_rounded(surface.width, first - _origin(surface, n)))
    place = f"{at} from wall {wall}" if (wall := _wall(context, surface, n)) else f"{at} from left" if n == 0 else f"{at} up"
    more = f", and {parts - 2} more at equal distances" if parts > 2 else ""
    return f"for example `movement joint {place}; width {typed(width)}`{more}"


def _origin(surface: Surface, n: int) -> Fraction:
    frame = bounds(surface.outline)
    return (frame.left, frame.low)[n] if surface.kind == "floor" else Fraction(0)


def _rounded(like: Quantity, length: Fraction) -> Quantity:
    """To whole centimetres, or half inches: nobody places a joint finer than its tiles."""
    step = Fraction(127, 10000) if like.shown.symbol in ("in", "ft") else Fraction(1, 100)
    unit = UNITS["in"] if like.shown.symbol == "ft" else like.shown
    return Quantity(round(length / step) * step, like.kind, unit, like.why)


def _wall(context: Context, surface: Surface, n: int) -> str | None:
    """The wall of a floor that a joint across it is measured from: the one at its least x or y."""
    if surface.kind != "floor":
        return None
    at = _origin(surface, n)
    lines = context.room(surface).walls
    return next((w.letter for w in lines if w.start[n] == at and w.end[n] == at), None)


# ---------------------------------------------------------------- movement


def share(context: Context, surface: Surface) -> Quantity:
    """The part of its width that a joint of this surface may move: by its sealant, else class 25."""
    sealant = surface.product("sealant")
    if sealant is not None and not sealant.generic and sealant.movement is not None:
        return sealant.movement
    return context.practice.limit("sealant-movement")


def moves(context: Context, surface: Surface, length: Quantity) -> Quantity:
    """How far a length of a floor that grows warm moves: with its screed, or else with its tiles."""
    mineral = surface.base.kind in ("cement-screed", "calcium-sulfate-screed", "concrete")
    expansion = context.practice.limit("screed-expansion" if mineral else "tile-expansion")
    return movement.movement(length, expansion, context.practice.limit("movement-warmth"))


def between(surface: Surface, joint: MovementJoint) -> Quantity | None:
    """The length whose movement meets in a joint: half of the bay on either side of it, the longest there are."""
    n, at = (0, joint.x) if joint.x is not None else (1, joint.y)
    if at is None:
        return None
    before = [b.sides[n] for b in bays(surface) if (b.box.right, b.box.high)[n] == at.value]
    after = [b.sides[n] for b in bays(surface) if (b.box.left, b.box.low)[n] == at.value]
    if not before or not after:
        return None
    one, other = (max(found, key=lambda q: q.value) for found in (before, after))
    return Quantity((one.value + other.value) / 2, one.kind, one.shown, one.why)


# ---------------------------------------------------------------- joints of the base


def over(surface: Surface, below: MovementJoint) -> MovementJoint | None:
    """The movement joint of the tiling that stands over a joint of the base: its gap holds the middle of the one below."""
    for joint in surface.movement_joints:
        for a, b in ((joint.x, below.x), (joint.y, below.y)):
            if a is not None and b is not None and abs(a.value - b.value) <= joint.width.value / 2:
                return joint
    return None


def pairs(context: Context) -> Iterator[tuple[Surface, MovementJoint, MovementJoint | None]]:
    """Every joint of a base, and the movement joint over it where there is one."""
    for surface in context.job.tiled:
        for below in surface.base_joints:
            yield surface, below, over(surface, below)


def stated(q: Quantity | None) -> bool:
    """Written in the spec: no rule speaks of what was only assumed."""
    return q is not None and isinstance(q.why, Given)
