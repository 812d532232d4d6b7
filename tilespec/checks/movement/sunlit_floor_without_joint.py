"""The sun through a large window warms a floor within an hour as much as heating does in a day, and in stripes. The TCNA
Handbook (EJ171) gives 8 to 12 ft (3.7 m) for such floors, guidance of The Tile Association with BS 5385-3 keeps their bays
to 8 m a side and 40 m2, as with heating.

Divide the floor with movement joints, or take `sunlit` out where a blind or an overhang keeps the sun off.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import bays, reach, stricter, sunlit, too_long, where_to_cut
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Severity
from tilespec.quantity import Quantity


def find(context: Context) -> Iterator[Finding]:
    limit = context.practice.limit
    most = stricter(limit("movement-spacing-sunlit"), limit("movement-spacing-floor"))
    area, width = limit("movement-bay-heated"), limit("movement-joint-min-floor")
    for surface in context.job.tiled:
        if surface.kind != "floor" or not sunlit(context, surface):
            continue
        large = max(bays(surface), key=lambda b: b.area, default=None)
        if (found := too_long(surface, most)) is not None:
            bay, n = found
            size, target, why = f"runs {both(bay.sides[n])} {reach(bay, n)}", most, most
        elif large is not None and large.area > area.value:
            bay, n = large, large.longer
            side = bay.sides[n]
            size = f"has a bay of {both(Quantity(bay.area, area.kind, area.shown, area.why))}"
            target, why = Quantity(side.value / 2, side.kind, side.shown, side.why), area
        else:
            continue
        yield RULE.at(
            (surface.id,),
            context.where(surface),
            f"The sun shines on {context.name(surface)}, and it {size} without a movement joint: {both(why)} at most.",
            label="warmed by the sun",
            help=f"Divide it, {where_to_cut(context, surface, bay, n, target, width)}.",
            notes=(cited(why),),
        )


RULE = Rule(
    "T2704",
    "sunlit-floor-without-joint",
    Severity.WARNING,
    "A sunlit floor too large for having no movement joint",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Garden bathroom"
  practice US
tile floor-tile 600x600x9 porcelain; dcof 0.6
floor 4.8 x 3 sunlit
  base concrete
  tile floor-tile; joint 3
""",
    good="""\
job "Garden bathroom"
  practice US
tile floor-tile 600x600x9 porcelain; dcof 0.6
floor 4.8 x 3 sunlit
  base concrete
  tile floor-tile; joint 3
  movement joint 2.4 from wall D; width 8
""",
    limits=("movement-spacing-sunlit", "movement-spacing-floor", "movement-bay-heated", "movement-joint-min-floor"),
)
