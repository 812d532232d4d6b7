"""Weight of the tiling on each surface: tile, bed and grout, for what the base can carry."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work
from tilespec.setout.bed import product_for
from tilespec.takeoff import grout
from tilespec.takeoff.adhesive import Bed
from tilespec.takeoff.tiles import weight_per_area


def tiling_weight(beds: Sequence[Bed], practice: Practice) -> tuple[tuple[str, Quantity], ...]:
    """kg/m2 of the heaviest covering of each surface. The bed counts as dry powder."""
    heaviest: dict[str, Quantity] = {}
    for b in beds:
        inputs = {
            "tile": weight_per_area(b.laid.tile, practice), "bed": b.rate,
            "grout": grout.rate(b.laid, product_for(b.laid.surface, "grout", b.laid.tile), practice),
        }
        if b.butter_rate is not None:
            inputs["back_buttering"] = b.butter_rate
        q = work(" + ".join(inputs), "kg/m2", source="tile, bed and grout", **inputs)
        place = b.laid.surface.id
        if place not in heaviest or q.value > heaviest[place].value:
            heaviest[place] = q
    return tuple(heaviest.items())
