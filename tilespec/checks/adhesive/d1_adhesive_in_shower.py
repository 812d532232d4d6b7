"""A dispersion adhesive of class D1 (EN 12004) is not tested in water, and softens in it: in a shower or over a bath the tiles
let go. Guidance of The Tile Association as quoted asks for D2 or a cement adhesive there; common practice on a membrane is C2.

Name an adhesive of class C2 for these tiles.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import also, another, dispersions, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("adhesive-wall-wet")
    for b in dispersions(context, RULE.name):
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(b.tile)} on {context.name(b.surface)} is wetted by a shower or a bath, and "
            f"{b.adhesive.name} (D1) softens in water.",
            label="softens in water",
            secondary=also(context, b),
            help=another(context, b, "a cement adhesive for it", "class C2TE"),
            notes=(cited(asked),),
        )


RULE = Rule(
    "T2119",
    "d1-adhesive-in-shower",
    Severity.ERROR,
    "A normal dispersion adhesive in a shower",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive ready-mix class D1TE; pack 15 kg
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
    limits=("adhesive-wall-wet",),
)
