"""Adhesive: notch tables, bed by trowel angle, back-buttering, mat layers, weight of the tiling."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.takeoff.building import (
    ADHESIVE,
    DRY,
    GROUT,
    MAT,
    Zone,
    en,
    floor_job,
    laid,
    mm,
    mosaic,
    q,
    rect,
    replace,
    surface,
    tile,
    wall_job,
)
from tilespec.job.types import Heating, Shower, Surface
from tilespec.quantity import Quantity
from tilespec.setout.bed import bed_thickness
from tilespec.takeoff import measure
from tilespec.takeoff.types import Line, Notch, TakeOff


def floor(*coverings: object, **more: object) -> Surface:
    return surface("floor", 4, 3, *coverings, kind="floor", **more)  # type: ignore[arg-type]


def adhesive(t: TakeOff) -> Line:
    return t.lines_of("adhesive")[0]


def notch(s: Surface, family: str = "EN") -> Notch:
    taken = measure(wall_job(s) if s.kind == "wall" else floor_job(s), en(family=family))
    return taken.notches[0]


def near(found: Quantity | F, wanted: float, within: float) -> None:
    value = found.value if isinstance(found, Quantity) else found
    assert float(value) == pytest.approx(wanted, abs=within)


def test_worked_example_of_the_values_list() -> None:
    """Reference row K-26: 8 mm notch, 45 degrees, 1.3 kg/L, 12 m² and 10 %: 48.5 kg, 2 bags of 25 kg."""
    glue = replace(ADHESIVE, notch=mm(8))
    s = surface("A", 4, 3, laid(tile()), products=(glue, GROUT))
    line = adhesive(measure(wall_job(s), en(("trowel-angle", q(45, "deg")))))
    near(line.gross, 48.5, 0.05)
    assert line.packs is not None and line.packs.value == 2


@pytest.mark.parametrize(
    ("size", "upright", "at_60", "at_45"),
    [
        (3, 1.5, 1.3, None),
        (4, 2.0, 1.7, None),
        (6, 3.0, 2.6, 2.1),
        (8, 4.0, 3.5, 2.8),
        (10, 5.0, 4.3, 3.5),
        (12, 6.0, 5.2, 4.2),
    ],
)
def test_bed_by_angle(size: int, upright: float, at_60: float, at_45: float | None) -> None:
    """Reference rows K-20 and K-21 (geometry), rounded there to 0.1 mm."""
    near(bed_thickness(mm(size), en(("trowel-angle", q(90, "deg")))), upright / 1000, 1e-9)
    near(bed_thickness(mm(size), en()), at_60 / 1000, 5e-5)
    if at_45:
        near(bed_thickness(mm(size), en(("trowel-angle", q(45, "deg")))), at_45 / 1000, 5e-5)


@pytest.mark.parametrize(
    ("size", "upright", "at_60", "at_45"),
    [
        (q(6, "mm"), 3.000, 2.598, 2.121),
        (q(8, "mm"), 4.000, 3.464, 2.828),
        (q(10, "mm"), 5.000, 4.330, 3.536),
        (q(12, "mm"), 6.000, 5.196, 4.243),
        (q("0.375", "in"), 4.763, 4.124, 3.368),
        (q("0.5", "in"), 6.350, 5.499, 4.490),
    ],
)
def test_volume_of_the_ridges(size: Quantity, upright: float, at_60: float, at_45: float) -> None:
    """Worked example J2: litres a square metre (the mean bed in mm) of square notches as wide as their gaps."""
    for angle, litres in ((90, upright), (60, at_60), (45, at_45)):
        near(bed_thickness(size, en(("trowel-angle", q(angle, "deg")))), litres / 1000, 6e-7)


@pytest.mark.parametrize(
    ("edge", "on_floor", "on_wall"),
    [
        (48, 4, 4),
        (50, 4, 4),
        (51, 6, 4),
        (108, 6, 4),
        (109, 8, 6),
        (200, 8, 6),
        (201, 10, 8),
        (300, 10, 8),
        (301, 12, 10),
        (1200, 12, 10),
    ],
)
def test_notch_by_longest_edge(edge: int, on_floor: int, on_wall: int) -> None:
    """Reference row K-01 (trade practice): table for floors, one step less on walls."""
    t = tile("t", edge, 40)
    assert notch(floor(laid(t))).notch.mm == on_floor
    assert notch(surface("A", 4, 3, laid(t))).notch.mm == on_wall


@pytest.mark.parametrize(("edge", "inches"), [(2, F(3, 16)), (8, F(1, 4)), (12, F(3, 8)), (16, F(3, 8)), (24, F(1, 2))])
def test_us_notch(edge: int, inches: F) -> None:
    """Reference row K-03 (US trade practice): one table for floors and walls."""
    t = tile("t", F(edge) * F("25.4"), 40)
    assert notch(floor(laid(t)), "US").notch.mm == inches * F("25.4")
    assert notch(surface("A", 4, 3, laid(t)), "US").notch.mm == inches * F("25.4")


def test_mosaic_is_combed_for_its_chips() -> None:
    found = notch(floor(laid(mosaic())))
    assert found.notch.mm == 4 and not found.back_butter


def test_the_products_own_notch_wins() -> None:
    assert notch(floor(laid(tile()), products=(replace(ADHESIVE, notch=mm(6)), GROUT))).notch.mm == 6


@pytest.mark.parametrize(("edge", "buttered"), [(300, False), (301, True)])
def test_back_buttering_of_large_tiles(edge: int, buttered: bool) -> None:
    """Reference row A-12 as practice: any edge over 300 mm."""
    assert notch(surface("A", 4, 3, laid(tile("t", edge, 300)))).back_butter is buttered


def test_back_buttering_in_the_shower_and_on_a_heated_floor() -> None:
    """Reference row A-12: shower floors and heated floors whatever the size; K-25: 1 kg/m²."""
    shower = floor(laid(tile()), zones=(Zone("shower", rect(0, 0, 1, 1), "shower"),))
    assert notch(shower).back_butter
    heated = measure(floor_job(floor(laid(tile())), heating=Heating("cable", MAT, None, ())), en())
    assert heated.notches[0].back_butter
    part = next(p for p in adhesive(heated).parts if p.role == "back-butter")
    assert (part.measure.value, part.net.value) == (12, 12)


def test_the_floor_beside_a_tray_is_no_shower_floor() -> None:
    tray = Shower(("A",), rect(0, 0, 1, 1), q(2, "m"), None, True, False)
    s = floor(laid(tile()), zones=(Zone("shower", tray.rect, "shower"),))
    assert not measure(floor_job(s, showers=(tray,)), en()).notches[0].back_butter
    assert measure(floor_job(s, showers=(replace(tray, tray=False),)), en()).notches[0].back_butter


def test_contact_asked_for() -> None:
    """Reference rows A-01, A-02 and A-07."""
    dry = surface("A", 4, 3, laid(tile()))
    wet = replace(dry, zones=(Zone("splash", None, "said"),))
    stone = surface("A", 4, 3, laid(tile(stone=True, body="stone")))
    assert [notch(s).contact.value for s in (dry, wet, stone)] == [F("0.8"), F("0.95"), F("0.95")]


def test_two_layers_around_a_mat() -> None:
    """Bed of a 4 mm notch below (1.732 mm), 5 mm of cover above (reference row P-20), at 1.3 kg/m² and mm on 12 m²."""
    taken = measure(floor_job(floor(laid(tile())), heating=Heating("mat", MAT, None, ())), en())
    parts = {p.role: p.net for p in adhesive(taken).parts}
    near(parts["mat-bed"], 12 * 1.7320508 * 1.3, 1e-4)
    assert parts["mat-cover"].value == 12 * 5 * F("1.3")
    assert "bed" in parts
    cable = measure(floor_job(floor(laid(tile())), heating=Heating("cable", MAT, None, ())), en())
    assert not {p.role for p in adhesive(cable).parts} & {"mat-bed", "mat-cover"}


@pytest.mark.parametrize(("size", "low", "high"), [(4, 1.5, 2.0), (6, 2.2, 3.0), (8, 3.0, 3.8), (10, 3.8, 4.8), (12, 4.5, 5.8)])
def test_consumption_lies_in_the_usual_band(size: int, low: float, high: float) -> None:
    """Reference row K-24 (typical consumption by notch, from memory), with the trowel held at 45 degrees."""
    s = surface("A", 1, 1, laid(tile()), products=(replace(ADHESIVE, notch=mm(size)), GROUT))
    assert low <= float(adhesive(measure(wall_job(s), en(("trowel-angle", q(45, "deg"))))).net.value) <= high


@pytest.mark.parametrize(("size", "least", "most"), [("1/4", 80, 100), ("3/8", 60, 80), ("1/2", 40, 50)])
def test_us_coverage_of_a_bag(size: str, least: int, most: int) -> None:
    """Reference row K-24, US part (published): square feet from a bag of 50 lb. 45 degrees, 1.2 kg/L (within row K-23)."""
    s = surface("A", 1, 1, laid(tile()), products=(replace(ADHESIVE, notch=q(F(size), "in"), density=q("1.2", "kg/L")), GROUT))
    rate = adhesive(measure(wall_job(s), en(("trowel-angle", q(45, "deg"))))).net.value
    assert least <= float(q(50, "lb").value / rate / q(1, "ft2").value) <= most


def test_density_and_consumption_of_the_product() -> None:
    """A stated density replaces 1.3 (reference row K-23); a stated consumption replaces bed and density."""
    dense = replace(ADHESIVE, density=q("1.5", "kg/L"))
    assert adhesive(measure(floor_job(floor(laid(tile()), products=(dense, GROUT))), en())).net.value == pytest.approx(
        float(12 * F("1.5")) * 5 * 3**0.5 / 2
    )
    stated = replace(ADHESIVE, consumption=q("3.5", "kg/m2"))
    assert adhesive(measure(floor_job(floor(laid(tile()), products=(stated, GROUT))), en())).net.value == 42


def test_each_tile_takes_its_own_adhesive() -> None:
    white = replace(ADHESIVE, name="white", for_=("pebble",))
    s = surface(
        "A", 4, 3, laid(tile()), laid(mosaic(translucent=True), region=rect(0, 1, 4, "0.5"), role="band"), products=(white, *DRY)
    )
    lines = {line.name: [p.role for p in line.parts] for line in measure(wall_job(s), en()).lines_of("adhesive")}
    assert lines == {"mortar": ["bed"], "white": ["band"]}


def test_weight_of_the_tiling() -> None:
    """Porcelain 10 mm without a stated weight: 23.5 kg/m² (reference row F-12), bed and grout on top: a floor of 12 m²."""
    t = tile("t", 300, 300, 10, weight=None)
    taken = measure(floor_job(floor(laid(t))), en())
    ((place, weight),) = taken.tiling_weight
    assert place == "room/floor"
    near(weight, 23.5 + 5 * 3**0.5 / 2 * 1.3 + (600 / 90000 * 3 * 10 * 1.6), 1e-6)


def test_the_heaviest_covering_counts() -> None:
    s = surface("A", 4, 3, laid(tile()), laid(mosaic(weight=q(35, "kg/m2")), region=rect(0, 1, 4, "0.5"), role="band"))
    ((_, weight),) = measure(wall_job(s), en()).tiling_weight
    assert weight.value > 35


def test_missing_adhesive_is_said() -> None:
    taken = measure(wall_job(surface("A", 4, 3, laid(tile()), products=())), en())
    assert not taken.lines_of("adhesive")
    assert ("adhesive", "product", ("room/wall A",)) in [(x.kind, x.lacks, x.places) for x in taken.missing]
