"""The bed that a floor's build-up plans for its tiles."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import Context
from tilespec.job.types import Surface
from tilespec.quantity import Quantity


def planned(context: Context) -> Iterator[tuple[Surface, Quantity]]:
    """Floors whose bed is said. Sheets of mosaic lie in a thinner one than tiles do."""
    for room in context.job.rooms:
        floor = room.floor
        if floor is None or floor.field is None or floor.field.tile.mosaic:
            continue
        beds = [q for name, q in room.levels.build_up if name == "bed"]
        if len(beds) == 1:
            yield floor, beds[0]
