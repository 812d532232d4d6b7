"""Long tiles come bowed from the kiln. In a half bond the middle of each, its highest point, lies beside the ends of its
neighbours, their lowest: every joint becomes a step. ANSI A108.02, in the trade press: tiles with a side over 15 in are shifted
by a third at most, unless the maker accepts more and the owner has approved a mock-up; elsewhere that is common practice.

Write `third bond`, or say in a deviation that the maker accepts the bond and who approved the sample.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.job.types import Covering

_BONDS = {"half": 50, "third": 33, "quarter": 25}


def offset(covering: Covering) -> int:
    """By how much each course is shifted, in whole per cent of the tile, as the limit counts; never more than half."""
    pattern = covering.pattern
    if pattern.name != "run" or pattern.run is None:
        return _BONDS.get(pattern.name, 0)
    along = covering.tile.height if pattern.upright else covering.tile.width
    share = pattern.run.value / along.value % 1
    return int(min(share, 1 - share) * 100)


def find(context: Context) -> Iterator[Finding]:
    most, edge = context.practice.limit("offset-max"), context.practice.limit("offset-long-edge")
    for surface in context.job.tiled:
        for covering in surface.coverings:
            tile, pattern = covering.tile, covering.pattern
            along = tile.height if pattern.upright else tile.width
            if tile.mosaic or along.value <= edge.value or offset(covering) <= most.value * 100:
                continue
            span = pattern.span
            mend = (Fix("write third bond", (Edit(span, "third bond"),)),) if span is not None and pattern.name == "half" else ()
            yield RULE.at(
                (surface.id,),
                context.span(span, covering.span, surface.span),
                f"{called(tile)} on {context.name(surface)} is {both(along)} long and shifted by {offset(covering)} % from "
                f"course to course; {both(most)} is the most for tiles over {both(edge)}.",
                label="its bow will show",
                help="Write `third bond`, or have a sample approved and say so in a deviation.",
                fixes=mend,
                notes=(cited(most),),
            )


RULE = Rule(
    "T2410",
    "offset-over-a-third",
    Severity.WARNING,
    "Long tiles shifted by more than a third",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 600x300x9 porcelain landscape rectified; weight 20 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; half bond
""",
    good="""\
tile wall-tile 600x300x9 porcelain landscape rectified; weight 20 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; third bond
""",
    limits=("offset-max", "offset-long-edge"),
)
