"""A level shower holds no water back: what its head gives and its drain does not take runs over the floor, and to the door.
The two flows stand on the data sheets of the shower and of the drain; a large head, or several outlets at once, easily give
more than a flat trap takes away (common practice: arithmetic on the two data sheets).

Take a drain or channel of a higher flow, add a second one, or take a head that gives less. A partly blocked grate takes less
than its data sheet says, so leave some room.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import Quantity, work


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        # A tray has a waste of its own. A drain whose flow is not said may take anything.
        flows = [s.flow for s in room.showers if not s.tray and s.flow is not None]
        taken = [d.flow for d in room.drains if d.flow is not None]
        if room.floor is None or not flows or not taken or len(taken) < len(room.drains):
            continue
        given, away = _together(flows), _together(taken)
        if away.value >= given.value:
            continue
        several = len(taken) > 1
        yield RULE.at(
            (room.floor.id,),
            context.span(said_at(taken[0]), room.drains[0].span, room.floor.span),
            f"The {'drains' if several else room.drains[0].kind} of {context.name(room.floor)} {'take' if several else 'takes'} "
            f"away {both(away)}, and the shower gives {both(given)}: the rest runs over the floor.",
            label="takes away too little",
            secondary=tuple(Label(at, "this is what the shower gives") for q in flows if (at := said_at(q)) is not None),
            help=f"Take a drain of {both(given)} or more, add a second one, or take a shower head that gives less.",
            notes=("Both flows are those of the data sheets; a grate with hair in it takes less.",),
        )


def _together(flows: list[Quantity]) -> Quantity:
    total = flows[0]
    for more in flows[1:]:
        total = work("flow + more", "L/min", source="flows that run at once", flow=total, more=more)
    return total


RULE = Rule(
    "T2042",
    "drain-too-small",
    Severity.ERROR,
    "A drain that takes away less than the shower gives",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A; flow 24 L/min
shower in corner D A, 0.9 x 0.9; head at height 2.1; flow 30 L/min
wall A 2.4 x 2.4
  base cement render
  tile floor-tile; joint 3
wall D
  base cement render
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A; flow 36 L/min
shower in corner D A, 0.9 x 0.9; head at height 2.1; flow 30 L/min
wall A 2.4 x 2.4
  base cement render
  tile floor-tile; joint 3
wall D
  base cement render
  tile floor-tile; joint 3
""",
)
