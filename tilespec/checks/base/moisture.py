"""Moisture readings of a base and the limit they are judged by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.rule import Context
from tilespec.job.types import Record, Surface
from tilespec.quantity import Kind, Quantity


@dataclass(frozen=True, slots=True)
class Judged:
    """The last reading of a surface. `limit` is None where the practice holds none for this method on this base."""

    surface: Surface
    record: Record
    reading: Quantity
    limit: Quantity | None


def last_readings(context: Context) -> Iterator[Judged]:
    """One for each surface with a moisture reading: a later one replaces an earlier one. A room's reading is its floor's."""
    for room in context.job.rooms:
        for surface in room.surfaces:
            places = (surface.id, room.name) if surface.kind == "floor" else (surface.id,)
            moist = [r for r in context.job.records if r.kind.text == "substrate-moisture" and r.reading is not None]
            records = [r for r in moist if r.place in places]
            if not records:
                continue
            last = max(records, key=lambda r: r.on)
            if last.reading is not None:
                heated = surface.kind == "floor" and room.heating is not None
                yield Judged(surface, last, last.reading, _limit(context, surface, last.reading, heated))


def _limit(context: Context, surface: Surface, reading: Quantity, heated: bool) -> Quantity | None:
    kind = surface.base.kind
    if reading.kind is Kind.MOISTURE:
        keys = [f"cm-limit-{kind}-heated"] if heated else []
        keys.append(f"cm-limit-{kind}")
    elif reading.kind is Kind.HUMIDITY:
        keys = [f"rh-limit-{kind}", "rh-limit"]
    else:
        keys = []
    return next((q for q in map(context.practice.find, keys) if q is not None), None)
