"""What the records of a job say, surface by surface."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.rule import Context
from tilespec.job.types import Record, Surface
from tilespec.quantity import Quantity
from tilespec.sequence.site import failing


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading that stands for a surface."""

    surface: Surface
    record: Record
    value: Quantity


def about(record: Record, surface: Surface) -> bool:
    """A room's record is about each of its surfaces."""
    return record.place in (surface.id, surface.room)


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
