"""Quantities for tests of formulas, and how close a result has to be."""

from __future__ import annotations

from fractions import Fraction

from tilespec.quantity import Quantity, given, unit
from tilespec.source import Span

SPAN = Span("job.tilespec", 0, 1)


def q(number: object, symbol: str) -> Quantity:
    return given(Fraction(str(number)), symbol, SPAN)


def number(found: Quantity, symbol: str) -> float:
    """The number in another unit."""
    return float(found.in_unit(unit(symbol)))


def within(found: Quantity, symbol: str, wanted: str | float, tolerance: str | float) -> bool:
    return abs(found.in_unit(unit(symbol)) - Fraction(str(wanted))) <= Fraction(str(tolerance))
