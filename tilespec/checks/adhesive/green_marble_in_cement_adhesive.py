"""Green marble is mostly serpentine, which swells on its wet side: laid in a cement adhesive, it curls before the bed has set,
and the corners stand up for good. Common practice, from memory: green marble and some slates take a reaction resin adhesive.

Name an adhesive of class R for the tile, as the supplier of the stone says; if he has tried a fast cement adhesive, say so in a
deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import also, another, bedded, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for b in bedded(context):
        words = b.tile.words
        if "marble" not in words or "green" not in words or b.adhesive.generic or b.adhesive.cls[:1] not in (("C1",), ("C2",)):
            continue
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(b.tile)} on {context.name(b.surface)} is green marble, which curls on its wet side, and {b.adhesive.name} "
            "is mixed with water.",
            label="mixed with water",
            secondary=also(context, b),
            help=another(context, b, "a reaction resin adhesive", "class R2T"),
            notes=("Common practice, from memory: ask the supplier of the stone.",),
        )


RULE = Rule(
    "T2126",
    "green-marble-in-cement-adhesive",
    Severity.WARNING,
    "A stone that bends with water, in a cement adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive flex-set class C2TE S1; pack 25 kg; for tile leaf
tile leaf 300x300x10 marble dark; colour green; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile leaf; joint 3
""",
    good="""\
adhesive resin-set class R2T; pack 5 kg; for tile leaf
tile leaf 300x300x10 marble dark; colour green; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile leaf; joint 3
""",
)
