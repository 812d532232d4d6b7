"""A bed that is pressed too thin holds the tile by the crests of its ridges only: it is hollow in between, and the base shows
through in steps from tile to tile. ANSI A108.5, 2.2.2, in the trade press: 3/32 in, 2 mm, of adhesive left under the tile;
elsewhere that figure is common practice.

Write a `bed` of that much or more in the `build-up`, and take the height from the leveller or the screed.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.bed import planned
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("bed-min")
    for floor, bed in planned(context):
        if bed.value >= least.value:
            continue
        span = said_at(bed)
        yield RULE.at(
            (floor.id,),
            context.span(span, floor.span),
            f"The build-up of {context.name(floor)} leaves a bed of {both(bed)}; {both(least)} has to stay under the tile.",
            label="too thin",
            help=f"Write `bed {typed(least)}` or more, and take that height from another layer.",
            notes=(cited(least),),
            fixes=(Fix(f"write {typed(least)}", (Edit(span, typed(least)),)),) if span is not None else (),
        )


RULE = Rule(
    "T2122",
    "bed-too-thin",
    Severity.WARNING,
    "A bed thinner than what has to stay under the tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  build-up bed 1
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  build-up bed 2
  tile floor-tile; joint 3
""",
    limits=("bed-min",),
)
