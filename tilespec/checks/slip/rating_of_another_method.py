"""Barefoot class, DCOF and pendulum value come from different tests and cannot be turned into each other. Whoever signs the
work off asks for the one that holds in his country: in the United States wet DCOF (ANSI A326.3), in the United Kingdom and
Australia the pendulum value (HSE and UKSRG; AS 4586), in Germany the barefoot class (DIN 51097).

Ask the tile's maker for that rating too and write it beside the tile.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called, cited
from tilespec.checks.slip.ratings import ratings, walked_on_wet
from tilespec.checks.slip.slip_class_missing import wanted
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    measure = context.practice.word("slip-measure")
    text, _ = wanted(context.practice)
    for surface, covering in walked_on_wet(context):
        tile = covering.tile
        found = ratings(tile, context.practice)
        # A rating that is too low is told as such.
        if not found or not all(r.enough for r in found) or any(r.measure == measure.text for r in found):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(tile.span, covering.span, surface.span),
            f"{called(tile)} lies on {context.name(surface)}, which is walked on wet, and is rated by another method than here: "
            f"{' and '.join(r.words for r in found)}.",
            label="rated elsewhere",
            help=f"Add the rating that is asked for here from the data sheet, `{text}` at least.",
            notes=(cited(measure),),
        )


RULE = Rule(
    "T2510",
    "rating-of-another-method",
    Severity.NOTE,
    "A slip rating by another method than the family uses",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice US
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 1.8 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:48 four planes; drain 0.9 from wall D, 0.9 from wall A
""",
    good="""\
job "Bathroom"
  practice US
tile floor-tile 100x100x8 porcelain; barefoot class B; dcof 0.45
floor 1.8 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:48 four planes; drain 0.9 from wall D, 0.9 from wall A
""",
    limits=("slip-measure",),
)
