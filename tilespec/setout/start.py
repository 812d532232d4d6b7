"""Where the courses start: as the spec says it, one direction at a time."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tilespec.job.types import Covering, Opening, Penetration, Point, Room, Surface, WallLine
from tilespec.quantity import UNITS, Kind, Quantity, Worked, work
from tilespec.setout import falls
from tilespec.setout.frame import Scale, place
from tilespec.setout.geometry import Box
from tilespec.setout.standing import wall_line
from tilespec.setout.types import Face, Shape, Way

SOURCE = "start of the set-out"
# Patterns whose tiles lie in straight courses along the surface's edges.
COURSED = ("straight", "stack", "half", "third", "quarter", "run", "basket")


@dataclass(frozen=True, slots=True)
class Site:
    """One covering on one face, before it is laid. `frame`: the upright box around its region."""

    room: Room
    surface: Surface
    face: Face
    covering: Covering
    region: tuple[Shape, ...]
    frame: Box
    width: Quantity
    height: Quantity

    @property
    def floor(self) -> bool:
        return self.face.kind == "floor"

    @property
    def main(self) -> bool:
        """The face of the surface itself, no added one."""
        return self.face.id == self.surface.id

    @property
    def coursed(self) -> bool:
        p = self.covering.pattern
        return p.name in COURSED and not p.turned

    def size(self, axis: int) -> Quantity:
        return self.width if axis == 0 else self.height

    def scale(self, axis: int) -> Scale:
        return self.face.across if axis == 0 else self.face.up

    def edges(self, axis: int) -> tuple[Fraction, Fraction]:
        return (self.frame.left, self.frame.right) if axis == 0 else (self.frame.low, self.frame.high)

    def edge(self, axis: int, at_end: bool) -> Quantity:
        return self.scale(axis).at(self.edges(axis)[at_end])

    def module(self, axis: int) -> Fraction:
        return self.size(axis).value + self.covering.joint.value


@dataclass(frozen=True, slots=True)
class Placed:
    """A start in one direction: the left or lower edge of the first tile, the line to snap, and how it is said.

    part    of the tile that is placed: "corner", "near side", "far side", "middle", or "joint", the one before it
    at      where that part stands
    """

    corner: Quantity
    line: Quantity
    words: str
    cut: Quantity | None = None     # a measure, where the start has no better name: it comes before `words`, see Way
    lead: str = "first cut"
    part: str = "corner"
    edge: Quantity | None = None

    @property
    def at(self) -> Quantity:
        return self.edge if self.edge is not None else self.line

    @property
    def way(self) -> Way:
        return Way(self.words, self.cut, self.lead)


def middle(site: Site, axis: int) -> Quantity:
    near, far = site.edge(axis, False), site.edge(axis, True)
    return work("(near + far) / 2", "m", source="middle of the tile plane", near=near, far=far)


def on(site: Site, axis: int, line: Quantity, tile: bool, words: str) -> Placed:
    """A tile or a joint in the middle of a line."""
    if tile:
        corner = work("line - tile / 2", "m", source=SOURCE, line=line, tile=site.size(axis))
    else:
        corner = work("line + joint / 2", "m", source=SOURCE, line=line, joint=site.covering.joint)
    return Placed(corner, line, words, part="middle" if tile else "joint")


def from_edge(site: Site, axis: int, at_end: bool, words: str) -> Placed:
    """A full tile at an edge of the region; its far side is the line."""
    edge = site.edge(axis, at_end)
    if at_end:
        corner = work("edge - tile", "m", source=SOURCE, edge=edge, tile=site.size(axis))
        return Placed(corner, corner, words, part="far side", edge=edge)
    line = work("edge + tile", "m", source=SOURCE, edge=edge, tile=site.size(axis))
    return Placed(edge, line, words, part="near side", edge=edge)


def opening_middle(o: Opening) -> Quantity:
    return work("left + width / 2", "m", source="middle of the opening", left=o.rect.x, width=o.rect.width)


def door(room: Room) -> tuple[Surface, Opening] | None:
    """The first door of the room, or a passage where there is no door."""
    for kind in ("door", "opening"):
        for s in room.wall_surfaces:
            for o in s.openings:
                if o.kind == kind and (kind == "door" or o.rect.y.value <= 0):
                    return s, o
    return None


def said(site: Site, axis: int) -> Placed | None:
    """The start in one direction as the spec says it; None where it is left open."""
    start = site.covering.start
    word = start.across if axis == 0 else start.up
    match word:
        case "tile on centre" | "joint on centre":
            return on(site, axis, middle(site, axis), word.startswith("tile"), word)
        case "point":
            at = start.x if axis == 0 else start.y
            if at is not None:
                return Placed(at, at, "full tile at the point said")
        case "from left" | "from right":
            return from_edge(site, axis, word == "from right", f"full tile at the {word.removeprefix('from ')}")
        case "full tile at top" | "from top":
            return from_edge(site, axis, True, "full tile at the foot of the plan" if site.floor else "full tile at the top")
        case "full tile at floor":
            if site.floor:
                return from_edge(site, axis, False, "full tile at the top of the plan")
            return _on_lowest(site)
        case "full tile at datum":
            datum = site.room.levels.datum
            return Placed(datum, datum, "course on the datum line")
        case "tile on drain" | "joint on drain":
            if drain := _drain(site):
                line = drain.x if axis == 0 else drain.y
                tile = not word.startswith("joint")
                return on(site, axis, line, tile, f"{'tile' if tile else 'joint'} centred on the drain")
        case "full tile at door" if site.floor:
            return _at_door(site, axis)
        case "full tile at door" | "full tile at window":
            if o := _opening(site, word.rsplit(" ", 1)[1]):
                corner = work("edge - tile", "m", source=SOURCE, edge=o.rect.x, tile=site.size(axis))
                return Placed(corner, o.rect.x, f"full tile left of the {o.kind}", part="far side")
        case "tile on door" | "joint on door" if site.floor:
            if (along := _door_middle(site, axis)) is not None:
                return on(site, axis, along, word.startswith("tile"), word)
        case "tile on window" | "joint on window" | "tile on door" | "joint on door":
            tile = word.startswith("tile")
            if axis == 1 and (o := _opening(site, word.rsplit(" ", 1)[1])):
                line = work("bottom + height / 2", "m", source="middle of the opening", bottom=o.rect.y, height=o.rect.height)
                return on(site, axis, line, tile, f"{word} in height")
            if o := _opening(site, word.rsplit(" ", 1)[1]):
                return on(site, axis, opening_middle(o), tile, word)
    return None


def _on_lowest(site: Site) -> Placed:
    """A full tile on the finished floor: one level for all walls of a room, the lowest at which any of them meets it."""
    foot = from_edge(site, 1, False, "full tile at the foot")
    lowest = lowest_foot(site.room)
    own = lowest_foot(site.room, site.surface.letter)
    if lowest >= own or not site.main:
        return foot
    why = Worked("fall along the other walls of the room", (("foot", foot.corner),), "falls of the floor")
    lower = Quantity(own - lowest, Kind.LENGTH, UNITS["mm"], why)
    corner = work("foot - lower", "m", source=SOURCE, foot=foot.corner, lower=lower)
    line = work("corner + tile", "m", source=SOURCE, corner=corner, tile=site.height)
    return Placed(corner, line, foot.words, part="near side", edge=corner)


def lowest_foot(room: Room, letter: str = "") -> Fraction:
    """The lowest height of the finished floor along the walls of a room, or along one of them: nought, or negative."""
    g = falls.ground(room)
    if g is None:
        return Fraction(0)
    found = [Fraction(0)]
    for line in room.walls:
        if letter in ("", line.letter):
            corners = [p for p in (*g.ring, g.spot) if _beside(line, p)]
            found += [g.height(x, y) for x, y in corners]
    return min(found)


def _beside(line: WallLine, spot: Point) -> bool:
    """A point lies on a wall's line, between its ends."""
    (ax, ay), (bx, by) = line.start, line.end
    if ax == bx:
        return spot[0] == ax and min(ay, by) <= spot[1] <= max(ay, by)
    return ay == by and spot[1] == ay and min(ax, bx) <= spot[0] <= max(ax, bx)


