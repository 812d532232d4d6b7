"""Waits: the product's own first, otherwise the practice's; longer in the cold where cement sets, never below the sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.sequence.building import (
    ADHESIVE,
    FAST,
    FIELD,
    FILM,
    GROUT,
    LACQUER,
    PASTE,
    PRIMER,
    QUICK_FILM,
    RESIN_GROUT,
    SEALANT,
    SLURRY,
    WHITE,
    job,
    q,
    run,
    waits,
)
from tests.sequence.rooms import shower_room
from tilespec.job.types import Conditions, Job, Product
from tilespec.practice.lookup import practice
from tilespec.quantity import Quantity, Worked
from tilespec.sequence import substrate, wait
from tilespec.sequence.site import Site
from tilespec.takeoff.types import TakeOff

NOTHING = TakeOff((), (), (), (), (), ())


def at(surface: object, family: str = "EN") -> Site:
    j = replace(job(0), conditions=Conditions(q(20, "C"), q(50, "%RH"), q(surface, "C")), family=family)
    return Site(j, practice(family), NOTHING)


def hours(value: Quantity) -> float:
    return float(value.hours)


def link(j: Job, then: str, first: str):  # type: ignore[no-untyped-def]
    s = run(j)
    op = next(o for o in s.operations if o.kind == then)
    return next(k.wait for k in op.after if k.operation.endswith(first))


# Rule of thumb of the trade: doubles for each 8 K below 21 C (reference row O-03, two pages; Q-17 on the 10 K variant).
@pytest.mark.parametrize("surface,expected", [(13, 48), (5, 96), (21, 24), (30, 24), (17, 34)])
def test_setting_time_doubles_for_each_eight_kelvin(surface: int, expected: float) -> None:
    found = hours(wait.in_the_cold(q(24, "h"), at(surface)))
    # Rounded up to quarter hours: 24 h x 2^(4/8) = 33.94 h gives 34 h.
    assert found == expected


# Hours that equal 24 h at 20 C under five published maturity functions (Nurse-Saul, Arrhenius as in ASTM C1074, a Danish rule):
# the longest of them at each temperature. Ours must never be shorter: it is meant as a cautious one.
@pytest.mark.parametrize("surface,longest", [(5, 96.0), (8, 60.0), (10, 48.3), (12, 40.0), (15, 32.3), (18, 27.0)])
def test_never_shorter_than_published_maturity_functions(surface: int, longest: float) -> None:
    assert hours(wait.in_the_cold(q(24, "h"), at(surface))) >= longest


def test_the_correction_can_be_followed_and_carries_its_source() -> None:
    found = wait.in_the_cold(q(24, "h"), at(13))
    assert isinstance(found.why, Worked)
    assert {name for name, _ in found.why.inputs} == {"time", "reference", "surface", "doubling", "step"}
    assert "rule of thumb" in found.why.source


def test_a_warm_surface_never_shortens_a_sheet() -> None:
    said = replace(FAST, waits=waits(grouting="4 h"))
    w = wait.wait(said, wait.Rule("adhesive-set", ("grouting",), "wait-adhesive-fast"), at(30))
    assert hours(w.minimum) == 4 and w.maximum is None


def test_what_dries_or_reacts_is_not_corrected() -> None:
    cold = at(9)
    for p in (FILM, LACQUER):
        assert wait.between_coats(p, cold).minimum == wait.between_coats(p, at(25)).minimum
    assert wait.after_primer(PRIMER, "membrane", cold).minimum == q(4, "h")
    assert wait.after_sealant(SEALANT, cold).minimum == q(24, "h")
    assert wait.after_grout(RESIN_GROUT, "sealing", cold).minimum == q(24, "h")
    assert wait.after_grout(GROUT, "sealing", cold).minimum.value > q(24, "h").value


def test_a_window_of_the_product_is_kept_even_in_the_cold() -> None:
    said = replace(SLURRY, waits=waits(coats="3 h to 12 h"))
    w = wait.between_coats(said, at(5))
    assert w.maximum == q(12, "h") and w.minimum.value <= w.maximum.value and w.overrun == "coat-window"


# Reference rows O-01, O-02 (adhesive), O-08, O-09 (membranes), O-10 (sealant), with the practice's own values.
@pytest.mark.parametrize("product,expected", [(ADHESIVE, 24), (FAST, 6), (PASTE, 48)])
def test_adhesives_without_data(product: Product, expected: float) -> None:
    plain = replace(shower_room().rooms[0].wall_surfaces[1], membrane_areas=())
    assert hours(wait.after_tiling(product, plain, "grouting", at(21)).minimum) == expected


def test_porcelain_on_a_membrane_waits_longer() -> None:
    """48 h: no water can leave an adhesive between membrane and porcelain (O-01)."""
    wall = shower_room().rooms[0].wall_surfaces[3]
    assert wall.membrane_areas and all(c.tile is FIELD for c in wall.coverings)
    assert hours(wait.after_tiling(ADHESIVE, wall, "grouting", at(21)).minimum) == 48
    ceramic = replace(wall, coverings=tuple(replace(c, tile=WHITE) for c in wall.coverings))
    assert hours(wait.after_tiling(ADHESIVE, ceramic, "grouting", at(21)).minimum) == 24


@pytest.mark.parametrize("membrane,coats,tiling", [(FILM, 4, 24), (SLURRY, 6, 24), (QUICK_FILM, 1.5, 4)])
def test_membranes(membrane: Product, coats: float, tiling: float) -> None:
    assert hours(wait.between_coats(membrane, at(21)).minimum) == coats
    assert hours(wait.after_membrane(membrane, at(21)).minimum) == tiling


def test_declared_film_prints_four_one_and_a_half_and_four_hours() -> None:
    """Common practice, no source: these hold where the declared product says so (primer 4 h, coats 1.5 h, tiling 4 h)."""
    j = shower_room()
    assert hours(link(j, "membrane-details", "prime").minimum) == 4
    assert hours(link(j, "membrane-second-coat", "membrane-first-coat").minimum) == 1.5
    assert hours(link(j, "accept-membrane", "membrane-second-coat").minimum) == 4


def test_declared_primer_window() -> None:
    w = link(shower_room(), "membrane-details", "prime")
    assert w.maximum == q(24, "h") and w.overrun == "prime-again" and w.why == "primer-dry"


def test_an_undeclared_primer_has_a_planning_window() -> None:
    w = wait.after_primer(replace(PRIMER, waits=()), "membrane", at(21))
    assert w.minimum == q(4, "h") and w.maximum == q(24, "h") and w.overrun == "prime-again"


# Drying of screeds for planning, days: 1 d/mm to the knee, 2 d/mm beyond. Cement knee 50 mm, calcium sulfate 40 mm
# (worked examples of BS 8203 practice and NHBC; 65 mm cement 80 d, 50 mm calcium sulfate 60 d, 75 mm 100 d and 110 d).
@pytest.mark.parametrize(
    "kind,thickness,days",
    [
        ("cement-screed", 25, 25),
        ("cement-screed", 50, 50),
        ("cement-screed", 65, 80),
        ("cement-screed", 75, 100),
        ("cement-screed", 100, 150),
        ("calcium-sulfate-screed", 30, 30),
        ("calcium-sulfate-screed", 50, 60),
        ("calcium-sulfate-screed", 75, 110),
    ],
)
def test_drying_estimate(kind: str, thickness: int, days: int) -> None:
    floor = shower_room().rooms[0].floor
    assert floor is not None
    base = replace(floor.base, kind=kind, thickness=q(thickness, "mm"))
    found = substrate._drying_time(replace(floor, base=base), at(21))
    assert found is not None and found == q(days, "d")
