"""A heavy wall tile slides down in its fresh bed and opens the joint above it. An adhesive with option T slips by 0.5 mm at
most in the test of EN 12004-1; without T each course has to be held until the adhesive sets. Common practice: T on walls from
an edge above 300 mm.

Name an adhesive with a T in its class for the walls, or work upwards from a fixed batten with spacers and say so in a
deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import TYPES, also, another, bedded, option, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    limit = context.practice.limit("non-slip-edge")
    for b in bedded(context):
        tile, adhesive = b.tile, b.adhesive
        if b.surface.kind != "wall" or tile.mosaic or tile.long_side.value <= limit.value:
            continue
        if not adhesive.cls or adhesive.cls[0] not in TYPES or option(adhesive, "T"):
            continue
        options = "".join(o for o in "FTE" if o == "T" or option(adhesive, o))
        better = " ".join((adhesive.cls[0] + options, *(p for p in adhesive.cls if p in ("S1", "S2"))))
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(tile)} on {context.name(b.surface)} has an edge of {both(tile.long_side)}, and {adhesive.name} "
            f"({' '.join(adhesive.cls)}) has no T in its class: the tiles may slip before it sets.",
            label="no T",
            secondary=also(context, b),
            help=another(context, b, "a non-slip adhesive", f"class {better}"),
            notes=(cited(limit),),
        )


RULE = Rule(
    "T2121",
    "slipping-adhesive-on-wall",
    Severity.NOTE,
    "Large wall tiles in an adhesive that lets them slip",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive soft-set class C2E S1; pack 25 kg
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
adhesive firm-set class C2TE S1; pack 25 kg
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("non-slip-edge",),
)
