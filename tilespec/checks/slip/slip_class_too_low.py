"""A shower floor is walked on wet and barefoot. DIN 51097 (method in EN 16165) asks for barefoot class B in showers, ANSI
A326.3 for a wet DCOF of 0.42 on level bathroom floors, HSE and UKSRG take a pendulum value of 36 as low risk. R classes are
measured with boots and oil and say nothing about bare feet.

Choose a tile with the rating, or a smaller one whose joints give grip and whose data sheet says so. Falls hurt people: this
rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, called, cited
from tilespec.checks.slip.ratings import decisive, walked_on_wet
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface, covering in walked_on_wet(context):
        for rating in decisive(covering.tile, context.practice):
            if rating.enough:
                continue
            tile = covering.tile
            yield RULE.at(
                (surface.id,),
                context.span(covering.span, surface.span),
                f"{called(tile)} ({rating.words}) is too slippery for {context.name(surface)}, which is walked on wet: "
                f"{rating.needed} at least.",
                label="walked on wet",
                secondary=(Label(tile.span, "declared here"),) if tile.span is not None else (),
                help=f"Choose a tile with {rating.needed} or better.",
                notes=(cited(rating.limit),),
            )


RULE = Rule(
    "T2501",
    "slip-class-too-low",
    Severity.ERROR,
    "A wet floor that is too slippery",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class A
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
""",
    limits=(
        "slip-measure", "barefoot-class-shower", "dcof-min", "pendulum-min", "pendulum-P1", "pendulum-P2",
        "pendulum-P3", "pendulum-P4", "pendulum-P5",
    ),
)
