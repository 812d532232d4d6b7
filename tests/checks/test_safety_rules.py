"""Rules about people, each at its limit: just inside passes, just outside fails. The document stands beside the figure."""

from __future__ import annotations

import pytest

from tests.checks.specs import at, mended, names, only, wall
from tilespec.diagnostics.model import Severity
from tilespec.practice.lookup import PARENTS

LAID = ("base cement render", "tile wall-tile; joint 3")


def job(*said: str) -> str:
    return 'job "Bathroom"\n  ' + "; ".join(said)


# ---------------------------------------------------------------- dry cutting


@pytest.mark.parametrize("family", sorted(PARENTS))
@pytest.mark.parametrize("method", ["dry saw", "dry grinder", "dry saw outdoors"])
def test_nobody_cuts_dry(family: str, method: str) -> None:
    """29 CFR 1926.1153, Table 1, has no such row; elsewhere the general duty holds (HSE guidance on power cutting)."""
    spec = wall(*LAID, head=job(f"practice {family}", f"cutting snap, {method}"))
    found = only(spec, "dry-cutting")
    assert found.severity is Severity.ERROR and at(spec, found) == method
    assert any("Table 1" in note for note in found.notes) is (family == "US")
    assert "cutting snap, wet saw" in mended(spec, found)
    # One mistake, one message.
    assert "silica-over-limit" not in names(spec)


@pytest.mark.parametrize("method", ["snap", "wet saw", "wet hand saw", "wet saw outdoors"])
def test_what_is_snapped_or_wet_is_no_fault(method: str) -> None:
    assert {"dry-cutting", "silica-over-limit"}.isdisjoint(names(wall(*LAID, head=job(f"cutting {method}"))))


# ---------------------------------------------------------------- the comparison against the limit


@pytest.mark.parametrize(
    ("family", "side", "fails"),
    [
        # Worked: 2 x side of cuts at 30 m an hour, 15.65 mg/m3 of dust (HSE, as reported), 45 % of silica, over 8 h.
        # 0.1 mg/m3 (Directive 2004/37/EC) is reached by 6.82 min, which is 3.41 m of cuts.
        ("EN", "1.70", False), ("EN", "1.71", True),
        # 50 ug/m3 (29 CFR 1926.1153) by half of it.
        ("US", "0.85", False), ("US", "0.86", True),
    ],
)
def test_a_tool_with_extraction(family: str, side: str, fails: bool) -> None:
    head = job(f"practice {family}", "cutting grinder with extraction")
    spec = wall(*LAID, head=head, size=f"{side} x {side}")
    assert ("silica-over-limit" in names(spec)) is fails
    if fails:
        found = only(spec, "silica-over-limit")
        assert found.severity is Severity.WARNING and at(spec, found) == "grinder with extraction"


def test_snapping_leaves_nothing_to_the_tool() -> None:
    spec = wall(*LAID, head=job("cutting snap, grinder with extraction"))
    assert "silica-over-limit" not in names(spec)


# ---------------------------------------------------------------- engineered stone


@pytest.mark.parametrize(
    ("head", "fails"),
    [
        # Model WHS Regulations: from 1 July 2024 (Safe Work Australia).
        (job("practice AU", "begin 2024-06-30"), False),
        (job("practice AU", "begin 2024-07-01"), True),
        (job("practice AU", "date 2024-06-28"), False),
        (job("practice AU", "date 2024-06-28", "begin 2024-07-01"), True),
        # No day is said: the work is still to come.
        (job("practice AU"), True),
        (job("practice UK", "begin 2026-03-09"), False),
    ],
)
def test_engineered_stone(head: str, fails: bool) -> None:
    spec = wall(*LAID, head=head, tile="300x300x9 engineered stone light; weight 20 kg/m2")
    assert ("engineered-stone-banned" in names(spec)) is fails


# ---------------------------------------------------------------- loads


@pytest.mark.parametrize(
    ("weight", "crew", "fault"),
    [
        # Worked by NIOSH 94-110 with the postures planned: 23 x 25/40 x 1 x 0.895 x 0.904 = 11.63 kg for one person, two thirds
        # of twice that, 15.5 kg, for two (HSE L23). The tile has 0.72 m2.
        ("16.1", "tiler 1", ""),
        ("16.2", "tiler 1", "one is in the crew"),
        ("16.2", "tiler 1, helper 1", ""),
        ("21.5", "tiler 1, helper 1", ""),
        ("21.6", "tiler 1, helper 1", "more than two people"),
        # Three lift half of what each could alone, added up: 17.45 kg (HSE L23 as reprinted).
        ("24.2", "tiler 2, helper 1", ""),
        ("24.3", "tiler 2, helper 1", "more than three people"),
        ("24.3", "tiler 1, helper 1; aids lifting frame", ""),
        ("24.3", "tiler 1; aids lifting frame", "one is in the crew"),
        # A good grip takes no weight away.
        ("21.6", "tiler 1, helper 1; aids suction lifters", "more than two people"),
    ],
)
def test_a_tile(weight: str, crew: str, fault: str) -> None:
    spec = wall(*LAID, head=job(f"crew {crew}"), tile=f"1200x600x9 porcelain; weight {weight} kg/m2")
    if not fault:
        assert "load-beyond-the-crew" not in names(spec)
    else:
        assert fault in only(spec, "load-beyond-the-crew").message


@pytest.mark.parametrize(
    ("pack", "fails"),
    [
        # Two thirds of twice 23 kg, the most that the equation starts from: 30.67 kg.
        ("25", False), ("30.6", False), ("30.7", True),
    ],
)
def test_a_bag_that_two_may_not_lift(pack: str, fails: bool) -> None:
    head = f"adhesive heavy class C2TE; pack {pack} kg; density 1.3 kg/L; water 0.26 L/kg"
    spec = wall(*LAID, head=head)
    assert ("load-beyond-the-crew" in names(spec)) is fails


def test_a_box_is_unpacked() -> None:
    spec = wall(*LAID, tile="300x300x9 porcelain; weight 20 kg/m2; box of 24")
    assert "load-beyond-the-crew" not in names(spec)
