"""Heat drives the water out of a young bed before the cement has bound it: the adhesive turns to powder and joints crack.
Electric heating stays off for 5 days at least after levelling and tiling (UK trade press); 14 days are usual with deformable
or fast adhesive and 28 with others (UK trade notes; both are published). The adhesive's own time wins.

Wait, then warm the floor up by 5 K a day. Where the adhesive's maker allows it sooner in writing, say so at the product
(`wait 7 d before heating`).
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from math import ceil

from tilespec.checks.heating.readings import electric, of_floor
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product, Room
from tilespec.quantity import Given, Quantity
from tilespec.sequence.site import adhesive_class, fast

DAY = 86400


def find(context: Context) -> Iterator[Finding]:
    step = context.practice.limit("heating-step")
    for room in context.job.rooms:
        floor, least = room.floor, _least(context, room)
        if room.heating is None or floor is None or least is None:
            continue
        started, tiled = of_floor(context, room, "heating-start"), of_floor(context, room, "tiling")
        if not started or not tiled:
            continue
        first, last = started[0], tiled[-1]
        ready = last.on + timedelta(days=ceil(least.value / DAY))
        if first.on >= ready:
            continue
        since = (first.on - last.on).days
        yield RULE.at(
            (floor.id,),
            context.span(first.span),
            f"The heating of {context.name(floor)} was started {since} {'day' if since == 1 else 'days'} after tiling; "
            f"{both(least)} is the least.",
            label="too early for the bed",
            secondary=(Label(last.span, "tiled here"),) if last.span is not None else (),
            help=f"Switch it off until {ready.isoformat()}, then raise it by {both(step)} a day.",
            notes=("The adhesive's own time.",) if isinstance(least.why, Given) else (cited(least),),
        )


def _least(context: Context, room: Room) -> Quantity | None:
    """The longest wait that the floor's adhesives and its kind of heating ask for."""
    if room.floor is None:
        return None
    times = [context.practice.limit("heating-after-tiling-electric")] if electric(room) is not None else []
    times += [t for p in room.floor.products if p.kind == "adhesive" and (t := _of(context, p)) is not None]
    return max(times, key=lambda q: q.value, default=None)


def _of(context: Context, adhesive: Product) -> Quantity | None:
    if adhesive.generic:
        return None
    said = adhesive.wait("heating")
    if said is not None:
        return said.minimum
    quick = bool(adhesive_class(adhesive)[2]) or fast(adhesive)
    return context.practice.limit("heating-after-tiling" if quick else "heating-after-tiling-normal")


RULE = Rule(
    "T2614",
    "heating-started-too-early",
    Severity.WARNING,
    "Heating that was started too soon after tiling",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-pipes pipes; output 80 W/m2
adhesive own class C2TE S1; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-pipes
  tile floor-tile; joint 3
record substrate on floor 2026-03-09 by "A. Finch"
record tiling on floor 2026-03-12 by "J. Rook"
record heating-start on floor 2026-03-20 by "P. Wire"
""",
    good="""\
heating warm-pipes pipes; output 80 W/m2
adhesive own class C2TE S1; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-pipes
  tile floor-tile; joint 3
record substrate on floor 2026-03-09 by "A. Finch"
record tiling on floor 2026-03-12 by "J. Rook"
record heating-start on floor 2026-03-26 by "P. Wire"
""",
    limits=("heating-after-tiling", "heating-after-tiling-normal", "heating-after-tiling-electric", "heating-step"),
)
