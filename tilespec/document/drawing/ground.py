"""A room's outline on paper: what the plan, the key plan and the set-out of a floor share."""

from __future__ import annotations

from fractions import Fraction

from tilespec.document.drawing import place
from tilespec.document.drawing.shape import Box, Polygon, Spot, distance
from tilespec.document.drawing.svg import Picture, plain
from tilespec.job.types import Opening, Rect, Room, WallLine
from tilespec.setout.plane import wall_plan


def what_is_in(room: Room, letter: str) -> str:
    """What a wall is known by, such as "shower" or "door": from its title, or that nobody described it."""
    surface = room.surface(letter)
    if surface is None:
        return "not stated"
    _, comma, rest = surface.title.partition(",")
    return plain(rest) if comma and surface.title.lower().startswith(f"wall {letter.lower()},") else ""


class Ground:
    """The room's outline; `left` and `top` place it on the sheet (mm)."""

    def __init__(self, room: Room, scale: float) -> None:
        self.room = room
        self.k = 1000 / scale
        spots = list(wall_plan(room)) if room.walls else list(room.floor.outline if room.floor else ())
        self.spots = tuple(spots)
        self.low_x, self.low_y = min(p[0] for p in spots), min(p[1] for p in spots)
        self.high_x, self.high_y = max(p[0] for p in spots), max(p[1] for p in spots)
        self.wide, self.high = float(self.high_x - self.low_x) * self.k, float(self.high_y - self.low_y) * self.k
        self.left = self.top = 0.0

    def at(self, spot: tuple[Fraction | float, Fraction | float]) -> Spot:
        return self.left + (float(spot[0]) - float(self.low_x)) * self.k, self.top + (float(spot[1]) - float(self.low_y)) * self.k

    def box(self, rect: Rect) -> Box:
        a, b = self.at((rect.x.value, rect.y.value)), self.at((rect.right, rect.top))
        return Box(a[0], a[1], b[0], b[1])

    @property
    def outline(self) -> Polygon:
        return tuple(self.at(p) for p in self.spots)

    @property
    def face(self) -> Box:
        return Box(self.left, self.top, self.left + self.wide, self.top + self.high)

    def wall(self, line: WallLine) -> tuple[Spot, Spot, Spot, Spot]:
        """Start and end on paper, direction, and direction out of the room."""
        n = self.room.walls.index(line)
        a, b = self.at(self.spots[n]), self.at(self.spots[(n + 1) % len(self.spots)])
        long = distance(a, b) or 1.0
        along = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
        return a, b, along, (along[1], -along[0])

    def stretch(self, line: WallLine, opening: Opening) -> tuple[Spot, Spot]:
        """The two jambs of an opening, left one first."""
        a, _, along, _ = self.wall(line)
        low, high = float(opening.rect.x.value) * self.k, float(opening.rect.right) * self.k
        return (a[0] + along[0] * low, a[1] + along[1] * low), (a[0] + along[0] * high, a[1] + along[1] * high)

    def draw_openings(self, p: Picture, swing: bool = True) -> bool:
        """Gaps in the walls, doors with a swing mark if wanted; returns whether there is a door."""
        door = False
        for line, opening in place.openings(self.room, ("door", "opening", "window")):
            a, b = self.stretch(line, opening)
            _, _, along, out = self.wall(line)
            half = 0.75
            gap = tuple((s[0] + out[0] * d, s[1] + out[1] * d) for s, d in ((a, -half), (b, -half), (b, half), (a, half)))
            p.polygon("gap", gap)
            p.polygon("fine", gap)
            if opening.kind == "window":
                p.line("fine", (*a, *b))
            if opening.kind == "door":
                door = True
            if opening.kind == "door" and swing:
                long = distance(a, b)
                tip = (a[0] - out[0] * long, a[1] - out[1] * long)
                p.line("fitting", (*a, *tip))
                turn = along[0] * -out[1] - along[1] * -out[0] < 0
                p.arc("fitting", tip, b, long, turn)
        return door
