"""A shower without a screen throws water past its tray. The ABCB Housing Provisions (10.2.18) put the waterstop of an unenclosed
shower 1500 mm from the rose; other families borrow the figure as common practice. A floor within that reach and without a
membrane lets the water into the building.

Take `membrane none` out of the floor, or say `screen` at the shower if it has one. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule, both, cited
from tilespec.checks.wet import soaked_zones
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Room, Shower, Surface
from tilespec.setout.geometry import box, polygon_area


def find(context: Context) -> Iterator[Finding]:
    reach = context.practice.limit("open-shower-reach")
    for room in context.job.rooms:
        floor, shower = room.floor, open_tray(room)
        if floor is None or shower is None or not bare(context, floor):
            continue
        yield RULE.at(
            (floor.id,),
            context.span(floor.refusal("membrane"), floor.span),
            f"The shower has no screen and throws water as far as {both(reach)} from its head, and {context.name(floor)} has no "
            "membrane beside the tray.",
            label="within its spray",
            secondary=(Label(shower.span, "an open shower"),) if shower.span is not None else (),
            help="Take `membrane none` out, or write `screen` at the shower if it has one.",
            notes=(cited(reach),),
        )


def bare(context: Context, floor: Surface) -> bool:
    """A tiled floor whose membrane was refused; what a wet area or a drain wets is told as that."""
    return bool(floor.coverings) and floor.refusal("membrane") is not None and not soaked_zones(context, floor)


def open_tray(room: Room) -> Shower | None:
    """A shower with a tray and no screen that leaves some of the floor beside it."""
    if room.floor is None:
        return None
    whole = polygon_area(room.floor.outline)
    return next((s for s in room.showers if s.tray and not s.screen and box(s.rect).area < whole), None)


RULE = Rule(
    "T2012",
    "open-shower-reach-short",
    Severity.WARNING,
    "A bare floor within the spray of an open shower",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
tile plain-tile 300x300x9 porcelain; barefoot class B
floor 2.4 x 2.4
  base concrete
  tile plain-tile; joint 3
  membrane none
shower in corner D A, 0.9 x 0.9; tray; head at 2.0
wall A 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
wall D 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
""",
    good="""\
tile plain-tile 300x300x9 porcelain; barefoot class B
floor 2.4 x 2.4
  base concrete
  tile plain-tile; joint 3
  membrane none
shower in corner D A, 0.9 x 0.9; tray; screen; head at 2.0
wall A 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
wall D 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
""",
    limits=("open-shower-reach",),
)
