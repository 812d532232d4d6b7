"""A thin skin of sealant splits in the middle, or peels off edges that it hardly touches. Common practice: half the width, and
not less than 6 mm unless the joint itself is narrower; the TCNA Handbook (EJ171) takes half the width.

Write the depth that the message gives, and set the backer rod so deep.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.quantity import work
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    part, bottom = context.practice.limit("sealant-depth-share"), context.practice.limit("sealant-depth-min")
    for surface in context.job.tiled:
        for joint in surface.movement_joints:
            if joint.depth is None or not stated(joint.width):
                continue
            least = work(
                "min(width, max(width * share, least))", joint.width.shown.symbol, source="least depth of sealant",
                width=joint.width, share=part, least=bottom,
            )
            if joint.depth.value >= least.value:
                continue
            span = said_at(joint.depth)
            yield RULE.at(
                (surface.id,),
                context.span(span, joint.span, surface.span),
                f"The sealant in the movement joint of {context.name(surface)} is {both(joint.depth)} deep in a joint "
                f"{both(joint.width)} wide: {both(least)} at least.",
                label="too shallow",
                help=f"Write `{typed(least)} deep`, over a backer.",
                notes=(cited(part if least.value > bottom.value else bottom),),
                fixes=(Fix(f"write {typed(least)}", (Edit(span, typed(least)),)),) if span is not None else (),
            )


RULE = Rule(
    "T2714",
    "sealant-too-shallow",
    Severity.WARNING,
    "Sealant too shallow for its joint",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  movement joint 1.8 from wall D; width 8; 3 deep
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  movement joint 1.8 from wall D; width 8; 8 deep
""",
    limits=("sealant-depth-share", "sealant-depth-min"),
)
