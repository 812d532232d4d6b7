"""Silica by way of cutting, against published and worked eight-hour values; the respirators of OSHA Table 1; waste.

The source stands beside each check. "worked" is arithmetic of the formula, done again by hand.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.sequence.building import job, q, run
from tests.takeoff.building import en, laid, surface, tile, wall_job
from tilespec.job.types import PLANNED, Cutter
from tilespec.practice.lookup import practice
from tilespec.quantity import Limit, Worked
from tilespec.sequence import exposure, sequence
from tilespec.sequence.types import Dust, Sequence
from tilespec.takeoff import measure

EN, US = practice("EN"), practice("US")
FIRED = tile("t", 600, 300)


def value(*parts: tuple[object, object], unit: str = "ug/m3") -> F:
    """Eight-hour value of (concentration, hours)."""
    named = [(f"part_{'abc'[n]}", q(c, unit), q(t, "h")) for n, (c, t) in enumerate(parts)]
    return exposure.weighted(named, EN).number


@pytest.mark.parametrize(
    ("parts", "unit", "expected"),
    [
        # 29 CFR 1910.1000(d)(1)(ii), the regulation's own example: 2 h at 150, 2 h at 75, 4 h at 50 ppm make 81.25 ppm.
        (((150, 2), (75, 2), (50, 4)), "", F("81.25")),
        # The rest is worked.
        (((80, "1.5"), (200, "0.5"), (5, 6)), "ug/m3", F("31.25")),
        (((400, "0.5"), (10, "7.5")), "ug/m3", F("34.375")),
        # What is no exposure counts as nought, over eight hours still.
        (((180, 2),), "ug/m3", F(45)),
    ],
)
def test_eight_hour_value(parts: tuple[tuple[object, object], ...], unit: str, expected: F) -> None:
    assert value(*parts, unit=unit) == expected


def test_between_action_level_and_limit() -> None:
    """31.25 ug/m3 lies above the action level and below the limit of 29 CFR 1926.1153."""
    found = value((80, "1.5"), (200, "0.5"), (5, 6)) * F(1, 10**9)
    assert US.limit("silica-action").value < found < US.limit("silica-limit").value


def test_what_reaches_a_limit_in_a_short_time() -> None:
    """Worked: two hours alone reach 50 ug/m3 at 200; a quarter of an hour reaches 0.1 mg/m3 at 3.2 mg/m3."""
    assert exposure.reaching(q(50, "ug/m3"), q(2, "h"), US).number == 200
    found = exposure.band("dry-grinder", (), EN)
    assert found is not None and found.low.number == F("3.2") and found.high is None
    assert isinstance(found.low.why, Worked)
    assert {i.why.key for _, i in found.low.why.inputs if isinstance(i.why, Limit)} >= {"dust-dry-time", "dust-dry-limit"}


def test_extraction_by_the_silica_in_the_tile() -> None:
    """0.85 to 15.65 mg/m3 of respirable dust (HSE test, construction press, 2020) with 30 to 45 % of silica (published range)."""
    found = exposure.band("extraction-grinder", (FIRED,), EN)
    assert found is not None and found.high is not None
    assert (found.low.number, found.high.number) == (F("0.255"), F("7.0425"))
    sandstone = replace(FIRED, stone=True, body="stone", words=("sandstone",))
    both = exposure.band("extraction-saw", (FIRED, sandstone), EN)
    assert both is not None and both.high is not None
    # The least of the one, the most of the other: 70 to 95 % (Safe Work Australia).
    assert (both.low.number, both.high.number) == (F("0.85") * F("0.3"), F("15.65") * F("0.95"))


@pytest.mark.parametrize("method", ["snap", "wet-saw", "wet-hand-saw", "wet-core", "mixing", "break-out"])
def test_no_figure_is_made_up(method: str) -> None:
    assert exposure.band(method, (FIRED,), EN) is None


# ---------------------------------------------------------------- 29 CFR 1926.1153, Table 1


@pytest.mark.parametrize(
    ("tasks", "factors"),
    [
        # Rows (xii)(b) indoors and (ii) outdoors. Four and a half hours together: each takes its higher respirator.
        ((("extraction-grinder", False, "2.5"), ("wet-hand-saw", True, 2)), (10, 10)),
        # Four hours are not more than four. That the tasks are added up is (c)(3), from memory.
        ((("extraction-grinder", False, 2), ("wet-hand-saw", True, 2)), (0, 0)),
        # Row (ii) indoors asks for one from the first minute.
        ((("wet-hand-saw", False, "0.5"),), (10,)),
        # Row (i): none, however long.
        ((("wet-saw", False, 6),), (0,)),
        # On no row: dry, snapping, mixing, and a saw with extraction on tile (its row is for fibre cement outdoors). They do not
        # count towards the four hours either.
        ((("dry-grinder", False, 3), ("snap", False, 3), ("extraction-saw", True, 3), ("mixing", False, 3)), (None,) * 4),
        ((("snap", False, 4), ("extraction-grinder", False, 1)), (None, 0)),
    ],
)
def test_table_one(tasks: tuple[tuple[str, bool, object], ...], factors: tuple[int | None, ...]) -> None:
    found = exposure.table_one([(method, out, q(hours, "h")) for method, out, hours in tasks], US)
    assert tuple(None if f is None else f.value for f in found) == factors


def test_only_the_us_has_the_table() -> None:
    for family in ("EN", "DE", "UK", "AU"):
        assert exposure.table_one([("wet-saw", False, q(1, "h"))], practice(family)) == (None,)


# ---------------------------------------------------------------- jobs


def planned(s: Sequence, work: str) -> Dust | None:
    assert s.exposure is not None
    return next((d for d in s.exposure.planned if d.work == work), None)


SEEDS = range(12)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_job_as_it_is_planned(seed: int) -> None:
    s = run(job(seed, cutting=PLANNED))
    assert s.exposure is not None
    for d in s.exposure.planned:
        assert 0 < d.a_day.value <= d.time.value and d.a_day.value <= 8 * 3600
        assert d.low is None and d.high is None
    # Nothing that has a figure is planned: there is no sum to be mistaken for one.
    assert s.exposure.low is None and s.exposure.high is None
    assert all(d.low is not None for d in s.exposure.instead)


@pytest.mark.parametrize("seed", SEEDS)
def test_less_is_left_to_the_saw_where_tiles_are_snapped(seed: int) -> None:
    snapped, sawn = (planned(run(job(seed, cutting=c)), "sawn-cuts") for c in (PLANNED, (Cutter("wet-saw"),)))
    assert (snapped.time.value if snapped else 0) <= (sawn.time.value if sawn else 0)


def test_the_tools_that_are_named_take_their_cuts() -> None:
    found = {}
    for seed in SEEDS:
        s = run(job(seed, cutting=(Cutter("wet-saw", True), Cutter("extraction-grinder"))))
        assert s.exposure is not None
        found.update({d.work: (d.method, d.outdoors) for d in s.exposure.planned})
    assert found["sawn-cuts"] == ("wet-saw", True)
    assert found.get("shaped-cuts", ("extraction-grinder", False)) == ("extraction-grinder", False)


def test_a_day_with_extraction_is_the_formula() -> None:
    s = run(job(3, cutting=(Cutter("extraction-saw"),)))
    d = planned(s, "sawn-cuts")
    assert d is not None and d.high is not None and isinstance(d.high.why, Worked)
    named = dict(d.high.why.inputs)
    assert d.high.value == named["method concentration"].value * d.a_day.value / (8 * 3600)
    assert s.exposure is not None and s.exposure.high == d.high


@pytest.mark.parametrize("seed", SEEDS)
def test_steps_where_tile_is_cut_say_how(seed: int) -> None:
    s = run(job(seed, cutting=PLANNED))
    for op in s.operations:
        assert ({"cut-snap", "cut-wet"} <= set(op.facts)) is (op.kind in exposure.CUTTING)


# ---------------------------------------------------------------- lifting at the steps, waste


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_too_heavy_for_one_is_said_where_it_is_lifted(seed: int) -> None:
    s = run(job(seed))
    heavy = {(f.what, f.name) for f in s.lifts if f.measure != "alone"}
    said = {(f.what, f.name) for op in s.operations for f in op.loads}
    assert said <= heavy
    # What several steps use is said at each; bags, boxes and tiles all have one at least.
    assert {name for _, name in heavy} == {name for _, name in said}
    assert all("lifting" in op.hazards for op in s.operations if op.loads)


@pytest.mark.parametrize("seed", SEEDS)
def test_empty_packs_are_those_of_the_order_list(seed: int) -> None:
    s = run(job(seed))
    assert s.waste is not None
    for t in s.waste.thrown:
        assert t.packs.value >= 1 and t.packs.value.denominator == 1


def test_slurry_is_what_the_blade_takes_out() -> None:
    """Worked: 4.82 m of cuts, 2 mm of kerf, 9 mm of tile: 86.76 mL."""
    j = replace(wall_job(surface("A", "2.41", "2.41", laid(tile("t", 600, 300), joint=2))), cutting=(Cutter("wet-saw"),))
    s = sequence(j, en(), measure(j, en()))
    assert s.waste is not None and s.waste.slurry is not None
    assert s.waste.slurry.number == F("4.82") * 2 * 9 / 1000
    dry = replace(j, cutting=(Cutter("extraction-grinder"),))
    assert (w := sequence(dry, en(), measure(dry, en())).waste) is not None and w.slurry is None
