"""Steps at the doors of a room, for the rules: how the wet floor, the threshold and the floor outside lie to each other."""

from __future__ import annotations

from tilespec.job.types import Opening, Room, Surface
from tilespec.quantity import Quantity


def ways_out(room: Room) -> tuple[tuple[Surface, Opening], ...]:
    """Doors, and openings down to the floor, each with its wall."""
    found = ((s, o) for s in room.wall_surfaces for o in s.openings)
    return tuple((s, o) for s, o in found if o.kind == "door" or (o.kind == "opening" and not o.rect.y.value))


def thresholds(room: Room) -> tuple[Quantity, ...]:
    """Those that stand above the finished floor."""
    return tuple(o.threshold for _, o in ways_out(room) if o.threshold is not None and o.threshold.value > 0)


def runs_out(room: Room) -> bool:
    """Water on the floor can reach the door, and the floor outside lies lower with nothing before it."""
    hall = room.levels.hall
    level = any(not s.tray for s in room.showers) or bool(room.drains)
    return level and room.floor is not None and hall is not None and hall.value < 0 and not thresholds(room)
