"""A joint has to take what its bays grow: their length times the expansion of screed or tile (10 to 12 and 4 to 8 millionths a
kelvin; ISO 10545-8 for tile) times how much warmer they become. A sealant of class 25 moves by a quarter of its width
(ISO 11600), so the joint is four times as wide as the movement: an 8 m bay that warms by 20 K wants 7.7 mm.

Make the joint wider, put more joints into the floor, or take a sealant of a higher class. The warmth reckoned with is a
planning value; a designer who knows the floor's own may say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import bays, between, heated, moves, over, share, stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Severity
from tilespec.formula.movement import least_width
from tilespec.job.types import Surface
from tilespec.quantity import Quantity
from tilespec.source import Span


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        if surface.kind != "floor" or not (heated(context, surface) or surface.sunlit):
            continue
        for joint in surface.movement_joints:
            length = between(surface, joint)
            # Over a joint of the base its own width counts, and its movement is the designer's.
            if length is None or any(over(surface, below) == joint for below in surface.base_joints):
                continue
            least = context.practice.limit("movement-joint-min-floor")
            yield from _judged(context, surface, joint.width, length, least, "movement joint of", joint.span)
        edge, sides = surface.perimeter_joint, [q for b in bays(surface) for q in b.sides]
        longest = max(sides, key=lambda q: q.value, default=None)
        if edge is not None and longest is not None:
            half = Quantity(longest.value / 2, longest.kind, longest.shown, longest.why)
            yield from _judged(context, surface, edge, half, _edge(context, surface), "joint round", None)


def _edge(context: Context, surface: Surface) -> Quantity:
    return context.practice.limit("perimeter-joint-heated" if heated(context, surface) else "perimeter-joint-floor")


def _judged(
    context: Context, surface: Surface, width: Quantity, length: Quantity, least: Quantity, what: str, where: Span | None
) -> Iterator[Finding]:
    """Nothing for a joint that is too narrow by the practice's own figure: that is told already."""
    if not stated(width) or width.value < least.value:
        return
    moved, part = moves(context, surface, length), share(context, surface)
    needed = least_width(moved, part)
    if width.value >= needed.value:
        return
    step = context.practice.limit("movement-warmth")
    yield RULE.at(
        (surface.id,),
        context.span(said_at(width), where, surface.span),
        f"The {what} {context.name(surface)} is {both(width)} wide and takes up {both(moved)}: with a sealant that moves by "
        f"{both(part)} of its width it needs {both(needed)}.",
        label="too narrow for what moves",
        help=f"Write `{_up(needed)} mm` or more, or divide the floor once more.",
        notes=(reckoned("Movement", moved), reckoned("Width", needed), cited(step)),
    )


def _up(width: Quantity) -> int:
    """To the next whole millimetre."""
    return -int(-width.mm // 1)


RULE = Rule(
    "T2711",
    "joint-too-narrow-for-its-movement",
    Severity.WARNING,
    "A joint narrower than the movement it takes",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Pool house"
  practice UK
tile floor-tile 600x600x9 porcelain; pendulum 40
floor 15 x 2.4 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 3
  movement joint 7.5 from wall D; width 6
""",
    good="""\
job "Pool house"
  practice UK
tile floor-tile 600x600x9 porcelain; pendulum 40
floor 15 x 2.4 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 3
  movement joint 7.5 from wall D; width 8
""",
    limits=(
        "movement-warmth", "screed-expansion", "tile-expansion", "sealant-movement", "movement-joint-min-floor",
        "perimeter-joint-heated", "perimeter-joint-floor",
    ),
)
