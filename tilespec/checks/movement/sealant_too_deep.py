"""A deep bead of sealant cannot thin as it is pulled: it tears off the tile's edge instead. The TCNA Handbook (EJ171) asks for
half the width over a backer rod; European practice takes narrow joints as deep as wide, and none deeper than wide.

Write the depth that the message gives, and set the backer rod so high: it also keeps the sealant off the bottom.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.formula.movement import sealant_depth
from tilespec.quantity import work
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    part = context.practice.limit("sealant-depth-max-share")
    for surface in context.job.tiled:
        for joint in surface.movement_joints:
            if joint.depth is None or not stated(joint.width):
                continue
            right = sealant_depth(joint.width, context.practice).shown_in(joint.width.shown)
            most = work("width * share", joint.width.shown.symbol, source="deepest sealant", width=joint.width, share=part)
            deepest = max(most, right, key=lambda q: q.value)
            if joint.depth.value <= deepest.value:
                continue
            span = said_at(joint.depth)
            yield RULE.at(
                (surface.id,),
                context.span(span, joint.span, surface.span),
                f"The sealant in the movement joint of {context.name(surface)} is {both(joint.depth)} deep in a joint "
                f"{both(joint.width)} wide: {both(deepest)} at most.",
                label="too deep",
                help=f"Write `{typed(right)} deep`, over a backer.",
                notes=(cited(part),),
                fixes=(Fix(f"write {typed(right)}", (Edit(span, typed(right)),)),) if span is not None else (),
            )


RULE = Rule(
    "T2713",
    "sealant-too-deep",
    Severity.WARNING,
    "Sealant deeper than its joint is wide",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  movement joint 1.8 from wall D; width 8; 12 deep
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  movement joint 1.8 from wall D; width 8; 8 deep
""",
    limits=("sealant-depth-max-share", "sealant-depth-full-to", "sealant-depth-share", "sealant-depth-min"),
)
