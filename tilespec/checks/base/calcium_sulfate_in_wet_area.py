"""A calcium sulfate screed is gypsum: where water reaches it for long, it softens and swells, and it never gets its strength
back. UK trade guidance in agreement: not for places that are often wet or saturated, such as shower floors and floors with a
drain. A membrane keeps splashes off it, but at a drain one leak is enough.

Take a cement screed for the wet floor, or a prefabricated shower base that drains by itself. Where the designer accepts the
screed with its waterproofing, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.checks.wet import soaked_zones
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        if surface.kind != "floor" or surface.base.kind != "calcium-sulfate-screed":
            continue
        if not soaked_zones(context, surface) and not context.room(surface).drains:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(surface.base.span, surface.span),
            f"{context.name(surface)} gets wet, and its calcium sulfate screed softens in water.",
            label="gypsum",
            help="Lay a cement screed where the floor gets wet: `base cement screed`.",
            notes=(cited(context.practice.word("calcium-sulfate-wet-floor")),),
        )


RULE = Rule(
    "T2211",
    "calcium-sulfate-in-wet-area",
    Severity.ERROR,
    "A gypsum screed under a wet floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base calcium sulfate screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    limits=("calcium-sulfate-wet-floor",),
)
