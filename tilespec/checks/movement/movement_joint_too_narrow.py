"""A movement joint works by the sealant in it, and a narrow one has too little to stretch. The Tile Association cites 6 mm for
joints within a floor, the TCNA Handbook (EJ171) 1/4 in on floors and 1/8 in on walls and in mosaic, a handbook from AS 3958
6 mm.

Write the width that the message gives, or more: the joint also has to take the movement of its bay.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import over, stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.job.types import Surface
from tilespec.quantity import Quantity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        least = _least(context, surface)
        # What is narrower than the joint of the base below it is told as that.
        above = [(below, over(surface, below)) for below in surface.base_joints]
        told = [j for below, j in above if j is not None and j.width.value < below.width.value]
        for joint in surface.movement_joints:
            if joint in told or not stated(joint.width) or joint.width.value >= least.value:
                continue
            span = said_at(joint.width)
            yield RULE.at(
                (surface.id,),
                context.span(span, joint.span, surface.span),
                f"The movement joint of {context.name(surface)} is {both(joint.width)} wide: {both(least)} at least.",
                label="too narrow",
                help=f"Write `{typed(least)}` or more.",
                notes=(cited(least),),
                fixes=(Fix(f"write {typed(least)}", (Edit(span, typed(least)),)),) if span is not None else (),
            )


def _least(context: Context, surface: Surface) -> Quantity:
    mosaic = context.practice.find("movement-joint-min-mosaic")
    if mosaic is not None and surface.field is not None and surface.field.tile.mosaic:
        return mosaic
    return context.practice.limit("movement-joint-min-floor" if surface.kind == "floor" else "movement-joint-min-wall")


RULE = Rule(
    "T2708",
    "movement-joint-too-narrow",
    Severity.WARNING,
    "A movement joint too narrow to work",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice UK
tile floor-tile 300x300x9 porcelain; pendulum 40
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  movement joint 1.8 from wall D; width 4
""",
    good="""\
job "Bathroom"
  practice UK
tile floor-tile 300x300x9 porcelain; pendulum 40
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  movement joint 1.8 from wall D; width 6
""",
    limits=("movement-joint-min-floor", "movement-joint-min-wall", "movement-joint-min-mosaic"),
)
