"""Two surfaces that meet move apart, and hard grout in the corner between them cracks and takes the edges of the tiles along.
Inside corners and the joint between wall and floor are sealed, never filled hard (The Tile Association's guide to movement
joints, and EJ171 of the TCNA Handbook).

Take `sealant none` out. Where another section closes the joint, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        refused = surface.refusal("sealant")
        if refused is None:
            continue
        where = "the joints along its edges" if surface.kind == "floor" else "its corners and its joint with the floor"
        yield RULE.at(
            (surface.id,),
            context.span(refused, surface.span),
            f"{context.name(surface)} gets no sealant, and {where} move.",
            label="no sealant here",
            help="Take `sealant none` out: these joints are then sealed and not filled with grout.",
            notes=(cited(context.practice.word("corners-sealed")),),
        )


RULE = Rule(
    "T2719",
    "corner-without-sealant",
    Severity.WARNING,
    "Corners without sealant",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; sealant none
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("corners-sealed",),
)
