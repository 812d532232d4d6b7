"""A ready-mixed dispersion adhesive hardens by drying. Between porcelain or glass and a membrane, a board of foam or old tiles
it is shut in: it stays soft, and the tiles slide or come off. Common practice after guidance of The Tile Association as quoted:
D2 in a shower for small porous tiles only, never under porcelain.

Name an adhesive of class C2 for the tile.
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
            f"{called(b.tile)} on {context.name(b.surface)} lets no water through and its base takes none: "
            f"{b.adhesive.name}, a dispersion, cannot dry between them.",
            label="cannot dry there",
            secondary=also(context, b),
            help=another(context, b, "a cement adhesive for it", "class C2TE"),
            notes=(cited(asked),),
        )


RULE = Rule(
    "T2115",
    "d-adhesive-behind-porcelain",
    Severity.WARNING,
    "A dispersion adhesive shut in between dense layers",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive ready-mix class D2TE; pack 15 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
adhesive firm-set class C2TE; pack 25 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("adhesive-wall-wet", "porcelain-absorption"),
)
