"""At a movement joint the two halves of a floor move against each other, and a heating element that lies across it is pulled
to and fro until it breaks (common practice, from memory: makers ask that mats and cables are kept clear of it). A mat larger
than any bay between the joints cannot help lying across one.

Choose one mat for each bay, each with its own cold tail to the connection, or a loose cable laid by the electrician; or move
the joint.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from tilespec.checks.heating.readings import electric
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Surface
from tilespec.quantity import UNITS, Kind, Quantity, Worked
from tilespec.setout import geometry


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("heating-at-movement-joint")
    for m in context.takeoff.heating if context.takeoff is not None else ():
        room = next(r for r in context.job.rooms if r.name == m.room)
        heating, floor = electric(room), room.floor
        if heating is None or floor is None or heating.kind != "mat" or heating.product.generic:
            continue
        joints, pack = (*floor.movement_joints, *floor.base_joints), heating.product.pack
        if not joints or pack is None or pack.kind is not Kind.AREA:
            continue
        bay = _largest_bay(floor)
        # One that does not fit on the whole floor is told as that.
        if not bay.value < pack.value <= m.free_area.value:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(joints[0].span, floor.span),
            f"The largest bay of {context.name(floor)} between its movement joints is {both(bay)}, and heating "
            f"{heating.product.name} covers {both(pack)}: it lies across a joint.",
            label="the mat lies across it",
            secondary=tuple(Label(at, "one mat") for at in (said_at(pack),) if at is not None),
            help=f"Choose a mat for each bay, of less than {both(bay)}, or let the electrician lay a cable bay by bay.",
            notes=(cited(asked),),
        )


def _largest_bay(floor: Surface) -> Quantity:
    """Of the floor cut at its joints."""
    whole = geometry.bounds(floor.outline)
    joints = (*floor.movement_joints, *floor.base_joints)
    xs = sorted({whole.left, whole.right, *(j.x.value for j in joints if j.x is not None)})
    ys = sorted({whole.low, whole.high, *(j.y.value for j in joints if j.y is not None)})
    boxes = [geometry.Box(a, c, b, d) for a, b in pairwise(xs) for c, d in pairwise(ys)]
    largest = max((geometry.polygon_area(geometry.clip(floor.outline, b)) for b in boxes), default=Fraction(0))
    sides = (("width", floor.width), ("depth", floor.height))
    return Quantity(largest, Kind.AREA, UNITS["m2"], Worked("the floor cut at its joints", sides, "plane geometry"))


RULE = Rule(
    "T2625",
    "mat-across-movement-joint",
    Severity.WARNING,
    "A heating mat that lies across a movement joint",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; pack 3 m2; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
  movement joint 1.2 from wall D; width 10
""",
    good="""\
heating warm-mat mat screened; pack 1.5 m2; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
  movement joint 1.2 from wall D; width 10
""",
    limits=("heating-at-movement-joint",),
)
