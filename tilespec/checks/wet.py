"""What water reaches, for the rules: wet areas of a surface, and the parts of them that no membrane covers."""

from __future__ import annotations

from tilespec.checks.rule import Context
from tilespec.job.types import Rect, Surface, Zone
from tilespec.setout.geometry import Box, bounds, box, cut

# What wets a surface for long or often; a splash area has its own, milder rule.
SOAKED = ("shower", "bath", "wet floor")


def soaked_zones(context: Context, surface: Surface) -> tuple[Zone, ...]:
    """Wet areas that need a membrane. Under a tray or a bath a floor stays dry: they stand on it."""
    zones = tuple(z for z in surface.zones if z.exposure in SOAKED)
    if surface.kind != "floor":
        return zones
    trays = tuple(s.rect for s in context.room(surface).showers if s.tray)
    return tuple(z for z in zones if z.cause != "bath" and z.rect not in trays)


def exposures(zones: tuple[Zone, ...]) -> str:
    """What wets them, in words."""
    return " and ".join(dict.fromkeys("water on the floor" if z.exposure == "wet floor" else f"a {z.exposure}" for z in zones))


def bare_parts(surface: Surface, zone: Zone) -> tuple[Box, ...]:
    """Parts of the zone with neither membrane nor opening, as boxes in metres."""
    if any(a.rect is None for a in surface.membrane_areas):
        return ()
    whole = bounds(surface.outline)
    covered = [box(a.rect) for a in surface.membrane_areas if a.rect is not None] + [box(o.rect) for o in surface.openings]
    frame = box(zone.rect).within(whole) if zone.rect is not None else whole
    return cut(covered, frame, lambda x, y: not any(b.holds(x, y) for b in covered)) if frame.area else ()


def wetted(context: Context, surface: Surface, region: Rect | None) -> bool:
    """Whether a region of the surface (None: all of it) lies at least partly in an area that is soaked."""
    whole = bounds(surface.outline)
    here = box(region) if region is not None else whole
    return any((box(z.rect) if z.rect is not None else whole).meets(here) for z in soaked_zones(context, surface))
