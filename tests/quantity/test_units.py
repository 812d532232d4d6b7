"""Factors of units. Exact ones are definitions; rounded ones are held against published tables to the figures printed there."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tilespec.quantity import UNITS, Given, Kind, Quantity, unit
from tilespec.quantity.read import read
from tilespec.quantity.unit import SPELLINGS
from tilespec.source import Span

HERE = Given(Span("job.tilespec", 0, 1))


def value(text: str, in_unit: str) -> F:
    reading = read(text)
    assert reading.unit
    return Quantity(reading.base(reading.unit), reading.unit.kind, reading.unit, HERE).in_unit(UNITS[in_unit])


# NIST SP 811, appendix B: exact by definition (1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, 1 US gal = 231 in3).
EXACT = [
    ("1/16 in", "mm", "1.5875"),
    ("1/8 in", "mm", "3.175"),
    ("3/16 in", "mm", "4.7625"),
    ("1/4 in", "mm", "6.35"),
    ("5/16 in", "mm", "7.9375"),
    ("3/8 in", "mm", "9.525"),
    ("1/2 in", "mm", "12.7"),
    ("3/32 in", "mm", "2.38125"),
    ("1 ft", "mm", "304.8"),
    ("1 yd", "mm", "914.4"),
    ("1 ft2", "m2", "0.09290304"),
    ("1 in2", "mm2", "645.16"),
    ("1 lb", "kg", "0.45359237"),
    ("50 lb", "kg", "22.6796185"),
    ("1 gal", "L", "3.785411784"),
    ("1 qt", "L", "0.946352946"),
    ("7 ft 10 1/2 in", "mm", "2400.3"),
    ("8 ft 0 in", "mm", "2438.4"),
    ("5 ft 3 7/16 in", "mm", "1611.3125"),
    ("23 5/8 in", "mm", "600.075"),
    ("11 13/16 in", "mm", "300.0375"),
    ("68 F", "C", "20"),
    ("50 F", "C", "10"),
    ("77 F", "C", "25"),
    ("5 C", "F", "41"),
    ("23 C", "F", "73.4"),
    ("29 C", "F", "84.2"),
    ("-40 C", "F", "-40"),
    ("10 C", "F", "50"),
    ("33 C", "F", "91.4"),
    ("35 C", "F", "95"),
]

# Printed in engineering tables and a US agency's conversion page; the tolerance is half of the last figure.
ROUNDED = [
    ("1 lb/ft2", "kg/m2", "4.8824", "0.00005"),
    ("1 W/ft2", "W/m2", "10.76391", "0.000005"),
    ("1 fl oz", "mL", "29.57353", "0.000005"),
    ("1 lb/ft3", "kg/m3", "16.01846", "0.000005"),
    ("40 F", "C", "4.444", "0.0005"),
    ("90 F", "C", "32.222", "0.0005"),
    ("65 F", "C", "18.333", "0.0005"),
    ("70 F", "C", "21.111", "0.0005"),
    ("73 F", "C", "22.778", "0.0005"),
    ("75 F", "C", "23.889", "0.0005"),
    ("85 F", "C", "29.444", "0.0005"),
    ("100 F", "C", "37.778", "0.0005"),
]


@pytest.mark.parametrize(("text", "in_unit", "number"), EXACT)
def test_exact(text: str, in_unit: str, number: str) -> None:
    assert value(text, in_unit) == F(number)


@pytest.mark.parametrize(("text", "in_unit", "number", "tolerance"), ROUNDED)
def test_rounded(text: str, in_unit: str, number: str, tolerance: str) -> None:
    assert abs(value(text, in_unit) - F(number)) <= F(tolerance)


def test_a_quarter_inch_for_each_foot_is_1_in_48() -> None:
    """Arithmetic: 12 in / (1/4 in)."""
    assert value("1/4 in", "ft") == F(1, 48)


def test_spellings_lead_to_units() -> None:
    assert set(SPELLINGS.values()) <= set(UNITS)
    assert not set(SPELLINGS) & set(UNITS)
    assert unit("mm") is UNITS["mm"]


@pytest.mark.parametrize("symbol", [s for s in UNITS if s])
def test_units_of_a_kind_convert_there_and_back(symbol: str) -> None:
    u = UNITS[symbol]
    q = Quantity(F(7, 3) * u.factor + u.offset, u.kind, u, HERE)
    assert q.number == F(7, 3)
    for other in UNITS.values():
        if other.kind is u.kind:
            shown = q.shown_in(other)
            assert shown.value == q.value and shown == q
            assert shown.number * other.factor + other.offset == q.value
        else:
            with pytest.raises(ValueError, match="cannot be shown"):
                q.shown_in(other)


@given(st.fractions(min_value=0, max_value=9999, max_denominator=64))
def test_fractions_are_read_exactly(x: F) -> None:
    whole, part = divmod(x, 1)
    text = f"{whole} {part.numerator}/{part.denominator}" if part else f"{whole}"
    assert read(f"{text} in").number == x
    assert value(f"{text} in", "mm") == x * F(254, 10)


@given(st.decimals(min_value=-999, max_value=999, places=4))
def test_decimals_are_read_exactly(x: object) -> None:
    assert read(f"{x:f} mm").number == F(f"{x:f}")


def test_equality_leaves_out_unit_and_why() -> None:
    a = Quantity(F(1), Kind.LENGTH, UNITS["m"], HERE)
    assert a == Quantity(F(1), Kind.LENGTH, UNITS["mm"], Given(Span("other", 4, 5)))
    assert a != Quantity(F(1), Kind.AREA, UNITS["m2"], HERE)
    assert (a.mm, Quantity(F(5400), Kind.TIME, UNITS["min"], HERE).hours) == (1000, F(3, 2))
    with pytest.raises(ValueError, match="not a time"):
        _ = a.hours
    with pytest.raises(ValueError, match="not a length"):
        _ = Quantity(F(1), Kind.AREA, UNITS["m2"], HERE).mm
