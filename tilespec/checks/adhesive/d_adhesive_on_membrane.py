"""A ready-mixed dispersion adhesive hardens by giving its water to the base and the air. A membrane takes none, so that the
middle of each tile stays soft for weeks. Common practice, from memory: C2 of EN 12004 on membranes, no D.

Name an adhesive of class C2 for the tiles on the membrane.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import also, another, dispersions, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("adhesive-dispersion-membrane")
    for b in dispersions(context, RULE.name):
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(b.tile)} on {context.name(b.surface)} is laid in {b.adhesive.name}, a dispersion, on a membrane: "
            "it cannot dry into it.",
            label="cannot dry there",
            secondary=also(context, b),
            help=another(context, b, "a cement adhesive for it", "class C2TE"),
            notes=(cited(asked),),
        )


RULE = Rule(
    "T2114",
    "d-adhesive-on-membrane",
    Severity.WARNING,
    "A dispersion adhesive on a membrane",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive ready-mix class D2TE; pack 15 kg
tile wall-tile 150x150x6 ceramic; weight 11 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
adhesive firm-set class C2TE; pack 25 kg
tile wall-tile 150x150x6 ceramic; weight 11 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("adhesive-dispersion-membrane",),
)
