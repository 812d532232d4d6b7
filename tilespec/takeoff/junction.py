"""Lines where surfaces of a room meet: the foot of each wall, each corner, and what of them has membrane or tiles on it."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.job.types import Corner, Rect, Room, WallLine
from tilespec.quantity import Quantity, work
from tilespec.setout import geometry
from tilespec.setout.frame import nought, place
from tilespec.setout.standing import along, side
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.stretch import Stretch, joined, within, without

_PLANE = "plane geometry"


@dataclass(frozen=True, slots=True)
class RoomSurvey:
    """A room with its measured surfaces."""

    room: Room
    floor: Survey | None
    walls: tuple[Survey, ...]

    def wall(self, letter: str) -> Survey | None:
        return next((w for w in self.walls if w.surface.letter == letter), None)

    def place(self, letter: str) -> str:
        """Where a line is booked: its wall, or the room when nobody described the wall."""
        wall = self.wall(letter)
        return wall.surface.id if wall else self.room.name

    def refuses(self, kind: str, *places: str) -> bool:
        """Whether the spec refuses a kind of product where these meet: one of them is enough. Nobody described them: all do."""
        surfaces = [s.surface for s in ((self.floor,) if self.floor else ()) + self.walls]
        here = [s.refusal(kind) is not None for s in surfaces if s.id in places]
        return any(here) if here else bool(surfaces) and all(s.refusal(kind) is not None for s in surfaces)


def rooms(surveys: tuple[Survey, ...]) -> tuple[RoomSurvey, ...]:
    result: list[RoomSurvey] = []
    for name in dict.fromkeys(s.room.name for s in surveys):
        own = [s for s in surveys if s.room.name == name]
        floor = next((s for s in own if s.is_floor), None)
        result.append(RoomSurvey(own[0].room, floor, tuple(s for s in own if not s.is_floor)))
    return tuple(result)


def whole_foot(line: WallLine) -> Stretch:
    return Stretch(nought("left end of the wall"), line.length, line.length)


def across(rect: Rect) -> Stretch:
    """A rectangle on a wall, along the wall."""
    return Stretch(rect.x, work("left + width", "m", source=_PLANE, left=rect.x, width=rect.width), rect.width)


def upwards(rect: Rect) -> Stretch:
    """A rectangle on a wall, upwards."""
    return Stretch(rect.y, work("bottom + height", "m", source=_PLANE, bottom=rect.y, height=rect.height), rect.height)


def beside(line: WallLine, rect: Rect) -> Stretch | None:
    """A plan rectangle along a wall that it touches; None where it stands away from it."""
    shares = geometry.reach(line.start, line.end, geometry.box(rect))
    if shares is None:
        return None
    size = line.length.value
    start, end = shares[0] * size, shares[1] * size
    own = side(line, rect)
    first = nought("left end of the wall") if start == 0 else place(start, line.length)
    last = line.length if end == size else own if start == 0 and end == own.value else place(end, line.length)
    return Stretch(first, last, own if end - start == own.value else None)


def doors(wall: Survey | None) -> tuple[Stretch, ...]:
    """Doorways and passages that reach the floor."""
    if wall is None:
        return ()
    return tuple(across(o.rect) for o in wall.surface.openings if o.kind != "window" and o.rect.y.value <= 0)


# ---------------------------------------------------------------- membrane

def membrane_foot(rs: RoomSurvey, line: WallLine) -> tuple[Stretch, ...]:
    """Where membrane meets the foot of a wall: from the floor's side, from the wall's, or from both."""
    found: list[Stretch] = []
    whole = whole_foot(line)
    if rs.floor is not None and rs.floor.has_membrane:
        for area in rs.floor.surface.membrane_areas:
            reached = whole if area.rect is None else beside(line, area.rect)
            found += [reached] if reached else []
    wall = rs.wall(line.letter)
    if wall is not None and wall.has_membrane:
        for area in wall.surface.membrane_areas:
            if area.rect is None:
                found.append(whole)
            elif area.rect.y.value <= 0:
                found.append(across(area.rect))
    return without(joined(within(found, whole)), [b for rect in bath_and_tray_rects(rs.room) if (b := beside(line, rect))])


def membrane_corner(rs: RoomSurvey, corner: Corner) -> tuple[Stretch, ...]:
    """Heights in which membrane on either wall reaches the corner."""
    found: list[Stretch] = []
    for letter, at_end in ((corner.before, True), (corner.after, False)):
        wall = rs.wall(letter)
        if wall is None or not wall.has_membrane:
            continue
        height = wall.surface.height
        whole = Stretch(nought("floor"), height, height)
        for area in wall.surface.membrane_areas:
            if area.rect is None:
                found.append(whole)
            elif (area.rect.right >= wall.surface.width.value) if at_end else (area.rect.x.value <= 0):
                found += within([upwards(area.rect)], whole)
    hidden = (*_behind_baths(rs, corner.before, at_end=True), *_behind_baths(rs, corner.after, at_end=False))
    return without(joined(found), hidden)


def _behind_baths(rs: RoomSurvey, letter: str, *, at_end: bool) -> list[Stretch]:
    """Heights at one end of a wall that a bath hides: it is set before anything is primed."""
    line = next((w for w in rs.room.walls if w.letter == letter), None)
    found: list[Stretch] = []
    for bath in rs.room.baths:
        if line is not None and letter in bath.walls:
            start, end = along(line, bath.rect)
            if end > start and (end >= line.length.value if at_end else start <= 0):
                found.append(Stretch(nought("floor"), bath.rim, bath.rim))
    return found


# ---------------------------------------------------------------- tiles

def tiled_foot(rs: RoomSurvey, line: WallLine) -> tuple[Stretch, ...]:
    """Where tiles of a wall stand on the floor: not in doorways, nor behind a bath or tray."""
    wall = rs.wall(line.letter)
    if wall is None or not wall.is_tiled:
        return ()
    stretches: tuple[Stretch, ...] = (whole_foot(line),)
    if wall.surface.field is None:
        stretches = joined(across(c.region) for c in wall.surface.coverings if c.region and c.region.y.value <= 0)
    cuts = list(doors(wall)) + [across(u) for u in wall.surface.untiled if u.y.value <= 0]
    for rect in bath_and_tray_rects(rs.room):
        if beside_rect := beside(line, rect):
            cuts.append(beside_rect)
    return without(within(stretches, whole_foot(line)), cuts)


def tiled_corner(rs: RoomSurvey, corner: Corner) -> tuple[Stretch, ...]:
    """Heights in which both walls of a corner are tiled."""
    before, after = rs.wall(corner.before), rs.wall(corner.after)
    if before is None or after is None:
        return ()
    first, second = _tiled_at(rs, before, at_end=True), _tiled_at(rs, after, at_end=False)
    return tuple(piece for s in second for piece in within(first, s))


def _tiled_at(rs: RoomSurvey, wall: Survey, *, at_end: bool) -> tuple[Stretch, ...]:
    surface = wall.surface
    if not wall.is_tiled:
        return ()

    def touches(rect: Rect) -> bool:
        return rect.right >= surface.width.value if at_end else rect.x.value <= 0

    top = wall.frame.up.at(wall.frame.box.high)
    whole = Stretch(nought("floor"), top, top)
    if surface.field is not None:
        stretches: tuple[Stretch, ...] = (whole,)
    else:
        stretches = joined(within([upwards(c.region) for c in surface.coverings if c.region and touches(c.region)], whole))
    cuts = [upwards(u) for u in surface.untiled if touches(u)]
    return without(stretches, [*cuts, *_behind_baths(rs, surface.letter, at_end=at_end)])


def bath_and_tray_rects(room: Room) -> tuple[Rect, ...]:
    return tuple(b.rect for b in room.baths) + tuple(s.rect for s in room.showers if s.tray)


def rim_against(rs: RoomSurvey, rect: Rect, letters: tuple[str, ...], *, tiled: bool) -> tuple[tuple[str, Quantity], ...]:
    """The sides of a bath or tray that stand against walls: (place, length). `tiled`: only tiled walls count."""
    found: list[tuple[str, Quantity]] = []
    for line in rs.room.walls:
        wall = rs.wall(line.letter)
        if line.letter not in letters or (tiled and (wall is None or not wall.is_tiled)):
            continue
        if reached := beside(line, rect):
            found.append((rs.place(line.letter), reached.measured()))
    return tuple(found)
