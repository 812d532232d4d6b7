"""Stone and tiles thicker than about 12 mm are heavy and stiff, and high up they hurt when they come down. UK trade practice,
in the area of BS 8298, as the trade press restates it: mechanical fixing is to be considered on walls.

Take a thinner tile, or ask the designer for a mechanical fixing and say in a deviation what was decided.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    limit = context.practice.limit("mechanical-fixing-thickness")
    for surface in context.job.tiled:
        for covering in surface.coverings if surface.kind == "wall" else ():
            tile = covering.tile
            if tile.thickness.value <= limit.value:
                continue
            yield RULE.at(
                (surface.id,),
                context.span(tile.span, covering.span, surface.span),
                f"{called(tile)} on {context.name(surface)} is {both(tile.thickness)} thick and held by adhesive alone; above "
                f"{both(limit)} a mechanical fixing is to be considered.",
                label="thick and heavy",
                help="Ask the designer about a mechanical fixing, and write the answer into a deviation.",
                notes=(cited(limit),),
            )


RULE = Rule(
    "T2218",
    "thick-tile-without-fixing",
    Severity.WARNING,
    "Thick stone held by adhesive alone",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile slab 400x200x15 granite; weight 41 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
    good="""\
tile slab 400x200x12 granite; weight 33 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
    limits=("mechanical-fixing-thickness",),
)
