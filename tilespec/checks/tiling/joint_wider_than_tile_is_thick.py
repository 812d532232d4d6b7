"""A joint that is wider than deep holds the grout by little: it sinks, cracks and crumbles out under foot. NHBC Standards 9.1.7
and 9.3.5: floor joints generally not wider than the tile is thick, and up to 10 mm for irregular tiles.

Write a narrower joint, or take a thicker tile.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, owner, said_at
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Tile
from tilespec.quantity import Limit, Quantity
from tilespec.quantity.typed import typed

# Tiles whose sides are no two alike.
IRREGULAR = ("terracotta", "quarry", "natural", "textured")


def irregular(tile: Tile) -> bool:
    return any(w in IRREGULAR for w in tile.words)


def _by_thickness(most: Quantity, tile: Tile) -> str:
    """The clause that has the limit also has the rule of thumb."""
    if not isinstance(most.why, Limit):
        return f"Limit: the tile's thickness, {both(tile.thickness)}."
    return f"Limit: the tile's thickness, {both(tile.thickness)} ({owner(most.why)}): {most.why.source}; generally."


def find(context: Context) -> Iterator[Finding]:
    most = context.practice.find("joint-max-floor")
    if most is None:
        return  # only the United Kingdom has this limit
    for surface in context.job.tiled:
        for covering in surface.coverings if surface.kind == "floor" else ():
            tile, joint = covering.tile, covering.joint
            wide = most if irregular(tile) or tile.thickness.value > most.value else tile.thickness
            if joint.value <= wide.value:
                continue
            reason = f"{both(most)} is the most" if wide is most else f"the tile is {both(tile.thickness)} thick"
            yield RULE.at(
                (surface.id,),
                context.span(said_at(joint), covering.span, surface.span),
                f"A joint of {both(joint)} round {called(tile)} on {context.name(surface)} is too wide: {reason}.",
                label="too wide",
                help=f"Write `joint {typed(wide)}` or less.",
                notes=(cited(most) if wide is most else _by_thickness(most, tile),),
            )


RULE = Rule(
    "T2411",
    "joint-wider-than-tile-is-thick",
    Severity.WARNING,
    "A joint wider than its tile is thick",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice UK
tile floor-tile 300x300x8 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 9
""",
    good="""\
job "Bathroom"
  practice UK
tile floor-tile 300x300x8 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 8
""",
    limits=("joint-max-floor",),
)
