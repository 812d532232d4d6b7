"""Falls: the part of a floor that falls, its planes, its heights, and where tiles are cut so that they can follow it.

The edge of that part stays level. With four planes each side falls straight to the drain, steepest from the nearest side, which
has the fall that is said; the planes meet in lines from the corners to the drain (worked example O of falls, plane geometry).
One plane falls square to the drain's side, two planes meet in a line through the drain.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from tilespec.job.types import Penetration, Point, Room
from tilespec.quantity import UNITS, Kind, Quantity, Worked, work
from tilespec.setout import geometry
from tilespec.setout.area import box_ring
from tilespec.setout.engine import Lattice
from tilespec.setout.frame import nought
from tilespec.setout.geometry import Box
from tilespec.setout.standing import wall_line
from tilespec.setout.types import Falls, Height, Ring, Slope

_SOURCE = "plane geometry of the fall"
_SIDES = ("top of the plan", "right", "foot of the plan", "left")


@dataclass(frozen=True, slots=True)
class Ground:
    """The falling part of a floor as a function of the place. `axis`: of one or two planes, the direction they fall in."""

    room: Room
    box: Box
    drain: Penetration
    slope: Quantity
    planes: str
    axis: int
    towards: int                    # one plane: +1 falls towards greater coordinates, -1 towards smaller ones

    @property
    def ring(self) -> Ring:
        return box_ring(self.box)

    @property
    def spot(self) -> Point:
        return self.drain.x.value, self.drain.y.value

    def distance(self, side: int) -> Fraction:
        """From the drain to a side: 0 top of the plan, 1 right, 2 foot, 3 left."""
        x, y = self.spot
        return (y - self.box.low, self.box.right - x, self.box.high - y, x - self.box.left)[side]

    @property
    def drop(self) -> Fraction:
        """How far the drain lies under the level edge."""
        if self.planes == "four":
            return min(self.distance(s) for s in range(4)) * self.slope.value
        return self.run * self.slope.value

    @property
    def run(self) -> Fraction:
        """Length of the fall with one plane, and of the shorter of two."""
        low, high = (self.box.left, self.box.right) if self.axis == 0 else (self.box.low, self.box.high)
        at = self.spot[self.axis]
        if self.planes == "one":
            return at - low if self.towards > 0 else high - at
        return min(at - low, high - at)

    def height(self, x: Fraction, y: Fraction) -> Fraction:
        """Of the finished floor at a place, against its level edge: nought, or negative."""
        if not self.box.holds(x, y):
            return Fraction(0)
        if self.planes == "four":
            return -self.drop * self._share(x, y)
        low, high = (self.box.left, self.box.right) if self.axis == 0 else (self.box.low, self.box.high)
        at, drain = (x, y)[self.axis], self.spot[self.axis]
        if self.planes == "one":
            # Past the drain there is no more fall: the strip behind a channel is level with it.
            along = at - low if self.towards > 0 else high - at
            return -min(along, self.run) * self.slope.value
        side = drain - low if at <= drain else high - drain
        along = at - low if at <= drain else high - at
        return -self.drop * along / side if side else Fraction(0)

    def _share(self, x: Fraction, y: Fraction) -> Fraction:
        """Four planes: how near a place is to the drain, 0 at the edge, 1 at the drain, straight in between."""
        dx, dy = self.spot
        shares = []
        for at, drain, low, high in ((x, dx, self.box.left, self.box.right), (y, dy, self.box.low, self.box.high)):
            near = (at - low, drain - low) if at <= drain else (high - at, high - drain)
            shares.append(near[0] / near[1] if near[1] else Fraction(1))
        return min(shares)

    def eased(self, lattice: Lattice, least: tuple[Fraction, Fraction], room: Room) -> Ground:
        """The same with its free edges moved to the nearest joint, where they would cut less than `least` off the tiles.

        An edge at a wall of the room stays where it is.
        """
        walls = geometry.bounds([w.start for w in room.walls]) if room.walls else self.box
        found = []
        for axis, low, high, near, far in (
            (0, self.box.left, self.box.right, walls.left, walls.right), (1, self.box.low, self.box.high, walls.low, walls.high),
        ):
            size, origin = ((lattice.width, lattice.x), (lattice.height, lattice.y))[axis]
            edges = []
            for at, wall in ((low, near), (high, far)):
                off = (at - origin) % (size + lattice.joint)
                # To the middle of the joint before this tile, or after it.
                before, after = off + lattice.joint / 2, size + lattice.joint / 2 - off
                move = -before if 0 < off < least[axis] else after if size - least[axis] < off else Fraction(0)
                edges.append(at if at == wall else at + move)
            found.append(edges)
        (left, right), (low, high) = found
        return replace(self, box=Box(left, low, right, high))

    @property
    def lines(self) -> tuple[tuple[Point, Point], ...]:
        """Where planes meet."""
        if self.planes == "four":
            return tuple((corner, self.spot) for corner in self.ring) + self.free
        if self.planes == "two":
            at = self.spot[self.axis]
            if self.axis == 0:
                return (((at, self.box.low), (at, self.box.high)), *self.free)
            return (((self.box.left, at), (self.box.right, at)), *self.free)
        return self.free

    @property
    def free(self) -> tuple[tuple[Point, Point], ...]:
        """The edges of the fall in the middle of the floor, where it meets the level part."""
        walls = geometry.bounds([w.start for w in self.room.walls]) if self.room.walls else self.box
        ring = self.ring
        at_wall = (self.box.low <= walls.low, self.box.right >= walls.right, self.box.high >= walls.high,
                   self.box.left <= walls.left)
        return tuple((ring[n], ring[(n + 1) % 4]) for n in range(4) if not at_wall[n])

    @property
    def shapes(self) -> tuple[tuple[str, Ring, Fraction], ...]:
        """Each plane: the side that it falls from, its outline, its run."""
        ring, spot = self.ring, self.spot
        if self.planes == "four":
            found = []
            for n, name in enumerate(_SIDES):
                if self.distance(n) > 0:
                    found.append((name, (ring[n], ring[(n + 1) % 4], spot), self.distance(n)))
            return tuple(found)
        b, at = self.box, spot[self.axis]
        first = Box(b.left, b.low, at, b.high) if self.axis == 0 else Box(b.left, b.low, b.right, at)
        second = Box(at, b.low, b.right, b.high) if self.axis == 0 else Box(b.left, at, b.right, b.high)
        names = ("left", "right") if self.axis == 0 else ("top of the plan", "foot of the plan")
        parts = [(names[0], first), (names[1], second)]
        if self.planes == "one":
            parts = [parts[0] if self.towards > 0 else parts[1]]
        low, high = (b.left, b.right) if self.axis == 0 else (b.low, b.high)
        runs = {names[0]: at - low, names[1]: high - at}
        return tuple((name, box_ring(part), runs[name]) for name, part in parts if part.area > 0)


def ground(room: Room) -> Ground | None:
    """The falling part of a room's floor: the level shower that its drain lies in, or else the whole floor, if it is a rectangle.

    None without fall or drain, and for a floor that is no rectangle and has no level shower round its drain.
    """
    if room.fall is None or room.floor is None or not room.drains:
        return None
    drain = room.drains[0]
    boxes = [geometry.box(s.rect) for s in room.showers if not s.tray]
    box = next((b for b in boxes if b.holds(drain.x.value, drain.y.value)), None)
    if box is None:
        if not geometry.upright(room.floor.outline):
            return None
        box = geometry.bounds(room.floor.outline)
    if not box.holds(drain.x.value, drain.y.value):
        return None
    axis, towards = _direction(room, drain, box)
    return Ground(room, box, drain, room.fall.slope, room.fall.planes, axis, towards)


def _direction(room: Room, drain: Penetration, box: Box) -> tuple[int, int]:
    """One plane falls to the wall that a channel runs along, or to the side nearest to the drain; two to a line along it."""
    line = wall_line(room, drain.along) if drain.along else None
    x, y = drain.x.value, drain.y.value
    if line is not None and (line.start[0] == line.end[0] or line.start[1] == line.end[1]):
        axis = 1 if line.start[1] == line.end[1] else 0
    else:
        gaps = {0: min(x - box.left, box.right - x), 1: min(y - box.low, box.high - y)}
        axis = 0 if gaps[0] < gaps[1] else 1
    at, low, high = ((x, box.left, box.right), (y, box.low, box.high))[axis]
    return axis, 1 if high - at <= at - low else -1


def report(room: Room, g: Ground, lines: tuple[tuple[Point, Point], ...]) -> Falls:
    """The falls of a room for print: planes with their slopes, heights at corners, doors and drain.

    lines   along which tiles are cut
    """
    why = (("fall", g.slope), ("drain x", g.drain.x), ("drain y", g.drain.y))

    def length(value: Fraction, what: str) -> Quantity:
        return Quantity(value, Kind.LENGTH, UNITS["mm"], Worked(what, why, _SOURCE))

    drop = length(g.drop, "fall times the distance from the drain to the nearest edge" if g.planes == "four"
                  else "fall times the length of its plane")
    slopes = []
    for name, shape, run in g.shapes:
        q = length(run, "from the level edge to the drain, square to the edge")
        # With one plane, or the shorter of two, this gives back the fall as said.
        slopes.append(Slope(name, q, work("drop / run", "slope", source=_SOURCE, drop=drop, run=q), shape))
    heights = []
    names = ("upper left", "upper right", "lower right", "lower left")
    for name, (x, y) in zip(names, g.ring, strict=True):
        value = g.height(x, y)
        heights.append(Height(f"corner, {name} on the plan", x, y, length(value, "height in the plane of the fall") if value
                              else nought("level edge of the fall")))
    x, y = g.spot
    heights.append(Height("drain", x, y, work("-drop", "mm", source=_SOURCE, drop=drop)))
    bed = None
    for surface in room.wall_surfaces:
        line = wall_line(room, surface.letter)
        for o in surface.openings:
            if line is None or o.kind not in ("door", "opening"):
                continue
            share = (o.rect.x.value + o.rect.width.value / 2) / line.length.value
            at = tuple(a + (b - a) * share for a, b in zip(line.start, line.end, strict=True))
            value = g.height(at[0], at[1])
            q = length(value, "height in the plane of the fall") if value else nought("level part of the floor")
            heights.append(Height(f"{o.kind} in wall {surface.letter}", at[0], at[1], q))
            said = next((t for name, t in room.levels.build_up if name == "bed"), None)
            if said is not None and bed is None:
                # A bed thinner than the fall is deep cannot make it: then the base falls, and the bed stays as it is said.
                made = said.value > g.drop
                bed = work("bed + height", "mm", source="bed under the tile at the door", bed=said, height=q) if made else said
    return Falls(room.name, g.ring, tuple(slopes), tuple(heights), lines, bed)
