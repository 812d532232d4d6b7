"""How safe a floor is to stand on wet: the ratings that a tile declares, against the family's limits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.rule import Context
from tilespec.checks.wet import soaked_zones
from tilespec.job.types import Covering, Room, Surface, Tile
from tilespec.practice.lookup import Practice, Word
from tilespec.quantity import Quantity
from tilespec.quantity.typed import typed
from tilespec.setout.geometry import bounds, box


@dataclass(frozen=True, slots=True)
class Rating:
    """One declared rating. measure: "barefoot", "dcof" or "pendulum"; `words` is how it is written in a spec."""

    measure: str
    words: str
    limit: Quantity | Word
    enough: bool
    needed: str


def ratings(tile: Tile, practice: Practice) -> tuple[Rating, ...]:
    found: list[Rating] = []
    if tile.barefoot is not None:
        word = practice.word("barefoot-class-shower")
        enough = tile.barefoot >= word.text
        found.append(Rating("barefoot", f"barefoot class {tile.barefoot}", word, enough, f"barefoot class {word.text}"))
    if tile.dcof is not None:
        least = practice.limit("dcof-min")
        words = f"dcof {float(tile.dcof.number):g}"
        found.append(Rating("dcof", words, least, tile.dcof.value >= least.value, f"dcof {typed(least)}"))
    least = practice.limit("pendulum-min")
    if tile.pendulum is not None:
        words = f"pendulum {float(tile.pendulum.number):g}"
        found.append(Rating("pendulum", words, least, tile.pendulum.value >= least.value, f"pendulum {typed(least)}"))
    elif tile.slip is not None and (band := practice.find(f"pendulum-{tile.slip}")) is not None:
        found.append(Rating("pendulum", f"slip class {tile.slip}", least, band.value >= least.value, _class(least, practice)))
    return tuple(found)


def _class(least: Quantity, practice: Practice) -> str:
    """The slip class that such a pendulum value takes: what is said as a class is asked for as one."""
    for n in range(1, 6):
        band = practice.find(f"pendulum-P{n}")
        if band is not None and band.value >= least.value:
            return f"slip class P{n} (pendulum {typed(least)})"
    return f"pendulum {typed(least)}"


def decisive(tile: Tile, practice: Practice) -> tuple[Rating, ...]:
    """The rating that the family asks for, or, where the tile has none of it, whatever it has."""
    asked = practice.word("slip-measure").text
    found = ratings(tile, practice)
    return tuple(r for r in found if r.measure == asked) or found


def walked_on_wet(context: Context) -> Iterator[tuple[Surface, Covering]]:
    """Tiles of floors that are stood on wet: in the wet areas of each floor.

    Barefoot classes are asked in the shower only; the other measures of every floor of a room that water is used in.
    """
    everywhere = context.practice.word("slip-measure").text != "barefoot"
    for surface in context.job.tiled:
        if surface.kind != "floor":
            continue
        whole = bounds(surface.outline)
        if everywhere and _used_with_water(context.room(surface)):
            wet = [whole]
        else:
            wet = [box(z.rect) if z.rect is not None else whole for z in soaked_zones(context, surface)]
        for covering in surface.coverings:
            here = box(covering.region) if covering.region is not None else whole
            if any(b.meets(here) for b in wet):
                yield surface, covering


def _used_with_water(room: Room) -> bool:
    return bool(room.showers or room.baths or room.basins or any(s.zones for s in room.surfaces))
