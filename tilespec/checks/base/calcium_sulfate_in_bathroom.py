"""A calcium sulfate screed is gypsum, and the floor of a bathroom is splashed every day and flooded once in a while. UK trade
guidance in agreement: not for places that are often wet; a bathroom without a shower on its floor is at the edge of that. The
membrane has to be whole, up the walls and round every pipe, and the screed dry below it.

A cement screed is the safe base. Where the designer accepts the screed with its waterproofing, say so in a deviation. Where
water stands or runs on the floor, it is an error of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.checks.wet import soaked_zones
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        floor = room.floor
        if floor is None or not floor.coverings or floor.base.kind != "calcium-sulfate-screed":
            continue
        if not (room.baths or room.showers) or soaked_zones(context, floor) or room.drains:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(floor.base.span, floor.span),
            f"{context.name(floor)} is that of a bathroom, and its calcium sulfate screed softens where water gets to it.",
            label="gypsum",
            help="Lay a cement screed, `base cement screed`, or say in a deviation who accepts this one with its membrane.",
            notes=(cited(context.practice.word("calcium-sulfate-bathroom-floor")),),
        )


RULE = Rule(
    "T2221",
    "calcium-sulfate-in-bathroom",
    Severity.WARNING,
    "A gypsum screed under a bathroom floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
room "Bathroom" height 2.4
floor 2.4 x 1.8
  base calcium sulfate screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
bath in corner A B, 0.75 x 1.7; rim 0.56
wall A
  base cement render
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 300x300x9 porcelain
room "Bathroom" height 2.4
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
bath in corner A B, 0.75 x 1.7; rim 0.56
wall A
  base cement render
  tile floor-tile; joint 3
""",
    limits=("calcium-sulfate-bathroom-floor",),
)