def _drain(site: Site) -> Penetration | None:
    return next((p for p in site.surface.penetrations if p.kind in ("drain", "channel")), None)


def _opening(site: Site, kind: str) -> Opening | None:
    if not site.floor:
        return next((o for o in site.surface.openings if o.kind == kind), None)
    return None


def door_side(site: Site) -> tuple[int, bool] | None:
    """The direction that runs away from the door's wall, and whether that wall is at its far end. None without a straight one."""
    found = door(site.room)
    line = wall_line(site.room, found[0].letter) if found else None
    if line is None:
        return None
    (ax, ay), (bx, by) = line.start, line.end
    if ay == by:
        return 1, bx < ax
    if ax == bx:
        return 0, by > ay
    return None


def _door_middle(site: Site, axis: int) -> Quantity | None:
    """Floors: the middle of the door, along the wall that it is in."""
    found, side = door(site.room), door_side(site)
    line = wall_line(site.room, found[0].letter) if found is not None else None
    if found is None or line is None or side is None or side[0] == axis:
        return None
    corner = place(line.start[axis], line.length)
    sign = "+" if line.end[axis] > line.start[axis] else "-"
    return work(f"corner {sign} (left + width / 2)", "m", source="middle of the door", corner=corner, left=found[1].rect.x,
                width=found[1].rect.width)


def _at_door(site: Site, axis: int) -> Placed | None:
    """Floors: the first full tile stands at the door's wall; the other way is left open."""
    side = door_side(site)
    found = door(site.room)
    if side is None or found is None or side[0] != axis:
        return None
    return from_edge(site, axis, side[1], f"full tile at the door in wall {found[0].letter}")
