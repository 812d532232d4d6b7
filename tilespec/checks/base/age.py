"""How old a base is when the job begins."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

from tilespec.checks.base.moisture import last_readings
from tilespec.checks.rule import Context
from tilespec.formula.drying import drying_time
from tilespec.job.types import Surface
from tilespec.quantity import UNITS, Given, Quantity, work


@dataclass(frozen=True, slots=True)
class Young:
    """A surface whose base has not reached its age when the job begins."""

    surface: Surface
    age: Quantity
    least: Quantity
    ready: date


def age(context: Context, surface: Surface) -> Quantity | None:
    """Days from the day the base was laid to the first day of the job, as far as both are known."""
    begin, base = context.job.begin, surface.base
    if begin is None or base.laid is None:
        return None
    day = UNITS["d"]
    why = Given(context.span(base.span, surface.span))
    first, laid = (Quantity(d.toordinal() * day.factor, day.kind, day, why) for d in (begin, base.laid))
    return work("first_day - laid", "d", source="age of the base when the job begins", first_day=first, laid=laid)


def ready(laid: date, least: Quantity) -> date:
    """The first day on which a base laid on that day has its age."""
    return laid + timedelta(days=ceil(least.value / UNITS["d"].factor))


@dataclass(frozen=True, slots=True)
class Damp:
    """A surface whose base is not reckoned dry when the job begins, and that nobody has measured."""

    surface: Surface
    thickness: Quantity
    age: Quantity
    takes: Quantity
    rate: Quantity
    ready: date


def damp(context: Context) -> Iterator[Damp]:
    """Screeds that are still drying on the first day of the job. A floor whose heating pipes dry it is left out."""
    measured = {found.surface.id for found in last_readings(context) if found.limit is not None}
    for surface in context.job.tiled:
        base, heating = surface.base, context.room(surface).heating
        dried_by_pipes = surface.kind == "floor" and heating is not None and heating.kind == "pipes"
        old = age(context, surface)
        if old is None or base.laid is None or base.thickness is None or dried_by_pipes or surface.id in measured:
            continue
        takes, rate = drying_time(base.kind, base.thickness, context.practice), context.practice.find(f"drying-{base.kind}")
        if takes is not None and rate is not None and old.value < takes.value:
            yield Damp(surface, base.thickness, old, takes, rate, ready(base.laid, takes))


def young(context: Context, kinds: tuple[str, ...], key: str = "") -> Iterator[Young]:
    """Surfaces on one of these bases that are too young on the first day of the job, as far as both dates are known.

    key   the limit to hold them against, where it is not that of the kind of base
    """
    for surface in context.job.tiled:
        base = surface.base
        old, least = age(context, surface), context.practice.find(key or f"age-{base.kind}")
        if old is None or base.laid is None or least is None or base.kind not in kinds:
            continue
        if old.value < least.value:
            yield Young(surface, old, least, ready(base.laid, least))
