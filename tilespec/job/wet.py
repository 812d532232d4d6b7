"""What gets wet, and how far the membrane reaches. Limits come from the practice; each area keeps the one that set it."""

from __future__ import annotations

from dataclasses import replace

from tilespec.job.context import Context
from tilespec.job.plan import Plan, stretch_on, touches
from tilespec.job.types import Basin, Bath, MembraneArea, Rect, Shower, Surface, WallLine, Zone
from tilespec.quantity import Quantity, work

SOURCE = "reach of the wet area on the wall"

Stretch = tuple[Quantity, Quantity]  # left and right end on a wall, from its left


def _strip(left: Quantity, right: Quantity, bottom: Quantity, top: Quantity) -> Rect:
    width = work("right - left", "m", source=SOURCE, right=right, left=left)
    height = work("top - bottom", "m", source=SOURCE, top=top, bottom=bottom)
    return Rect(left, bottom, width, height)


def _reach(wall: Surface, stretch: Stretch, aside: Quantity) -> Stretch:
    """The stretch of the wall widened on both sides and kept on the wall."""
    left, right = stretch
    zero = work("left - left", "m", source=SOURCE, left=left)
    a = work("max(zero, left - beside)", "m", source=SOURCE, zero=zero, left=left, beside=aside)
    b = work("min(wall, right + beside)", "m", source=SOURCE, wall=wall.width, right=right, beside=aside)
    return a, b


def _inner(stretch: Stretch, zero: Quantity, high: Quantity) -> Rect:
    left, right = stretch
    return Rect(left, zero, work("right - left", "m", source=SOURCE, right=right, left=left), high)


def wet_wall(
    wall: Surface,
    line: WallLine,
    showers: tuple[Shower, ...],
    baths: tuple[Bath, ...],
    basins: tuple[Basin, ...],
    floor_wet: bool,
    context: Context,
) -> Surface:
    """The wall with its zones and membrane areas."""
    limit = context.practice.limit
    zones: list[Zone] = list(wall.zones)
    areas: list[MembraneArea] = []
    top = wall.height
    zero = work("wall - wall", "m", source=SOURCE, wall=wall.width)
    for shower in showers:
        stretch = stretch_on(line, shower.rect)
        if stretch is None:
            continue
        above = limit("membrane-above-shower-head")
        least = limit("membrane-shower-height-min")
        high = work(
            "min(wall_height, max(head + above_the_head, least_height))",
            "m",
            source="height of the membrane in a shower",
            wall_height=top,
            head=shower.head_height,
            above_the_head=above,
            least_height=least,
        )
        beside = limit("membrane-beside-shower")
        left, right = _reach(wall, stretch, beside)
        inner = _inner(stretch, zero, high)
        zones.append(Zone("shower", inner, "shower", shower.span))
        areas.append(MembraneArea(_strip(left, right, zero, high), "shower", above))
    for bath in baths:
        stretch = stretch_on(line, bath.rect)
        if stretch is None:
            continue
        above = limit("membrane-above-vessel")
        if bath.head_height is not None:
            above = limit("membrane-above-shower-head")
            high = work(
                "min(wall_height, max(head + above_the_head, least_height))",
                "m",
                source="height of the membrane at a bath with a shower",
                wall_height=top,
                head=bath.head_height,
                above_the_head=above,
                least_height=limit("membrane-shower-height-min"),
            )
        else:
            high = work(
                "min(wall_height, rim + above_the_rim)",
                "m",
                source="height of the membrane at a bath",
                wall_height=top,
                rim=bath.rim,
                above_the_rim=above,
            )
        left, right = _reach(wall, stretch, limit("membrane-beside-shower"))
        inner = _inner(stretch, zero, high)
        zones.append(Zone("bath", inner, "bath", bath.span))
        areas.append(MembraneArea(_strip(left, right, zero, high), "bath", above))
    for basin in basins:
        if basin.wall != wall.letter:
            continue
        beside, below, above = limit("splash-beside"), limit("splash-below-rim"), limit("splash-above-rim")
        a = work("max(zero, from_left - beside)", "m", source=SOURCE, zero=zero, from_left=basin.x, beside=beside)
        b = work(
            "min(wall, from_left + basin + beside)",
            "m",
            source=SOURCE,
            wall=wall.width,
            from_left=basin.x,
            basin=basin.width,
            beside=beside,
        )
        low = work("max(zero, rim - below)", "m", source=SOURCE, zero=zero, rim=basin.rim, below=below)
        high = work("min(wall_height, rim + above)", "m", source=SOURCE, wall_height=top, rim=basin.rim, above=above)
        r = _strip(a, b, low, high)
        zones.append(Zone("splash", r, "basin", basin.span))
        areas.append(MembraneArea(r, "splash", above))
    for zone in wall.zones:
        areas.append(MembraneArea(zone.rect, "said", None))
    if floor_wet:
        rise = limit("membrane-upstand")
        high = work("min(wall_height, upstand)", "m", source="membrane turned up the wall", wall_height=top, upstand=rise)
        areas.append(MembraneArea(Rect(zero, zero, wall.width, high), "upstand", rise))
    if wall.refusal("membrane") is not None:
        areas = []
    return replace(wall, zones=tuple(zones), membrane_areas=tuple(areas))


def wet_floor(floor: Surface, showers: tuple[Shower, ...], baths: tuple[Bath, ...], wet: bool) -> Surface:
    """The floor with its zones; a wet floor takes the membrane all over, up to the bath or tray that stands on it."""
    zones = list(floor.zones)
    for shower in showers:
        zones.append(Zone("shower", shower.rect, "shower", shower.span))
    for bath in baths:
        zones.append(Zone("wet floor", bath.rect, "bath", bath.span))
    if wet and not zones:
        zones.append(Zone("wet floor", None, "wet walls or a drain", floor.span))
    areas = (MembraneArea(None, "floor", None),) if wet and floor.refusal("membrane") is None else ()
    return replace(floor, zones=tuple(zones), membrane_areas=areas)


def left_out(plan: Plan, shower: Shower, stated: tuple[str, ...]) -> tuple[str, ...]:
    """Walls that the shower stands against but that nobody described."""
    return tuple(w.letter for w in plan.walls if touches(w, shower.rect) and w.letter not in stated)
