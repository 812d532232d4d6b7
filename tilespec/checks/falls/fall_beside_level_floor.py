"""A fall in one plane (or two) stays level only at the edge that it falls from. Where a side of it lies in the middle of the
floor, the level floor beside it ends in a step that grows towards the drain: nobody sees it in the spec, and a foot finds it.

Let the fall reach from wall to wall, or take four planes, which keep every edge level; or close the side with a screen on a trim
and say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited, local, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity import UNITS, Quantity
from tilespec.setout import falls
from tilespec.setout.falls import Ground


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        g = falls.ground(room)
        if g is None or room.fall is None or room.floor is None or g.planes == "four":
            continue
        step = max((_step(g, line) for line in g.free), default=Fraction(0))
        allowed = context.practice.limit("lippage-max")
        if step <= allowed.value:
            continue
        mm = UNITS["mm"]
        deep = Quantity(round(step * 1000) * mm.factor, mm.kind, mm, room.fall.slope.why)
        yield RULE.at(
            (room.floor.id,),
            context.span(said_at(room.fall.slope), room.fall.span, room.span),
            f"The fall in {g.planes} {'plane' if g.planes == 'one' else 'planes'} ends beside the level part of "
            f"{context.name(room.floor)} in a step of up to {local(context, deep)}.",
            label="the side of the fall lies in the middle of the floor",
            help="Let it reach from wall to wall, or write `four planes`, which keep every edge level.",
            notes=(cited(allowed),),
        )


def _step(g: Ground, line: tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]) -> Fraction:
    """How far the falling floor lies under the level one along an edge, at most."""
    return max(-g.height(x, y) for x, y in line)


RULE = Rule(
    "T2008",
    "fall-beside-level-floor",
    Severity.WARNING,
    "A step between a fall and the level floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 one plane; channel along wall A, 0.8 long, 0.05 from wall A, 0.05 from wall D
shower in corner D A, 0.9 x 0.9; head at height 2.1; valve on wall A 0.45 from left, 1.1 up
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 one plane; channel along wall A, 0.8 long, 0.05 from wall A, 0.05 from wall D
""",
    limits=("lippage-max",),
)
