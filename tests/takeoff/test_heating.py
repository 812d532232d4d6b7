"""Electric heating: Ohm's law against worked examples E, and the floor that may be heated."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.takeoff.building import MAT, en, floor_job, job, laid, m, q, rect, replace, surface, tile
from tests.takeoff.test_areas import walked_room
from tilespec.job.types import Bath, Fitting, Heating, Rect, Surface
from tilespec.quantity import Quantity
from tilespec.takeoff import measure
from tilespec.takeoff.heating import _electric
from tilespec.takeoff.types import HeatingMeasure


def floor(width: object, depth: object, **more: object) -> Surface:
    return surface("floor", width, depth, laid(tile()), kind="floor", **more)  # type: ignore[arg-type]


def heated(s: Surface, *keep_out: Rect, product: object = MAT, edge: int = 0, **more: object) -> HeatingMeasure:
    p = en(("heating-edge-distance", q(edge, "mm")))
    heating = Heating("mat", product, None, keep_out)  # type: ignore[arg-type]
    return measure(floor_job(s, heating=heating, **more), p).heating[0]


def value(found: Quantity | None) -> float:
    assert found is not None
    return float(found.value)


E = [
    # W, 230 V: ohm, low, high, A; 240 V: ohm, low, high; 120 V: ohm, low, high, A
    (100, 529.0, 502.6, 581.9, 0.435, 576.0, 547.2, 633.6, 144.0, 136.8, 158.4, 0.833),
    (150, 352.7, 335.0, 387.9, 0.652, 384.0, 364.8, 422.4, 96.0, 91.2, 105.6, 1.250),
    (200, 264.5, 251.3, 291.0, 0.870, 288.0, 273.6, 316.8, 72.0, 68.4, 79.2, 1.667),
    (300, 176.3, 167.5, 194.0, 1.304, 192.0, 182.4, 211.2, 48.0, 45.6, 52.8, 2.500),
    (400, 132.3, 125.6, 145.5, 1.739, 144.0, 136.8, 158.4, 36.0, 34.2, 39.6, 3.333),
    (450, 117.6, 111.7, 129.3, 1.957, 128.0, 121.6, 140.8, 32.0, 30.4, 35.2, 3.750),
    (500, 105.8, 100.5, 116.4, 2.174, 115.2, 109.4, 126.7, 28.8, 27.4, 31.7, 4.167),
    (600, 88.17, 83.76, 96.98, 2.609, 96.0, 91.2, 105.6, 24.0, 22.8, 26.4, 5.000),
    (750, 70.53, 67.01, 77.59, 3.261, 76.8, 72.96, 84.48, 19.2, 18.24, 21.12, 6.250),
    (1000, 52.90, 50.25, 58.19, 4.348, 57.6, 54.72, 63.36, 14.4, 13.68, 15.84, 8.333),
]


@pytest.mark.parametrize("row", E, ids=lambda r: f"{r[0]} W")
def test_resistance_and_current(row: tuple[float, ...]) -> None:
    """Worked examples E: R = V² ÷ P, I = P ÷ V, band −5 % to +10 % (reference row P-02)."""
    for volts, wanted in ((230, row[1:5]), (240, (*row[5:8], None)), (120, row[8:])):
        got = _electric("room", q(1, "m2"), q(row[0], "W/m2"), q(volts, "V"), en())
        for found, number in zip((got.resistance, got.resistance_low, got.resistance_high, got.current), wanted, strict=True):
            if number is not None:
                # Half a unit of the last figure printed there.
                assert value(found) == pytest.approx(number, abs=0.0005 if number < 10 else 0.06)


def test_mat_of_three_square_metres() -> None:
    """Worked example E: 3.0 m² at 150 W/m² is 450 W and 117.6 Ω at 230 V; a reading of 130 Ω is outside."""
    found = heated(floor(2, "1.5"))
    assert (value(found.power), value(found.resistance)) == (450, pytest.approx(117.56, abs=0.01))
    assert value(found.resistance_high) < 130


def test_the_label_wins_over_what_the_size_gives() -> None:
    """Two equal resistances side by side: half (Ohm's law). 180 Ω on the label goes from 171 to 198 Ω (row P-02)."""
    one = replace(MAT, resistance=q(180, "ohm"))
    found = heated(floor(2, "1.5"), product=one)
    assert (value(found.resistance), value(found.resistance_low), value(found.resistance_high)) == (180, 171, 198)
    assert value(found.power) == 450
    two = heated(floor(2, "1.5"), product=replace(one, pack=q("1.5", "m2")))
    assert value(two.resistance) == 90


def test_voltage_by_family_when_the_mat_does_not_say() -> None:
    mat = replace(MAT, voltage=None)
    for family, volts in (("EN", 230), ("US", 120)):
        taken = measure(floor_job(floor(2, "1.5"), heating=Heating("mat", mat, None, ())), en(family=family))
        assert value(taken.heating[0].current) == pytest.approx(value(taken.heating[0].power) / volts)


def test_kept_clear_of_walls_and_fixtures() -> None:
    """2.4 × 1.8 less 50 mm all round is 2.3 × 1.7; a kept-out 0.9 × 0.9 in the corner lies in it with 0.85 × 0.85;
    a WC of 0.4 × 0.6 against the wall with 0.4 × 0.55. Overlaps count once."""
    toilet = Fitting("fixture", None, rect(1, "1.2", "0.4", "0.6"))
    found = heated(floor("2.4", "1.8", fittings=(toilet,)), rect(0, 0, "0.9", "0.9"), rect(0, 0, "0.5", "0.5"), edge=50)
    assert found.free_area.value == F("2.3") * F("1.7") - F("0.85") ** 2 - F("0.4") * F("0.55")


def test_nothing_under_the_bath() -> None:
    bath = Bath(("A",), rect(0, 0, "1.7", "0.7"), m("0.55"), False)
    assert heated(floor("2.4", "1.8"), baths=(bath,)).free_area.value == F("4.32") - F("1.19")


def test_walked_floor() -> None:
    """L-shape of 4.08 m², 8.8 m around with five inner corners and one outer: 50 mm kept free all round.
    2.3 × 1.1 + 1.4 × 0.8 by plain arithmetic."""
    room = replace(walked_room(), heating=Heating("mat", MAT, None, ()))
    found = measure(job(room), en()).heating[0]
    assert found.free_area.value == F("2.3") * F("1.1") + F("1.4") * F("0.8")


def test_whole_mats_that_fit() -> None:
    """A mat is never cut: 3.19 m² free takes one mat of 2.5 m²; its power counts."""
    found = heated(floor("2.4", "1.8"), rect(0, 0, 1, "1.13"), product=replace(MAT, pack=q("2.5", "m2")))
    assert found.laid_area is not None and found.laid_area.value == F("2.5")
    assert value(found.power) == 375


def test_heating_that_cannot_be_worked_out_is_said() -> None:
    unknown = replace(MAT, output=None)
    taken = measure(floor_job(floor(2, 2), heating=Heating("mat", unknown, None, ())), en())
    assert not taken.heating and [(x.kind, x.lacks) for x in taken.missing] == [("heating", "output")]
    narrow = measure(floor_job(floor(2, "0.1"), heating=Heating("mat", MAT, None, ())), en())
    assert [(x.kind, x.lacks) for x in narrow.missing] == [("heating", "room-for-it")]


def test_pipes_in_the_screed_are_for_the_plumber() -> None:
    taken = measure(floor_job(floor(2, 2), heating=Heating("pipes", MAT, None, ())), en())
    assert not taken.heating and not taken.lines_of("heating")
