"""What a room holds, as far as it decides which steps apply."""

from __future__ import annotations

from tilespec.job.types import Base, Fitting, Job, Penetration, Room, Surface
from tilespec.quantity import Quantity, counted

BOARDS = ("gypsum-plasterboard", "gypsum-fibreboard", "cement-board", "tile-backer-board", "plywood")
SCREEDS = ("cement-screed", "calcium-sulfate-screed")
# Bases that hold moisture which a limit is set for.
DAMP = (*SCREEDS, "concrete")

_PIPED = ("pipe", "valve", "outlet", "shower head", "drain", "channel")
_SANITARY = ("wc", "toilet", "bidet", "urinal", "basin", "vanity", "sink", "washing", "bath", "shower")


def surfaces(room: Room) -> tuple[Surface, ...]:
    """Tiled surfaces of a room: the floor first."""
    return tuple(s for s in room.surfaces if s.coverings)


def walls(room: Room) -> tuple[Surface, ...]:
    return tuple(s for s in room.wall_surfaces if s.coverings)


def runs_over_tiles(room: Room) -> bool:
    """The floor has a fall or a drain: water is let run over it before hand-over."""
    return room.floor is not None and bool(room.fall or room.drains)


def floor(room: Room) -> Surface | None:
    return room.floor if room.floor is not None and room.floor.coverings else None


def penetrations(room: Room) -> tuple[Penetration, ...]:
    return tuple(p for s in room.surfaces for p in s.penetrations)


def plumbing(room: Room) -> Quantity | None:
    """Number of pipes, valves, wastes and appliances of a room; None when there is none."""
    piped = [p for p in penetrations(room) if p.kind in _PIPED]
    fed = {s.letter for s in room.wall_surfaces for p in s.penetrations if p.kind in ("valve", "outlet", "pipe", "shower head")}
    bare = [s for s in room.showers if not fed.intersection(s.walls)]
    sanitary = [f for s in room.surfaces for f in s.fittings if plumbed(f)]
    spans = [
        *(t.span for t in piped), *(t.span for t in bare), *(t.span for t in room.baths), *(t.span for t in room.basins),
        *(t.span for t in sanitary),
    ]
    return counted(len(spans), "pipes, valves, wastes and appliances", *(s for s in spans if s)) if spans else None


def plumbed(fitting: Fitting) -> bool:
    """Something that water runs through, by what it is called: the plumber fits it."""
    words = fitting.label.text.casefold().split() if fitting.label else ()
    return fitting.kind in ("fixture", "fitting") and any(w in _SANITARY for w in words)


def sockets(room: Room) -> Quantity | None:
    found = [p for p in penetrations(room) if p.kind == "socket"]
    return counted(len(found), "electrical outlets", *(p.span for p in found if p.span)) if found else None


def electric_heating(room: Room) -> bool:
    return room.heating is not None and room.heating.kind in ("mat", "cable") and floor(room) is not None


def mat(room: Room) -> bool:
    return electric_heating(room) and room.heating is not None and room.heating.kind == "mat"


def cable(room: Room) -> bool:
    return electric_heating(room) and room.heating is not None and room.heating.kind == "cable"


def heating_pipes(room: Room) -> bool:
    return room.heating is not None and room.heating.kind == "pipes"


def leveller_depth(room: Room) -> Quantity | None:
    return next((q for layer, q in room.levels.build_up if layer.casefold().startswith("level")), None)


def needs_leveller(room: Room) -> bool:
    """The build-up has a levelling layer, or a cable lies in one."""
    return floor(room) is not None and (leveller_depth(room) is not None or cable(room))


def refurbished(job: Job) -> bool:
    """Work on a building that stood before this job, so that old finishes and services are met."""
    if any(s.base.existing for s in job.surfaces):
        return True
    if job.built is None:
        return False
    start = job.begin or job.date
    return start is None or job.built.value < start.year


def old_fabric(job: Job, year: Quantity) -> bool:
    """Old fabric is disturbed, and the building may be older than `year`: unknown age counts as old."""
    return refurbished(job) and (job.built is None or job.built.value < year.value)


def to_be_laid(base: Base, job: Job) -> bool:
    """The base is laid on or after the day the work begins."""
    start = job.begin or job.date
    return base.laid is not None and start is not None and base.laid >= start


def fixed_through_tiles(room: Room) -> tuple[Surface, ...]:
    """Walls with something screwed to the finished tiles that is not the plumber's."""
    return tuple(s for s in room.wall_surfaces if any(f.kind == "fitting" and not plumbed(f) for f in s.fittings))


def mirrors(room: Room) -> tuple[Surface, ...]:
    return tuple(s for s in room.wall_surfaces if any(f.kind == "mirror" for f in s.fittings))


def untiled_places(room: Room) -> Quantity | None:
    found = [u for s in surfaces(room) for u in s.untiled]
    return counted(len(found), "places that stay untiled", *(u.span for u in found if u.span)) if found else None
