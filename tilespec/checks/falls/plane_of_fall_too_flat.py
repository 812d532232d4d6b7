"""With four planes the nearest edge has the fall that is said, and every other edge, being farther from the drain, a flatter one:
all edges are level and meet the same drain. A plane flatter than the practice allows holds water, whatever the spec says.

Put the drain nearer to the middle, say a steeper fall (the message says which keeps the flattest plane right), or draw the shower
smaller round its drain. Where the drain is given and stays, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import Quantity
from tilespec.setout import falls, geometry
from tilespec.setout.types import Slope


def find(context: Context) -> Iterator[Finding]:
    least, most = context.practice.limit("fall-min"), context.practice.limit("fall-max")
    for room in context.job.rooms:
        g = falls.ground(room)
        if g is None or room.fall is None or room.floor is None or room.fall.slope.value < least.value:
            continue
        planes = falls.report(room, g, ()).planes
        flat = [p for p in planes if p.fall.value < least.value]
        if not flat:
            continue
        worst = min(flat, key=lambda p: p.fall.value)
        if not worst.fall.value:
            # The drain lies on a level edge: four planes have nowhere to fall to.
            shower = next((s for s in room.showers if not s.tray and geometry.box(s.rect) == g.box), None)
            extent = f" of the shower, {both(shower.rect.width)} x {both(shower.rect.height)}" if shower is not None else ""
            yield RULE.at(
                (room.floor.id,),
                context.span(said_at(room.fall.slope), room.fall.span, room.span),
                f"The drain of {context.name(room.floor)} lies on the edge of the fall{extent}, and that edge is level: "
                "nothing falls to it.",
                label=f"no fall, though {both(room.fall.slope)} is said",
                secondary=(Label(shower.span, "the fall reaches as far as this"),)
                if shower is not None and shower.span is not None
                else (),
                help="Write `one plane` where all of it falls to that edge, or put the drain farther in"
                + (", or draw the shower larger round it." if shower is not None else "."),
                notes=(cited(least), "All edges of a fall of four or two planes are level."),
            )
            continue
        wanted = room.fall.slope.value * least.value / worst.fall.value
        # What is said is the fall of the nearest edge; to the next whole run, so that it is enough.
        run = int(1 / wanted)
        can = run > 0 and 1 / most.value <= run
        yield RULE.at(
            (room.floor.id,),
            context.span(said_at(room.fall.slope), room.fall.span, room.span),
            f"Of {context.name(room.floor)} {_listed(flat)} flatter than the practice allows ({both(least)}).",
            label=f"the nearest edge falls {both(room.fall.slope)}",
            help=f"{f'Write `1:{run}`, or' if can else 'No fall that may be said is enough:'}"
            f" {_cure(g, least, bool(room.showers))}.",
            notes=(cited(least), "All edges of a fall are level: what lies farther from the drain falls less steeply."),
        )


def _cure(g: falls.Ground, least: Quantity, shower: bool) -> str:
    """What helps beside a steeper fall: the middle, if from there all planes are steep enough."""
    sides = sorted((g.box.right - g.box.left, g.box.high - g.box.low))
    if g.planes != "four" or g.slope.value * sides[0] / sides[1] >= least.value:
        if shower:
            return "put the drain nearer to the middle, or draw the shower smaller round it"
        return "put the drain nearer to the middle, or say which shower it lies in: then only that falls"
    return "lay it in one plane to a channel (`one plane; channel along wall A`), or give it two drains and say so in a deviation"


def _listed(flat: list[Slope]) -> str:
    parts = [f"from the {p.side} 1:{round(1 / p.fall.value)}" for p in flat]
    verb = "the plane {} is" if len(parts) == 1 else "the planes {} are"
    return verb.format(" and ".join((", ".join(parts[:-1]), parts[-1])) if len(parts) > 2 else " and ".join(parts))


RULE = Rule(
    "T2006",
    "plane-of-fall-too-flat",
    Severity.WARNING,
    "A plane of a fall that is too flat",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 0.6 from wall D, 0.6 from wall A
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    limits=("fall-min", "fall-max"),
)
