"""Around a bath or a shower no socket outlet may stand where a wet hand or a dropped lead reaches it: above the bath or tray
to 2.25 m (zone 1) and 0.6 m beyond (zone 2); without a tray, within 1.2 m of the fixed outlet (IEC 60364-7-701, as the
electrical trade's press draws it). Distances here are straight lines, without the detour round a fixed screen.

Move the socket out of the zones. Which equipment may stand in which zone is for a licensed electrician and the local code,
which in places keeps sockets much farther off. People are killed by it: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Penetration, Point, Rect, Room, Shower, Surface
from tilespec.quantity import Given, Quantity
from tilespec.setout import geometry
from tilespec.setout.standing import wall_line
from tilespec.source import Span


@dataclass(frozen=True, slots=True)
class Zone:
    """What must stay free of sockets: around a rectangle or outlets of the plan, so far and so high."""

    what: str
    within: str
    boxes: tuple[geometry.Box, ...]
    reach: Quantity
    top: Fraction
    span: Span | None


def find(context: Context) -> Iterator[Finding]:
    height = context.practice.limit("zone-1-height")
    for room in context.job.rooms:
        zones = tuple(_zones(context, room))
        for surface in room.wall_surfaces:
            for hole in surface.penetrations:
                spot = _spot(room, surface, hole)
                if hole.kind != "socket" or spot is None:
                    continue
                zone = next((z for z in zones if hole.y.value < z.top and _inside(z, spot, hole)), None)
                if zone is None:
                    continue
                yield RULE.at(
                    (surface.id,),
                    context.span(hole.span, surface.span),
                    f"The socket on {context.name(surface)} stands {zone.within}: no socket may be there below "
                    f"{both(height)}.",
                    label=f"too near to the {zone.what}",
                    secondary=(Label(zone.span, f"this {zone.what}"),) if zone.span is not None else (),
                    help=f"Move it {both(zone.reach)} away or more, where the electrician and the local code let it stand.",
                    notes=(cited(zone.reach), cited(height)),
                )


def _zones(context: Context, room: Room) -> Iterator[Zone]:
    height = context.practice.limit("zone-1-height")
    beyond, around = context.practice.limit("zone-2-reach"), context.practice.limit("zone-1-reach")

    def top(head: Quantity | None) -> Fraction:
        """An outlet that is known to be higher takes the zone with it."""
        return max(height.value, head.value) if head is not None and isinstance(head.why, Given) else height.value

    def boxed(rect: Rect) -> tuple[geometry.Box, ...]:
        return (geometry.box(rect),)

    for bath in room.baths:
        within = f"within {both(beyond)} of the bath"
        yield Zone("bath", within, boxed(bath.rect), beyond, top(bath.head_height), bath.span)
    for shower in room.showers:
        if shower.tray:
            within = f"within {both(beyond)} of the shower tray"
            yield Zone("shower", within, boxed(shower.rect), beyond, top(shower.head_height), shower.span)
            continue
        outlets = _outlets(room, shower)
        if outlets:
            within = f"within {both(around)} of the outlet of the shower"
            yield Zone("shower", within, outlets, around, top(shower.head_height), shower.span)
        # Where its outlet is, is not always said: in the shower itself at least.
        yield Zone("shower", "in the shower", boxed(shower.rect), around, top(shower.head_height), shower.span)


def _outlets(room: Room, shower: Shower) -> tuple[geometry.Box, ...]:
    """Where the head or the hose of a level shower leaves the wall: its outlets, or else its valves."""
    inside = geometry.box(shower.rect)
    found: dict[str, list[geometry.Box]] = {"outlet": [], "valve": []}
    for surface in room.wall_surfaces:
        for hole in surface.penetrations:
            spot = _spot(room, surface, hole)
            if hole.kind in found and spot is not None and inside.holds(*spot):
                found[hole.kind].append(geometry.Box(spot[0], spot[1], spot[0], spot[1]))
    return tuple(found["outlet"] or found["valve"])


def _spot(room: Room, surface: Surface, hole: Penetration) -> Point | None:
    """Where a hole in a wall is on the plan."""
    line = wall_line(room, surface.letter)
    if line is None or not line.length.value:
        return None
    share = hole.x.value / line.length.value
    (ax, ay), (bx, by) = line.start, line.end
    return ax + (bx - ax) * share, ay + (by - ay) * share


def _inside(zone: Zone, spot: Point, hole: Penetration) -> bool:
    """Its nearest edge counts. In a shower of which only the place is known, it must stand in front of the wall there."""
    reach = zone.reach.value if zone.within != "in the shower" else Fraction(0)
    reach += hole.diameter.value / 2 if hole.diameter is not None else 0
    for b in zone.boxes:
        dx = max(b.left - spot[0], Fraction(0), spot[0] - b.right)
        dy = max(b.low - spot[1], Fraction(0), spot[1] - b.high)
        if dx == dy == 0 or dx * dx + dy * dy < reach * reach:
            return True
    return False


RULE = Rule(
    "T2621",
    "socket-in-zone",
    Severity.ERROR,
    "A socket too near to a bath or a shower",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile wall-tile; joint 3
bath along wall A, 1.7 x 0.75, 0 from left; rim 0.56
wall A
  base cement render
  tile wall-tile; joint 3
  socket 2.1 from left, 1.1 up; diameter 68
wall D
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile wall-tile; joint 3
bath along wall A, 1.7 x 0.75, 0 from left; rim 0.56
wall A
  base cement render
  tile wall-tile; joint 3
  socket 2.35 from left, 1.1 up; diameter 68
wall D
  base cement render
  tile wall-tile; joint 3
""",
    limits=("zone-1-height", "zone-1-reach", "zone-2-reach"),
)
