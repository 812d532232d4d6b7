"""Days between what two records are signed for, against the wait between them.

Records say the day and not the hour: only whole days that are missing count, so that what could just be is never told.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from tilespec.checks.recorded import last
from tilespec.checks.rule import Context, both, cited, reckoned, said_at, upper
from tilespec.formula.maturity import in_the_cold
from tilespec.job.types import Product, Record, Surface
from tilespec.quantity import UNITS, Given, Limit, Quantity
from tilespec.sequence.site import cement


@dataclass(frozen=True, slots=True)
class TooEarly:
    """Work signed for before the wait after the work before it was over."""

    first: Record
    later: Record
    wait: Quantity
    ready: date


def days(wait: Quantity) -> int:
    """Whole days of a wait."""
    return int(wait.value // UNITS["d"].factor)


def ready(day: date, wait: Quantity) -> date:
    return day + timedelta(days=days(wait))


def too_early(context: Context, surface: Surface, first: str, later: str, wait: Quantity) -> TooEarly | None:
    """The last of the one kind and the last of the other, where whole days are missing between them."""
    one, other = last(context, first, surface), last(context, later, surface)
    if one is None or other is None or other.on < one.on:
        return None
    at = ready(one.on, wait)
    return TooEarly(one, other, wait, at) if other.on < at else None


def stretched(context: Context, product: Product, wait: Quantity) -> Quantity:
    """Longer in the cold, where the product sets by cement and the spec says how warm the surface is."""
    surface = context.job.conditions.surface
    return in_the_cold(wait, surface, context.practice) if cement(product) and said_at(surface) is not None else wait


def basis(wait: Quantity, product: Product | None) -> str:
    """Where a wait comes from, for a note."""
    if isinstance(wait.why, Limit):
        return cited(wait)
    if isinstance(wait.why, Given) and product is not None:
        return upper(f"{product.kind} {product.name}: {both(wait)}, as its data sheet is written in the spec.")
    return reckoned("Wait", wait)
