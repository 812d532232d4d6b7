"""Floor heating: the curve of EN 1264-2 (recalled), computed values, and the limits that go with it."""

from __future__ import annotations

import pytest

from tests.formula.given import q, within
from tilespec.formula import warmth
from tilespec.practice.lookup import practice
from tilespec.quantity import Kind

P = practice("EN")

# q = 8.92 · ΔT^1.1, EN 1264-2 from memory; computed.
CURVE = {
    1: "8.920", 2: "19.120", 3: "29.867", 4: "40.986", 5: "52.388", 6: "64.022", 7: "75.853", 8: "87.854", 9: "100.007",
    10: "112.296", 12: "137.235", 15: "175.414",
}
BACK = {50: "4.79", 60: "5.66", 70: "6.51", 80: "7.35", 90: "8.18", 100: "8.999", 120: "10.62", 150: "13.01", 175: "14.968"}


@pytest.mark.parametrize(("step", "wanted"), CURVE.items())
def test_output(step: int, wanted: str) -> None:
    found = warmth.output(q(20 + step, "C"), q(20, "C"), P)
    assert found.kind is Kind.POWER_PER_AREA and within(found, "W/m2", wanted, "0.0006")


@pytest.mark.parametrize(("given", "wanted"), BACK.items())
def test_the_curve_backwards(given: int, wanted: str) -> None:
    assert within(warmth.rise(q(given, "W/m2"), P), "K", wanted, "0.005")
    warm = warmth.surface(q(given, "W/m2"), q(20, "C"), P)
    assert within(warmth.output(warm, q(20, "C"), P), "W/m2", given, "0.00001")


# EN 1264-2: the standard rounds to 100 and 175 W/m² (from memory); one trade page has 29 °C, 35 °C and 9 K for bathrooms.
@pytest.mark.parametrize(
    ("key", "room", "wanted", "rounded"),
    [
        ("floor-temperature-max-occupied", 20, "100.0", 100),
        ("floor-temperature-max-perimeter", 20, "175.4", 175),
        ("floor-temperature-max", 24, "100.0", 100),
        ("floor-temperature-max-occupied", 24, "52.4", 52),
    ],
)
def test_the_most_a_floor_may_give(key: str, room: int, wanted: str, rounded: int) -> None:
    found = warmth.output(P.limit(key), q(room, "C"), P)
    assert within(found, "W/m2", wanted, "0.05") and round(found.number) == rounded


# Computed: output over rise, the coefficient of the surface that the curve implies.
@pytest.mark.parametrize(("step", "coefficient"), [(5, "10.48"), (9, "11.11"), (15, "11.69")])
def test_coefficient_of_the_surface(step: int, coefficient: str) -> None:
    found = warmth.output(q(20 + step, "C"), q(20, "C"), P)
    assert abs(float(found.number) / step - float(coefficient)) <= 0.005


def test_a_floor_no_warmer_than_its_room_gives_nothing() -> None:
    assert warmth.output(q(20, "C"), q(20, "C"), P).value == 0 == warmth.output(q(18, "C"), q(20, "C"), P).value


def test_in_fahrenheit() -> None:
    """84.2 F over a room of 68 F is 29 °C over 20 °C."""
    assert within(warmth.output(q("84.2", "F"), q(68, "F"), P), "W/m2", "100.007", "0.001")
    assert within(warmth.surface(q("100.007", "W/m2"), q(68, "F"), P), "F", "84.2", "0.001")
