"""Quantities as text. Outside checks: NIST SP 811 (1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, t/°F = 9/5 t/°C + 32)."""

from fractions import Fraction

import pytest

from tilespec.document.show import NARROW, decimal, show, show_product
from tilespec.quantity import UNITS, Given, Quantity, work
from tilespec.quantity.read import read
from tilespec.source import Span

SPAN = Span("job.tilespec", 0, 1)


def q(text: str, slot: str = "") -> Quantity:
    reading = read(text)
    u = reading.unit or UNITS[slot]
    return Quantity(reading.base(u), u.kind, u, Given(SPAN))


def plain(text: str) -> str:
    return text.replace(NARROW, " ")


@pytest.mark.parametrize(
    ("written", "slot", "shown"),
    [
        ("2.4", "m", "2.40 m"),
        ("0.305", "m", "0.305 m"),
        ("300", "mm", "300 mm"),
        ("0.5", "mm", "0.5 mm"),
        ("592.5", "mm", "592.5 mm"),
        ("25 kg", "", "25 kg"),
        ("0.26 L/kg", "", "0.26 L/kg"),
        ("1.5 h", "", "1.5 h"),
        ("28 d", "", "28 d"),
        ("1:60", "", "1:60"),
        ("1.7 CM%", "", "1.7 CM-%"),
        ("60 %", "", "60 %"),
        ("-5 C", "", "−5 °C"),
        ("0.7 kg/m2", "", "0.7 kg/m²"),
        ("12 in", "", "304.8 mm"),
        ("50 lb", "", "22.7 kg"),
    ],
)
def test_metric(written: str, slot: str, shown: str) -> None:
    assert plain(show(q(written, slot), "EN")) == shown


@pytest.mark.parametrize(
    ("written", "slot", "shown"),
    [
        ("12 in", "", "12 in (304.8 mm)"),
        ("7 ft 10 1/2 in", "", "7 ft 10 1/2 in (2.40 m)"),
        ("2.4003", "m", "7 ft 10 1/2 in (2.40 m)"),
        ("3", "mm", "1/8 in (3 mm)"),
        ("0.5", "mm", "0.02 in (0.5 mm)"),
        ("50 lb", "", "50 lb (22.7 kg)"),
        ("68 F", "", "68 °F (20 °C)"),
        ("0.3048", "m", "1 ft (0.305 m)"),
    ],
)
def test_us(written: str, slot: str, shown: str) -> None:
    assert plain(show(q(written, slot), "US")) == shown


def test_worked_values_are_rounded_half_up_and_given_ones_are_not() -> None:
    third = work("a / 3", "kg", source="test", a=q("1 kg"))
    assert plain(show(third, "EN")) == "0.333 kg"
    assert plain(show(q("0.3333 kg"), "EN")) == "0.3333 kg"
    assert decimal(Fraction(5, 2), 0) == "3"
    assert decimal(Fraction(-5, 2), 0) == "−3"
    assert decimal(Fraction(1, 8), 2) == "0.13"


def test_sizes_by_one_another_say_their_unit_once() -> None:
    assert plain(show_product([q("300", "mm"), q("300", "mm"), q("9", "mm")], "EN")) == "300 × 300 × 9 mm"
    assert plain(show_product([q("2.4", "m"), q("900", "mm")], "EN")) == "2.40 m × 900 mm"
    assert plain(show_product([q("12 in"), q("3/8 in")], "US")) == "12 in × 3/8 in (304.8 × 9.5 mm)"


def test_number_and_unit_cannot_be_torn_apart() -> None:
    assert " " not in show(q("25 kg"), "EN")
