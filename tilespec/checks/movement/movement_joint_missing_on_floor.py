"""Tiles and screed grow and shrink by different amounts, and a large floor with no joint in it pushes its tiles up in a
ridge. The TCNA Handbook (EJ171) and ANSI A108.01, 3.7 allow 25 ft (7.6 m) each way indoors, The Tile Association and
BS 5385-3 8 to 10 m, German trade rules about 8 m on insulation; floors that grow warm have rules of their own.

Add a movement joint where the message proposes it, best over a joint of the screed or in line with a door, from the tile
down through the bed. Where the floor's designer allows a larger bay, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import heated, reach, sunlit, too_long, where_to_cut
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    most, width = context.practice.limit("movement-spacing-floor"), context.practice.limit("movement-joint-min-floor")
    for surface in context.job.tiled:
        if surface.kind != "floor" or heated(context, surface) or sunlit(context, surface):
            continue
        found = too_long(surface, most)
        if found is None:
            continue
        bay, n = found
        yield RULE.at(
            (surface.id,),
            context.where(surface),
            f"{context.name(surface)} runs {both(bay.sides[n])} {reach(bay, n)} without a movement joint: "
            f"{both(most)} at most.",
            label="no joint within it",
            help=f"Divide it, {where_to_cut(context, surface, bay, n, most, width)}.",
            notes=(cited(most),),
        )


RULE = Rule(
    "T2701",
    "movement-joint-missing-on-floor",
    Severity.WARNING,
    "A floor too long for having no movement joint",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 600x600x9 porcelain; barefoot class B
floor 9 x 3
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 600x600x9 porcelain; barefoot class B
floor 9 x 3
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  movement joint 4.5 from wall D; width 6
""",
    limits=("movement-spacing-floor", "movement-joint-min-floor"),
)
