"""A floor that is walked on wet needs a tile with a rating for it, and this spec does not say that the tile has one: barefoot
class (DIN 51097, EN 16165), wet DCOF (ANSI A326.3) or pendulum value (HSE and UKSRG; AS 4586). R classes are measured with
boots.

Take the rating from the tile's data sheet and write it beside the tile. Falls hurt people: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, called, cited
from tilespec.checks.slip.ratings import ratings, walked_on_wet
from tilespec.diagnostics.model import Label, Severity
from tilespec.practice.lookup import Practice, Word
from tilespec.quantity import Quantity
from tilespec.quantity.typed import typed


def wanted(practice: Practice) -> tuple[str, Quantity | Word]:
    """The rating of the family as a spec writes it, and its limit."""
    match practice.word("slip-measure").text:
        case "dcof":
            return f"dcof {typed(practice.limit('dcof-min'))}", practice.limit("dcof-min")
        case "pendulum":
            return f"pendulum {typed(practice.limit('pendulum-min'))}", practice.limit("pendulum-min")
        case _:
            word = practice.word("barefoot-class-shower")
            return f"barefoot class {word.text}", word


def find(context: Context) -> Iterator[Finding]:
    text, limit = wanted(context.practice)
    for surface, covering in walked_on_wet(context):
        tile = covering.tile
        if ratings(tile, context.practice):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(covering.span, surface.span),
            f"{called(tile)} lies on {context.name(surface)}, which is walked on wet, and its slip rating is not stated.",
            label="walked on wet",
            secondary=(Label(tile.span, "no rating here"),) if tile.span is not None else (),
            help=f"Add the rating from the data sheet to the tile; it takes `{text}` at least.",
            notes=(cited(limit),) + ((f"{tile.slip} is measured with boots, not barefoot.",) if tile.slip is not None else ()),
        )


RULE = Rule(
    "T2502",
    "slip-class-missing",
    Severity.WARNING,
    "A wet floor whose grip is not known",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain
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
    limits=("slip-measure", "barefoot-class-shower", "dcof-min", "pendulum-min"),
)
