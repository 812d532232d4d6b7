"""Mixing cards: water against worked examples M, sizes of mixes by plain arithmetic."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.takeoff.building import (
    ADHESIVE,
    DRY,
    GROUT,
    TAPE,
    MembraneArea,
    en,
    laid,
    mosaic,
    q,
    rect,
    replace,
    surface,
    tile,
    wall_job,
)
from tilespec.job.types import Product
from tilespec.takeoff import measure
from tilespec.takeoff.types import Mix, TakeOff


def taken(product: Product, *firm: tuple[str, object]) -> TakeOff:
    s = surface("A", 4, 3, laid(tile()), products=(product, GROUT) if product.kind == "adhesive" else (ADHESIVE, product))
    return measure(wall_job(s), en(*firm))  # type: ignore[arg-type]


def card(product: Product, *firm: tuple[str, object]) -> Mix:
    return next(x for x in taken(product, *firm).mixes if x.product.name == product.name)


@pytest.mark.parametrize(
    ("bag", "rate", "litres"),
    [
        (5, "0.18", "0.9"),
        (5, "0.32", "1.6"),
        (10, "0.24", "2.4"),
        (20, "0.26", "5.2"),
        (25, "0.20", "5"),
        (25, "0.25", "6.25"),
        (25, "0.30", "7.5"),
        (25, "0.32", "8"),
        ("22.68", "0.25", "5.67"),
    ],
)
def test_water_for_a_bag(bag: object, rate: str, litres: str) -> None:
    """Worked examples M: litres = kilograms × litres a kilogram."""
    found = card(replace(ADHESIVE, pack=q(bag, "kg"), water=q(rate, "L/kg")))
    assert found.water.value * 1000 == F(litres)


@pytest.mark.parametrize(("kg", "litres"), [(3, "0.75"), ("7.5", "1.875"), (17, "4.25")])
def test_water_for_part_of_a_bag(kg: object, litres: str) -> None:
    """Worked examples M, part bags at 0.25 L/kg: here the bag itself is that small and goes into one mix."""
    found = card(replace(ADHESIVE, pack=q(kg, "kg"), water=q("0.25", "L/kg"), consumption=q(20, "kg/m2"), pot_life=q(2, "h")))
    assert found.share is not None and found.share.value == 1
    assert found.mix_water is not None and found.mix_water.value * 1000 == F(litres)


def test_what_is_used_up_within_the_pot_life() -> None:
    """1.2 m²/h × 0.75 h × 8 kg/m² = 7.2 kg: a quarter of a bag of 25 kg (6.25 kg). 12 m² and 10 %: 105.6 kg, 17 mixes."""
    found = card(replace(ADHESIVE, consumption=q(8, "kg/m2")), ("rate-wall-tiles", q("1.2", "m2/h")))
    assert found.within_pot_life is not None and found.within_pot_life.value == F("7.2")
    assert found.share is not None and found.share.value == F(1, 4)
    assert found.powder is not None and found.powder.value == F("6.25")
    assert found.mixes is not None and found.mixes.value == 17


def test_never_more_than_sets_in_time() -> None:
    """1.2 m²/h × 0.5 h × 4 kg/m² = 2.4 kg: less than a quarter of a bag is weighed out, not rounded up."""
    found = card(replace(ADHESIVE, consumption=q(4, "kg/m2"), pot_life=q(30, "min")), ("rate-wall-tiles", q("1.2", "m2/h")))
    assert found.powder is not None and found.powder.value == F("2.4")


def test_never_more_than_one_bag() -> None:
    found = card(replace(ADHESIVE, pack=q(5, "kg"), pot_life=q(4, "h")))
    assert found.share is not None and found.share.value == 1
    assert found.powder is not None and found.powder.value == 5


@pytest.mark.parametrize("minutes", [10, 20, 45, 90, 240])
def test_a_mix_never_outlives_its_pot_life(minutes: int) -> None:
    found = card(replace(ADHESIVE, pot_life=q(minutes, "min")))
    assert found.powder is not None and found.within_pot_life is not None and found.mixes is not None
    assert found.powder.value <= found.within_pot_life.value
    assert found.mixes.value * found.powder.value >= taken(found.product).lines_of("adhesive")[0].gross.value


def test_grout_matures_three_minutes_unless_it_says_otherwise() -> None:
    """Common practice, no source."""
    said = card(replace(GROUT, maturing=q(5, "min"))).maturing
    usual = card(GROUT).maturing
    assert said is not None and usual is not None and (said.value, usual.value) == (300, 180)


def test_resins_have_no_mixing_card_and_missing_water_is_said() -> None:
    resin = replace(GROUT, name="resin", cls=("RG",), flags=("epoxy", "resin"), water=None)
    assert [x.product.kind for x in taken(resin).mixes] == ["adhesive"]
    dry = replace(ADHESIVE, water=None)
    assert ("adhesive", "mortar", "water") in [(x.kind, x.name, x.lacks) for x in taken(dry).missing]
    assert ("adhesive", "mortar", "pack") in [(x.kind, x.name, x.lacks) for x in taken(replace(ADHESIVE, pack=None)).missing]


def test_without_a_pot_life_a_bag_is_a_mix() -> None:
    found = card(replace(ADHESIVE, pot_life=None))
    assert found.within_pot_life is None and found.powder is not None and found.powder.value == 25


def test_larger_tiles_set_another_pace() -> None:
    s = surface("A", 4, 3, laid(tile("t", 1200, 600)))
    found = measure(wall_job(s), en(("rate-wall-tiles-large", q("0.7", "m2/h"))))
    pace = next(x.spread_rate for x in found.mixes if x.product.kind == "adhesive")
    assert pace is not None and pace.value == q("0.7", "m2/h").value


def test_mosaic_is_grouted_more_slowly() -> None:
    firm = (("rate-grout", q(5, "m2/h")), ("rate-grout-mosaic", q(2, "m2/h")))
    for t, pace in ((tile(), 5), (mosaic(), 2)):
        found = measure(wall_job(surface("A", 4, 3, laid(t))), en(*firm)).mixes
        rate = next(x.spread_rate for x in found if x.product.kind == "grout")
        assert rate is not None and rate.value == q(pace, "m2/h").value


def test_cement_membrane_is_mixed_for_one_coat() -> None:
    """12 m² in two coats of 1.7 kg/m²: one person coats 12 m² an hour, so half an hour takes 6 × 1.7 kg."""
    film = Product(
        "slurry",
        "membrane",
        ("CM",),
        False,
        ("cement",),
        pack=q(20, "kg"),
        coats=q(2, "count"),
        consumption=q("1.7", "kg/m2"),
        water=q("0.25", "L/kg"),
        pot_life=q(30, "min"),
    )
    s = surface("A", 4, 3, laid(tile()), products=(film, TAPE, *DRY), membrane_areas=(MembraneArea(None, "said"),))
    (found,) = [x for x in measure(wall_job(s), en(("rate-membrane-coat", q(12, "m2/h")))).mixes if x.product.kind == "membrane"]
    assert found.within_pot_life is not None and found.within_pot_life.value == F("10.2")
    assert found.powder is not None and found.powder.value == 10


def test_mixes_are_sized_for_the_work_that_takes_most() -> None:
    """11 m² of field and 1 m² of mosaic in one adhesive: the field sets the pace; the other way round the mosaic does."""
    firm = (("rate-wall-tiles", q("1.2", "m2/h")), ("rate-wall-tiles-mosaic", q("0.8", "m2/h")))
    for high, pace in (("0.25", "1.2"), ("2.75", "0.8")):
        s = surface("A", 4, 3, laid(tile()), laid(mosaic(), region=rect(0, 0, 4, high), role="band"))
        found = next(x for x in measure(wall_job(s), en(*firm)).mixes if x.product.kind == "adhesive")
        assert found.spread_rate is not None and found.spread_rate.value == q(pace, "m2/h").value
