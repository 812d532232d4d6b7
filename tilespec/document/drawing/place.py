"""Places in a room as quantities: its corners by adding up walls, and what stands against a wall."""

from __future__ import annotations

from fractions import Fraction

from tilespec.job.types import Opening, Rect, Room, WallLine
from tilespec.quantity import Quantity, work

SOURCE = "adding up walls around the room"
# What stands nearer to a wall than this stands against it (m).
_AGAINST = Fraction(1, 100)

Coordinates = dict[Fraction, Quantity]


def _added(terms: list[tuple[int, WallLine]]) -> Quantity | None:
    """The sum of walls as a quantity; a wall that was walked forth and back drops out."""
    if len(terms) == 1 and terms[0][0] > 0:
        return terms[0][1].length
    text = ""
    for sign, wall in sorted(terms, key=lambda t: -t[0]):
        text += f" {'+' if sign > 0 else '-'} wall_{wall.letter}"
    if not text:
        return None
    text = text.removeprefix(" + ").strip()
    return work(text, "mm", source=SOURCE, **{f"wall_{w.letter}": w.length for _, w in terms})


def corners(room: Room) -> tuple[Coordinates, Coordinates]:
    """x and y of the room's corners, as quantities by their value, nought left out.

    Empty where a wall is slanted: such corners follow from measured diagonals and are not set out from here.
    """
    found: tuple[Coordinates, Coordinates] = ({}, {})
    terms: tuple[list[tuple[int, WallLine]], list[tuple[int, WallLine]]] = ([], [])
    for wall in room.walls:
        step = (wall.end[0] - wall.start[0], wall.end[1] - wall.start[1])
        if step[0] and step[1]:
            return {}, {}
        for axis in (0, 1):
            if not step[axis]:
                continue
            terms[axis].append((1 if step[axis] > 0 else -1, wall))
            place = wall.end[axis]
            if place == 0 or place in found[axis]:
                continue
            q = _added(terms[axis])
            # A walk that closes with a small error moves its last walls: the sum of what was said is then another place.
            if q is not None and q.value == place:
                found[axis][place] = q
    return found


def wall_line(room: Room, letter: str) -> WallLine | None:
    return next((w for w in room.walls if w.letter == letter), None)


def along(room: Room, letter: str, rect: Rect) -> tuple[Quantity | None, Quantity, Quantity, bool] | None:
    """A plan rectangle on a wall, seen from inside: left end (None: nought), right end, width; and whether it stands against it.

    None where the wall is slanted or its corner is no quantity.
    """
    line = wall_line(room, letter)
    if line is None:
        return None
    dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
    if dx and dy:
        return None
    axis = 0 if dx else 1
    low, size = ((rect.x, rect.width), (rect.y, rect.height))[axis]
    far, depth = ((rect.y, rect.height), (rect.x, rect.width))[axis]
    forward = (dx or dy) > 0
    begin = line.start[axis]
    place = corners(room)[axis].get(begin)
    if begin != 0 and place is None:
        return None
    if forward:
        left = low if place is None else work("edge - corner", "mm", source=SOURCE, edge=low, corner=place)
    elif place is None:
        return None
    else:
        left = work("corner - edge - width", "mm", source=SOURCE, corner=place, edge=low, width=size)
    right = work("left + width", "mm", source=SOURCE, left=left, width=size)
    other = line.start[1 - axis]
    against = min(abs(far.value - other), abs(far.value + depth.value - other)) <= _AGAINST
    return (left if left.value else None), right, size, against


def doors(room: Room) -> tuple[tuple[WallLine, Opening], ...]:
    """Every door with its wall."""
    return openings(room, ("door",))


def openings(room: Room, kinds: tuple[str, ...]) -> tuple[tuple[WallLine, Opening], ...]:
    found = []
    for surface in room.wall_surfaces:
        line = wall_line(room, surface.letter)
        if line is not None:
            found += [(line, o) for o in surface.openings if o.kind in kinds]
    return tuple(found)


def neighbours(room: Room, letter: str) -> tuple[str, str]:
    """Letters of the walls at the left and right edge of a wall, seen from inside."""
    letters = [w.letter for w in room.walls]
    if letter not in letters or len(letters) < 2:
        return "", ""
    at = letters.index(letter)
    return letters[at - 1], letters[(at + 1) % len(letters)]
