"""What the records of a job say, surface by surface."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.rule import Context
from tilespec.job.records import before
from tilespec.job.types import Record, Surface
from tilespec.quantity import Quantity
from tilespec.sequence.site import failing

# What is only looked at or measured: by itself it shows no work that went on.
LOOKED_AT = (
    "asbestos", "lead", "heating-cycle", "substrate-moisture", "substrate-flatness", "substrate-strength", "membrane-thickness",
    "ponding", "contact", "lippage", "finished-plane",
)
# Readings that are taken for a signature of another kind, and stand where it stands in the order of the work.
TAKEN_FOR = {
    "substrate-flatness": "substrate", "substrate-strength": "substrate", "membrane-thickness": "membrane",
    "lippage": "tiling", "finished-plane": "tiling",
}
# Work of the tiler, that begins with the job.
TILING = (
    "primer", "first-coat", "second-coat", "membrane", "ponding", "membrane-thickness", "tiling", "contact", "lippage",
    "finished-plane", "grouting", "sealing",
)
# What a signature shows that was done to a surface. The dates of coats are kept for their waits: they are no signatures.
DONE = {"tiling": "tiled", "grouting": "grouted", "sealing": "sealed", "final": "finished", "first-use": "in use"}


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading that stands for a surface."""

    surface: Surface
    record: Record
    value: Quantity


def about(record: Record, surface: Surface) -> bool:
    """A room's record is about each of its surfaces."""
    return record.place in (surface.id, surface.room)


def goes_on(first: str, later: str) -> bool:
    """Whether a record of the second kind shows work that goes on over what the first kind is signed for."""
    return later not in LOOKED_AT and before(TAKEN_FOR.get(first, first), later)


def place(context: Context, record: Record) -> str:
    """What a record is about, in words."""
    surface = next((s for s in context.job.surfaces if s.id == record.place), None)
    if surface is not None:
        return context.name(surface)
    room = next(r for r in context.job.rooms if r.name == record.place)
    if len(room.surfaces) == 1:
        return context.name(room.surfaces[0])
    return room.name if room.words is not None else "the room"


def spelled(context: Context, record: Record) -> str:
    """Where a record is, as another one of the same place writes it: " on wall A"."""
    surface = next((s for s in context.job.surfaces if s.id == record.place), None)
    room = f'"{record.place if surface is None else surface.room}"' if len(context.job.rooms) > 1 else ""
    on = "" if surface is None else "floor" if surface.kind == "floor" else f"wall {surface.letter}"
    return f" on {room} {on}".rstrip().replace("  ", " ") if room or on else ""


def last(context: Context, kind: str, surface: Surface) -> Record | None:
    """The newest record of a kind about a surface that did not fail."""
    own = [r for r in context.job.records if r.kind.text == kind and about(r, surface) and not failing(r)]
    return max(own, key=lambda r: r.on, default=None)


def standing(context: Context, kind: str) -> Iterator[Reading]:
    """Readings that no later one of their surface replaces: with several straightedges, the last of each.

    A record that says `fail` is no mistake, as it holds the work; what goes on in spite of it is a rule of its own.
    """
    for surface in context.job.tiled:
        own = [r for r in context.job.records if r.kind.text == kind and r.reading is not None and about(r, surface)]
        for record in own:
            if record.reading is None or failing(record) or any(o.on > record.on and o.over == record.over for o in own):
                continue
            yield Reading(surface, record, record.reading)
