"""A quantity as a person types it in a spec, for messages: `3 mm`, `1/16 in`, `1:60`, `1.8 CM%`."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from tilespec.quantity.trace import Quantity, Worked
from tilespec.quantity.unit import Kind

_BARE = ("", "count", "year")


def _decimal(value: Fraction, places: int) -> str:
    scaled = floor(abs(value) * 10**places + Fraction(1, 2))
    whole, part = divmod(scaled, 10**places)
    text = f"{whole}.{part:0{places}d}".rstrip("0").rstrip(".") if places else str(whole)
    return f"-{text}" if value < 0 and scaled else text


def _exact(value: Fraction) -> str:
    """To a thousandth; what is smaller (an expansion) keeps two digits, so that it is never shown as nothing."""
    places = 3
    while value and abs(value) * 10**places < 1:
        places += 1
    return _decimal(value, places if places == 3 else places + 1)


def _inches(value: Fraction) -> str:
    if value >= 0 and value.denominator in (2, 4, 8, 16, 32, 64):
        whole, part = int(value), value - int(value)
        return f"{whole} {part}" if whole else str(part)
    return _decimal(value, 2)


def typed(q: Quantity) -> str:
    """The quantity in the unit it is shown in. What was worked out is rounded to a tenth."""
    value, symbol = q.number, q.shown.symbol
    if q.kind is Kind.SLOPE:
        return f"1:{_decimal(1 / q.value, 1)}" if q.value else "level"
    if symbol in _BARE:
        return _exact(value)
    number = _inches(value) if symbol == "in" else _decimal(value, 1) if isinstance(q.why, Worked) else _exact(value)
    return f"{number} {symbol}"
