"""Ground edges tempt one to set tiles edge to edge, but rectified tiles still differ and bow, and a hairline joint cannot be
filled to the bottom. US trade recommendation: 1/8 in (3 mm) round rectified tiles; European common practice, from memory: 2 mm.

Write the advised joint, or say in a deviation what the tile's maker gives.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, said_at
from tilespec.checks.tiling.joint_too_narrow import least_joint
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    advised = context.practice.limit("joint-advised-rectified")
    by_face = context.practice.find("joint-advised-wall") is not None
    for surface in context.job.tiled:
        for covering in surface.coverings:
            tile, joint = covering.tile, covering.joint
            if not tile.rectified or tile.mosaic or joint.value >= advised.value or by_face and surface.kind == "wall":
                continue
            if joint.value < least_joint(context, surface, covering).value:
                continue  # too narrow for any tile: told by another rule
            span = said_at(joint)
            yield RULE.at(
                (surface.id,),
                context.span(span, covering.span, surface.span),
                f"A joint of {both(joint)} round {called(tile)} on {context.name(surface)} is narrower than advised for "
                f"rectified tiles: {both(advised)}.",
                label="narrow",
                help=f"Write `joint {typed(advised)}`.",
                fixes=(Fix(f"write {typed(advised)}", (Edit(span, typed(advised)),)),) if span is not None else (),
                notes=(cited(advised),),
            )


RULE = Rule(
    "T2413",
    "narrow-joint-for-rectified-tile",
    Severity.NOTE,
    "Rectified tiles set too close",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice US
tile wall-tile 12 in x 12 in x 3/8 in porcelain rectified; weight 4.4 lb/ft2
wall A 8 ft x 8 ft
  base cement board
  tile wall-tile; joint 1/16 in
""",
    good="""\
job "Bathroom"
  practice US
tile wall-tile 12 in x 12 in x 3/8 in porcelain rectified; weight 4.4 lb/ft2
wall A 8 ft x 8 ft
  base cement board
  tile wall-tile; joint 1/8 in
""",
    limits=("joint-advised-rectified", "joint-advised-wall"),
)
