"""Dated records for the rules: what was signed or read of a surface, and how much time lies between two days.

A record names a day and no hour: between two of them lies a day less than the dates say at the least, a day more at the most.
"""

from __future__ import annotations

from datetime import date

from tilespec.checks.rule import Context
from tilespec.job.types import Record, Room, Surface
from tilespec.quantity import Quantity

DAY = 24 * 3600


def about(context: Context, record: Record) -> tuple[Surface, ...]:
    """The tiled surfaces that a record speaks of: one, or all of its room."""
    return tuple(s for s in context.job.tiled if record.place in (s.id, s.room))


def places(context: Context, record: Record) -> tuple[str, ...]:
    return tuple(s.id for s in about(context, record)) or (record.place,)


def of(context: Context, surface: Surface, *kinds: str) -> tuple[Record, ...]:
    """The records of these kinds that are about a surface, in the order of their days."""
    found = [r for r in context.job.records if r.kind.text in kinds and r.place in (surface.id, surface.room)]
    return tuple(sorted(found, key=lambda r: r.on))


def last_before(context: Context, surface: Surface, day: date, *kinds: str) -> Record | None:
    """The last of these records up to a day: work that is done again is signed again."""
    found = [r for r in of(context, surface, *kinds) if r.on <= day]
    return found[-1] if found else None


def surely_longer(first: date, later: date, most: Quantity) -> bool:
    """More time has passed than this, whatever the hours were."""
    return ((later - first).days - 1) * DAY >= most.value


def surely_shorter(first: date, later: date, least: Quantity) -> bool:
    """Less time has passed than this, whatever the hours were."""
    return ((later - first).days + 1) * DAY <= least.value


def working_day(context: Context) -> int:
    """Seconds from the start of the job's working day to its end: more time than that cannot lie between two works of one day."""
    start, end = context.job.hours.start, context.job.hours.end
    return (end.hour - start.hour) * 3600 + (end.minute - start.minute) * 60


def ponding(context: Context) -> tuple[tuple[Record, Room, Surface], ...]:
    """The last ponding test of every floor: one that failed is repeated. What is recorded as failed needs no rule to say so."""
    found: list[tuple[Record, Room, Surface]] = []
    for room in context.job.rooms:
        if room.floor is not None and (tests := of(context, room.floor, "ponding")) and tests[-1].result != "fail":
            found.append((tests[-1], room, room.floor))
    return tuple(found)
