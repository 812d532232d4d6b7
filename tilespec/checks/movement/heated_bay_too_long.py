"""A heated bay that is long and narrow grows along its length and cracks across it. The German rules for heated screed and
tile (a leaflet of the trade's association, in the area of DIN 18560-2) ask for compact bays, no more than about twice as
long as wide; small rooms move too little for it to matter.

Put a movement joint across the long side, through tile, bed and screed, where the screed has its own joint.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import bays, heated, stricter, where_to_cut
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Severity
from tilespec.quantity import Quantity


def find(context: Context) -> Iterator[Finding]:
    # A figure of the German family alone.
    most, start = context.practice.find("movement-bay-ratio"), context.practice.find("movement-bay-ratio-from")
    if most is None or start is None:
        return
    limit, width = context.practice.limit, context.practice.limit("perimeter-joint-heated")
    spacing = stricter(limit("movement-spacing-heated"), limit("movement-spacing-floor"))
    for surface in context.job.tiled:
        if not heated(context, surface):
            continue
        for bay in bays(surface):
            long, short = bay.sides[bay.longer], bay.sides[1 - bay.longer]
            # What is too long altogether is told as that.
            if long.value <= start.value or long.value > spacing.value or long.value <= short.value * most.value:
                continue
            part = Quantity(short.value * most.value, long.kind, long.shown, long.why)
            yield RULE.at(
                (surface.id,),
                context.where(surface),
                f"A heated bay of {context.name(surface)} is {both(long)} long and {both(short)} wide: "
                f"no more than {both(most)} times as long as wide.",
                label="long and narrow",
                help=f"Divide it, {where_to_cut(context, surface, bay, bay.longer, part, width)}.",
                notes=(cited(most), cited(start)),
            )
            break


RULE = Rule(
    "T2705",
    "heated-bay-too-long",
    Severity.WARNING,
    "A bay of a heated floor that is long and narrow",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice DE
tile floor-tile 600x600x9 porcelain; barefoot class B
floor 6 x 2.4 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 4
""",
    good="""\
job "Bathroom"
  practice DE
tile floor-tile 600x600x9 porcelain; barefoot class B
floor 6 x 2.4 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 4
  movement joint 3 from wall D; width 10
""",
    limits=(
        "movement-bay-ratio", "movement-bay-ratio-from", "movement-spacing-heated", "movement-spacing-floor",
        "perimeter-joint-heated",
    ),
)
