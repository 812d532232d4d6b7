"""Drying of screeds: the planning rule against computed and published values."""

from __future__ import annotations

import pytest

from tests.formula.given import q, within
from tilespec.formula.drying import drying_time, good_air
from tilespec.practice.lookup import PARENTS, practice
from tilespec.quantity import Quantity

# One day a millimetre up to the knee, then two: 50 mm for cement (BS 8203), 40 mm for calcium sulfate (NHBC Standards 9.3.5).
# thickness mm: days with the knee at 50, at 40.
DAYS = {
    25: (25, 25), 30: (30, 30), 40: (40, 40), 50: (50, 60), 60: (70, 80), 65: (80, 90), 75: (100, 110), 80: (110, 120),
    100: (150, 160),
}


def days(kind: str, thickness: object, family: str = "UK") -> Quantity:
    found = drying_time(kind, q(thickness, "mm"), practice(family))
    assert found is not None
    return found


@pytest.mark.parametrize(("thickness", "wanted"), DAYS.items())
def test_days(thickness: int, wanted: tuple[int, int]) -> None:
    assert days("cement-screed", thickness).number == wanted[0]
    assert days("calcium-sulfate-screed", thickness).number == wanted[1]


def test_published_points() -> None:
    # A screed information site: 75 mm of sand and cement 75 to 100 days; a screed firm: 75 mm of calcium sulfate about 110.
    assert days("cement-screed", 75).number == 100 and days("calcium-sulfate-screed", 75).number == 110
    # Screeding contractors, repeating the standard: 50 mm about two months, of which seven days are curing (from memory).
    assert 50 <= days("cement-screed", 50).number + 7 <= 62


@pytest.mark.parametrize("family", PARENTS)
def test_every_family_has_or_borrows_the_rule(family: str) -> None:
    assert days("cement-screed", 65, family).number == 80


def test_inches() -> None:
    found = drying_time("cement-screed", q(2, "in"), practice("US"))
    assert found is not None and within(found, "d", "51.6", 0)


@pytest.mark.parametrize("kind", ["concrete", "gypsum-plaster", "timber"])
def test_no_rule_for_other_bases(kind: str) -> None:
    assert drying_time(kind, q(100, "mm"), practice("UK")) is None


# Good drying air is about 20 °C and no more than 65 % (a screed article quoting BS 5385-3:2014).
@pytest.mark.parametrize(("air", "humidity", "good"), [(20, 65, True), (22, 50, True), (19, 50, False), (20, 70, False)])
def test_good_drying_air(air: int, humidity: int, good: bool) -> None:
    assert good_air(q(air, "C"), q(humidity, "%RH"), practice("EN")) is good
