"""A glazed tile that takes up more than 10 % of water (group BIII of EN 14411) is made for walls: its body is soft, its glaze
thin, and on a floor it crazes, wears and breaks. Common practice, from memory: indoors, on walls only, unless its maker says
otherwise.

Take a floor tile, or say in a deviation where the maker allows it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Tile
from tilespec.quantity import Quantity

# Floor tiles that drink: they are made thick for it.
FLOOR_TILES = ("terracotta", "quarry", "unglazed")


def drinks(tile: Tile, limit: Quantity) -> str | None:
    """Why it is a tile for walls, as the end of a clause; None where it is not known to be one."""
    if tile.body != "ceramic" or tile.mosaic or any(w in FLOOR_TILES for w in tile.words):
        return None
    if tile.absorption is not None:
        return f"takes up {both(tile.absorption)} of water" if tile.absorption.value > limit.value else None
    return "is earthenware" if "earthenware" in tile.words else None


def find(context: Context) -> Iterator[Finding]:
    most = context.practice.limit("floor-absorption-max")
    for surface in context.job.tiled:
        for covering in surface.coverings if surface.kind == "floor" else ():
            tile = covering.tile
            if (why := drinks(tile, most)) is None:
                continue
            yield RULE.at(
                (surface.id,),
                context.span(covering.span, surface.span),
                f"{called(tile)} on {context.name(surface)} {why}: it is a tile for walls.",
                label="under foot",
                secondary=(Label(tile.span, "declared here"),) if tile.span is not None else (),
                help=f"Choose a tile for floors, which takes up {both(most)} at most.",
                notes=(cited(most),),
            )


RULE = Rule(
    "T2418",
    "wall-tile-on-floor",
    Severity.WARNING,
    "A wall tile under foot",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2; absorption 14 %
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile plain-tile; joint 3
""",
    good="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2; absorption 6 %
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile plain-tile; joint 3
""",
    limits=("floor-absorption-max",),
)
