"""What was measured on site, and which end of a range it breaks."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import Context
from tilespec.job.types import Product
from tilespec.quantity import Quantity

# Products that set or dry where they are spread.
SETTING = ("adhesive", "grout", "primer", "membrane", "sealant", "leveller", "impregnator", "sealer", "mirror-adhesive")


def measured(context: Context) -> tuple[tuple[str, Quantity], ...]:
    """Air and base, in words."""
    return (("air", context.job.conditions.air), ("base", context.job.conditions.surface))


def broken(q: Quantity, low: Quantity, high: Quantity) -> Quantity | None:
    """The end of the range that the quantity lies beyond."""
    return low if q.value < low.value else high if q.value > high.value else None


def window(context: Context) -> tuple[Quantity, Quantity]:
    """Between these the trade works at all."""
    return context.practice.limit("work-temperature-min"), context.practice.limit("work-temperature-max")


def by_product(context: Context, q: Quantity) -> Iterator[tuple[Product, Quantity]]:
    """Products whose data sheet does not allow this temperature, with the end of their range."""
    for product in context.job.products:
        low, high = product.temperature_min, product.temperature_max
        if product.kind in SETTING and low is not None and high is not None and (limit := broken(q, low, high)) is not None:
            yield product, limit
