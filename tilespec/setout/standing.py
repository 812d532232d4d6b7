"""What stands in a room before it is tiled, and what it takes from or adds to the surfaces: baths, trays, boxed-in pipes."""

from __future__ import annotations

from fractions import Fraction

from tilespec.job.types import Rect, Room, Surface, WallLine
from tilespec.quantity import Quantity, work
from tilespec.setout import geometry
from tilespec.setout.frame import Named, nought, numbered, place


def wall_line(room: Room, letter: str) -> WallLine | None:
    return next((w for w in room.walls if w.letter == letter), None)


def along(line: WallLine, rect: Rect) -> tuple[Fraction, Fraction]:
    """Where a plan rectangle lies along a wall: from, to, measured from the wall's left end seen from inside."""
    dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
    size = line.length.value
    b = geometry.box(rect)
    marks = [((x - line.start[0]) * dx + (y - line.start[1]) * dy) / size for x in (b.left, b.right) for y in (b.low, b.high)]
    return max(min(marks), Fraction(0)), min(max(marks), size)


def _level(line: WallLine) -> bool:
    return abs(line.end[0] - line.start[0]) >= abs(line.end[1] - line.start[1])


def side(line: WallLine, rect: Rect) -> Quantity:
    """The side of a plan rectangle that runs along a wall."""
    return rect.width if _level(line) else rect.height


def depth(line: WallLine, rect: Rect) -> Quantity:
    """How far a plan rectangle stands out from a wall."""
    return rect.height if _level(line) else rect.width


def standing(room: Room) -> tuple[Named, ...]:
    """What stands on the floor and is not tiled under."""
    return (
        *numbered("bath", [b.rect for b in room.baths]),
        *numbered("tray", [s.rect for s in room.showers if s.tray]),
        *numbered("boxing", [b.rect for b in room.boxings]),
    )


def behind_baths(room: Room, surface: Surface) -> list[Rect]:
    """A bath stands against the wall before it is tiled: below its rim there are no tiles."""
    line = wall_line(room, surface.letter)
    if line is None:
        return []
    found: list[Rect] = []
    for bath in room.baths:
        start, end = along(line, bath.rect)
        if surface.letter in bath.walls and end > start:
            left = nought("left end of the wall") if start == 0 else place(start, surface.width)
            width = side(line, bath.rect) if end - start == side(line, bath.rect).value else place(end - start, surface.width)
            found.append(Rect(left, nought("floor"), width, bath.rim, bath.span))
    return found


def boxing_faces(room: Room, surface: Surface, top: Quantity) -> list[Quantity]:
    """What boxings add to the wall they stand on. In a corner, the faces take the place of the wall that they hide."""
    areas: list[Quantity] = []
    line = wall_line(room, surface.letter)
    for b in room.boxings:
        if line is None or b.walls[:1] != (surface.letter,):
            continue
        height = b.height if b.height.value <= top.value else top
        if len(b.walls) == 1:
            out = depth(line, b.rect)
            areas.append(work("2 * depth * height", "m2", source="two sides of a boxing", depth=out, height=height))
        if b.height.value < top.value:
            areas.append(work("width * depth", "m2", source="top of a boxing", width=b.rect.width, depth=b.rect.height))
    return areas
