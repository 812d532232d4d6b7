"""Dew point against ASHRAE formulas, published pages and a rule of thumb."""

from __future__ import annotations

import psychrolib
import pytest

from tests.formula.given import number, q, within
from tilespec.formula.dew import dew_point, least_surface
from tilespec.practice.lookup import practice
from tilespec.quantity import Kind, Limit, Quantity, Worked

P = practice("EN")


def dew(air: object, humidity: object, unit: str = "C") -> Quantity:
    return dew_point(q(air, unit), q(humidity, "%RH"), P)


# ASHRAE Handbook, Fundamentals, as psychrolib 2.5.0 works it out. Where the answer is below 0 °C it gives the frost point
# over ice, which is another thing than dew: those are left out.
ASHRAE = {
    5: {80: "1.84", 90: "3.50"},
    10: {50: "0.06", 60: "2.60", 70: "4.79", 80: "6.71", 90: "8.44"},
    15: {40: "1.52", 50: "4.67", 60: "7.31", 70: "9.58", 80: "11.58", 90: "13.37"},
    20: {30: "1.91", 40: "6.00", 50: "9.27", 60: "12.01", 70: "14.37", 80: "16.45", 90: "18.31"},
    23: {30: "4.51", 40: "8.69", 50: "12.03", 60: "14.82", 70: "17.24", 80: "19.36", 90: "21.27"},
    25: {30: "6.24", 40: "10.48", 50: "13.86", 60: "16.70", 70: "19.15", 80: "21.31", 90: "23.24"},
    30: {30: "10.55", 40: "14.94", 50: "18.45", 60: "21.39", 70: "23.93", 80: "26.17", 90: "28.18"},
    18: {65: "11.33"},
    12: {85: "9.56"},
}


# The set of constants is within 0.026 K of ASHRAE there; the table is rounded to 0.01.
@pytest.mark.parametrize(("air", "humidity", "wanted"), [(t, h, w) for t, row in ASHRAE.items() for h, w in row.items()])
def test_against_the_table(air: int, humidity: int, wanted: str) -> None:
    assert within(dew(air, humidity), "C", wanted, "0.032")


@pytest.mark.parametrize("air", range(0, 41, 5))
def test_against_the_library(air: int) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    compared = 0
    for humidity in range(10, 101, 10):
        wanted = psychrolib.GetTDewPointFromRelHum(float(air), humidity / 100)
        if wanted >= 0:
            compared += 1
            assert abs(number(dew(air, humidity), "C") - wanted) <= 0.027, humidity
    assert compared


# The same library in degrees F.
@pytest.mark.parametrize(
    ("air", "humidity", "wanted"),
    [(68, 50, "48.69"), (70, 50, "50.53"), (70, 60, "55.49"), (70, 80, "63.55"), (80, 60, "64.88"), (50, 70, "40.62")],
)
def test_in_fahrenheit(air: int, humidity: int, wanted: str) -> None:
    found = dew(air, humidity, "F")
    assert found.shown.symbol == "F" and within(found, "F", wanted, "0.06")


# By hand from the formula, set of 17.625 and 243.04 °C.
@pytest.mark.parametrize(
    ("air", "humidity", "share", "wanted"), [(20, 60, "0.829275", "11.9999"), (18, 65, "0.784548", "11.3225")]
)
def test_by_hand(air: int, humidity: int, share: str, wanted: str) -> None:
    found = dew(air, humidity)
    assert isinstance(found.why, Worked)
    assert within(dict(found.why.inputs)["share"], "", share, "0.0000006")
    assert within(found, "C", wanted, "0.00006")


# A university's weather network gives its own form with 17.27 and 237.3 °C: (20, 60), (20, 50), (25, 70).
@pytest.mark.parametrize(("air", "humidity", "wanted"), [(20, 60, "12.004"), (20, 50, "9.270"), (25, 70, "19.146")])
def test_against_another_set_of_constants(air: int, humidity: int, wanted: str) -> None:
    assert within(dew(air, humidity), "C", wanted, "0.04")


@pytest.mark.parametrize(("air", "humidity"), [(t, h) for t in (10, 15, 20, 25, 30) for h in (60, 70, 80, 90, 100)])
def test_rule_of_thumb(air: int, humidity: int) -> None:
    """Bulletin of the American Meteorological Society, 2005: a fifth of what lacks to 100 % off the air, for more than 50 %."""
    assert within(dew(air, humidity), "C", air - (100 - humidity) / 5, 1)


@pytest.mark.parametrize("air", [-5, 0, 7, 20, 33])
def test_saturated_air_is_at_its_dew_point(air: int) -> None:
    assert within(dew(air, 100), "C", air, "0.0000001")


def test_more_humidity_or_warmth_never_lowers_it() -> None:
    by_humidity = [dew(20, h).value for h in range(5, 101, 5)]
    by_warmth = [dew(t, 60).value for t in range(-10, 41, 5)]
    assert by_humidity == sorted(by_humidity) and by_warmth == sorted(by_warmth)


# Saturation pressure after ASHRAE (Pa, psychrolib 2.5.0) at the dew point is the share of that at the air's temperature.
PRESSURE = {0: "611.15", 5: "872.49", 10: "1228.00", 15: "1705.45", 20: "2338.80", 25: "3169.22", 30: "4246.03"}


@pytest.mark.parametrize(("cold", "warm"), [(c, w) for c in PRESSURE for w in PRESSURE if c < w])
def test_air_cooled_to_saturation(cold: int, warm: int) -> None:
    humidity = float(PRESSURE[cold]) / float(PRESSURE[warm])
    assert within(dew(warm, f"{humidity * 100:.6f}"), "C", cold, "0.03")


# Coating practice (ISO 8502-4 style, from memory): a surface at least 3 K above the dew point.
@pytest.mark.parametrize(("air", "humidity", "wanted"), [(20, 60, "15.0"), (18, 65, "14.3"), (12, 85, "12.56")])
def test_least_temperature_of_a_surface(air: int, humidity: int, wanted: str) -> None:
    found = least_surface(dew(air, humidity), P.limit("dew-point-margin"))
    assert found.kind is Kind.TEMPERATURE and within(found, "C", wanted, "0.03")
    assert isinstance(found.why, Worked) and isinstance(dict(found.why.inputs)["margin"].why, Limit)


def test_the_print_says_how_warm_the_base_is_at_least() -> None:
    """19 °C at 60 %: dew point 11.1 °C (ASHRAE by psychrolib: 11.07), 3 K on top; worked out in the plan as in the rule."""
    from tests.checks.specs import PATH, floor
    from tilespec import pipeline
    from tilespec.workspace.host import MemoryHost

    spec = floor("base cement render", "tile floor-tile; joint 3", head="conditions air 19 C; humidity 60 %; surface 17 C")
    plan = pipeline.compile(PATH, MemoryHost({PATH: spec})).plan
    assert plan is not None and plan.sequence is not None
    tests = [t for op in plan.sequence.operations if op.point is not None for t in op.point.tests if t.what == "dew-free"]
    assert tests
    for t in tests:
        assert t.limit is not None and within(t.limit, "C", "14.07", "0.03")
        assert [(name, value.number) for name, value in t.values] == [("air", 19), ("humidity", 60)]
