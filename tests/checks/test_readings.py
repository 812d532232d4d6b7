"""Readings that are written back: flatness, strength, spring, contact, steps, the finished face. Each at its limit."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.checks.specs import at, floor, names, only, practice, said, wall
from tilespec.checks.straightedge import _points
from tilespec.diagnostics.model import Severity
from tilespec.formula.flatness import between
from tilespec.practice.lookup import practice as limits
from tilespec.quantity import given
from tilespec.source import Span

SCREED = "base cement screed; thickness 65 mm; laid 2025-01-10"
LAID = "tile floor-tile; joint 3"
RENDER = ("base cement render", "tile wall-tile; joint 3")
BY = '2026-03-12 by "A. Finch"'
LARGE = "600x600x9 porcelain; barefoot class B; weight 20 kg/m2"


def flat(family: str, reading: str, *, large: bool = False) -> str:
    size = LARGE if large else "100x100x8 porcelain; barefoot class B"
    return floor(SCREED, LAID, head=practice(family), tile=size) + f"record substrate-flatness on floor {BY}; reading {reading}\n"


@pytest.mark.parametrize(
    ("family", "large", "reading", "fails"),
    [
        # BS 8204-1, SR1: 3 mm under 2 m, by page of The Concrete Society.
        ("UK", False, "3; over 2 m", False),
        ("UK", False, "3.1; over 2 m", True),
        ("EN", False, "3.1; over 2 m", True),
        # More than that under a shorter one is more under 2 m too; less proves nothing.
        ("UK", False, "3.1; over 1 m", True),
        ("UK", False, "2.9; over 1 m", False),
        # Under a longer one in proportion: 3 mm × 3 ÷ 2. Common practice.
        ("UK", False, "4.5; over 3 m", False),
        ("UK", False, "4.6; over 3 m", True),
        # ANSI A108.02 as the trade press gives it: 1/4 in under 10 ft, 1/8 in from an edge of 15 in; 1/16 in under 1 ft.
        ("US", False, "1/4 in; over 10 ft", False),
        ("US", False, "5/16 in; over 10 ft", True),
        ("US", True, "1/8 in; over 10 ft", False),
        ("US", True, "3/16 in; over 10 ft", True),
        ("US", False, "1/16 in; over 1 ft", False),
        ("US", False, "1/8 in; over 1 ft", True),
        ("US", False, "1/8 in; over 4 ft", False),
        # DIN 18202 table 3, rows 3 and 4, by the handbook of the German building trade: 4 and 3 mm at 1 m, 10 and 9 mm at 4 m.
        ("DE", False, "6; over 2 m", False),
        ("DE", False, "6.1; over 2 m", True),
        ("DE", False, "4; over 1 m", False),
        ("DE", False, "4.1; over 1 m", True),
        ("DE", True, "3.1; over 1 m", True),
        # Between 2 and 4 m in a straight line: 8 mm at 3 m.
        ("DE", False, "8; over 3 m", False),
        ("DE", False, "8.1; over 3 m", True),
    ],
)
def test_flatness(family: str, large: bool, reading: str, fails: bool) -> None:
    assert ("flatness-over-tolerance" in names(flat(family, reading, large=large))) is fails


def test_what_the_flatness_message_says() -> None:
    spec = flat("UK", "5; over 2 m")
    found = only(spec, "flatness-over-tolerance")
    assert found.message == "The base of the floor is 5 mm off under 2 m; 3 mm is the most."
    assert at(spec, found) == "5" and found.severity is Severity.WARNING
    assert any("BS 8204-1, SR1" in n for n in found.notes)
    large = only(flat("US", "1/4 in; over 10 ft", large=True), "flatness-over-tolerance").message
    assert large == "The base of the floor is 1/4 in off under 10 ft; 1/8 in is the most under tiles this large."


def test_a_straightedge_of_another_length_is_said() -> None:
    assert any("names no straightedge: write `over 2 m`" in n for n in only(flat("UK", "5"), "flatness-over-tolerance").notes)
    longer = only(flat("UK", "5; over 3 m"), "flatness-over-tolerance")
    assert "4.5 mm is the most" in longer.message
    assert any("The limit is for a straightedge of 2 m." in n for n in longer.notes)
    assert any("(more − less)" in n for n in only(flat("DE", "9; over 3 m"), "flatness-over-tolerance").notes)


@pytest.mark.parametrize(
    ("key", "over", "extended"),
    [
        # DIN 18202 table 3 as extended in the same handbook, in whole millimetres: the straight line lies within one of them.
        ("flatness-wall-table", "0.6", 4),
        ("flatness-wall-table", "1.5", 6),
        ("flatness-wall-table", "3", 8),
        ("flatness-wall-table", "6", 13),
        ("flatness-wall-table", "8", 17),
        ("flatness-wall-large-table", "0.6", 2),
        ("flatness-wall-large-table", "2.5", 6),
        ("flatness-wall-large-table", "8", 13),
        # Outside the table that of its nearest length.
        ("flatness-floor-table", "0.05", 2),
        ("flatness-floor-table", "20", 15),
    ],
)
def test_between_the_lengths_of_the_table(key: str, over: str, extended: int) -> None:
    found = between(given(over, "m", Span("", 0, 0)), _points(limits("DE").word(key)))
    assert abs(found.mm - extended) < F(6, 10)


def test_a_stricter_limit_of_the_firm_goes_before_the_table() -> None:
    spec = 'limit flatness-floor 3 mm because "our warranty"\n' + flat("DE", "4; over 2 m")
    assert "flatness-over-tolerance" in names(spec)
    assert "flatness-over-tolerance" in names(spec.replace("over 2 m", "over 1 m"))


def test_the_last_reading_under_each_straightedge_counts() -> None:
    spec = flat("US", "3/8 in; over 10 ft")
    again = spec.replace(BY, '2026-03-14 by "A. Finch"').splitlines()[-1].replace("3/8 in", "1/8 in")
    assert "flatness-over-tolerance" in names(spec)
    assert "flatness-over-tolerance" not in names(f"{spec}{again}\n")
    assert "flatness-over-tolerance" in names(f"{spec}{again.replace('over 10 ft', 'over 1 ft')}\n")


def test_a_reading_that_failed_by_its_own_words_holds_the_work_and_is_no_mistake() -> None:
    assert "flatness-over-tolerance" not in names(flat("UK", "5; over 2 m; result fail"))


def test_a_reading_of_the_room_is_about_each_of_its_surfaces() -> None:
    spec = wall(*RENDER) + f"record substrate-flatness {BY}; reading 4; over 2 m\n"
    assert only(spec, "flatness-over-tolerance").message.startswith("The base of wall A")


@pytest.mark.parametrize(
    ("cls", "reading", "fails"),
    [
        # EN 12004-1 by a trade leaflet: C2 1.0 N/mm2, C1 0.5 N/mm2.
        ("C2TE S1", "1.0", False),
        ("C2TE S1", "0.99", True),
        ("C1T", "0.5", False),
        ("C1T", "0.49", True),
        # None of cement chosen: judged as the least of them.
        ("", "0.6", False),
        ("", "0.4", True),
    ],
)
def test_strength_of_the_base(cls: str, reading: str, fails: bool) -> None:
    head = f"adhesive own class {cls}; pack 25 kg" if cls else ""
    spec = floor(SCREED, LAID, head=head) + f"record substrate-strength on floor {BY}; reading {reading}\n"
    assert ("base-weaker-than-adhesive" in names(spec)) is fails


@pytest.mark.parametrize(
    ("tile", "deflection", "fails"),
    [
        # NTCA Reference Manual: 1/360 of 2.7 m is 7.5 mm. The stone trade: 1/720, 3.75 mm.
        ("100x100x8 porcelain; barefoot class B", "7.5", False),
        ("100x100x8 porcelain; barefoot class B", "7.6", True),
        ("300x300x10 slate; barefoot class B; weight 25 kg/m2", "3.7", False),
        ("300x300x10 slate; barefoot class B; weight 25 kg/m2", "3.8", True),
    ],
)
def test_spring_of_a_timber_floor(tile: str, deflection: str, fails: bool) -> None:
    base = f"base timber; joists 400 mm; boards 22 mm; span 2.7; deflection {deflection}"
    assert ("floor-too-springy" in names(floor(base, LAID, tile=tile))) is fails


def contact(spec: str, reading: str, place: str = "wall A") -> bool:
    return "contact-too-low" in names(f"{spec}record contact on {place} {BY}; reading {reading} %; samples 3\n")


@pytest.mark.parametrize(("reading", "fails"), [("80", False), ("79", True)])
def test_contact_in_the_dry(reading: str, fails: bool) -> None:
    """ANSI A108.5 by the trade press: 80 % where it is dry."""
    assert contact(wall(*RENDER), reading) is fails
    assert contact(floor(SCREED, LAID), reading, "floor") is fails


@pytest.mark.parametrize(("reading", "fails"), [("95", False), ("94", True)])
def test_contact_in_the_wet_on_uk_floors_and_under_stone(reading: str, fails: bool) -> None:
    """ANSI A108.5: 95 % where it is wet. NHBC Standards 9.3.5: a solid bed on floors. Stone: US trade practice."""
    assert contact(wall(*RENDER, "shower zone"), reading) is fails
    assert contact(floor(SCREED, LAID, head=practice("UK")), reading, "floor") is fails
    slate = "300x300x8 slate; weight 19 kg/m2"
    assert contact(wall("base cement board", "tile wall-tile; joint 3", tile=slate), reading) is fails


def test_what_the_contact_message_says() -> None:
    spec = wall(*RENDER, "shower zone") + f"record contact on wall A {BY}; reading 88 %; samples 3\n"
    found = only(spec, "contact-too-low")
    lifted = "The tiles lifted on wall A had 88 % of their back in adhesive"
    assert found.message == f"{lifted}; where it gets wet it is 95 % at least."
    assert at(spec, found) == "88 %"


def test_tiles_lifted_on_one_surface_count_together() -> None:
    """ANSI A108 by the trade press: three."""
    one = f"record contact on wall A {BY}; reading 96 %; samples "
    spec = wall(*RENDER)
    found = only(f"{spec}{one}2\n", "too-few-tiles-lifted")
    assert found.message == "2 tiles were lifted on wall A to look at the adhesive; 3 show how it was laid."
    assert "too-few-tiles-lifted" not in names(f"{spec}{one}2\n{one}1\n")
    assert "too-few-tiles-lifted" not in names(f"{spec}record contact on wall A {BY}; reading 96 %\n")


def steps(family: str, joint: str, reading: str, *, tile: str = "300x300x9 porcelain; weight 20 kg/m2", more: str = "") -> bool:
    spec = wall("base cement board", f"tile wall-tile; joint {joint}", head=practice(family), tile=tile)
    return "lippage-over-limit" in names(f"{spec}{more}record lippage on wall A {BY}; reading {reading}\n")


@pytest.mark.parametrize(
    ("family", "joint", "reading", "fails"),
    [
        # NHBC Standards 9.1.7: 1 mm at joints up to 6 mm, 2 mm at wider ones.
        ("UK", "6", "1", False),
        ("UK", "6", "1.1", True),
        ("UK", "7", "2", False),
        ("UK", "7", "2.1", True),
        # ANSI A108.02, 4.3.7: 1/32 in under 1/4 in, from there 1/16 in.
        ("US", "3/16 in", "1/32 in", False),
        ("US", "3/16 in", "1/16 in", True),
        ("US", "1/4 in", "1/16 in", False),
        # Guide of New South Wales, 12.9: 1 mm at joints up to 3 mm.
        ("AU", "3", "1.1", True),
        ("AU", "4", "2", False),
        # DIN 18333 as yardstick: 1.5 mm.
        ("DE", "3", "1.5", False),
        ("DE", "3", "1.6", True),
    ],
)
def test_steps_between_tiles(family: str, joint: str, reading: str, fails: bool) -> None:
    assert steps(family, joint, reading) is fails


def test_large_faces_in_germany_have_a_yardstick_of_their_own() -> None:
    """DIN 18333: 1.5 mm up to 0.25 m2, 2 mm above."""
    assert steps("DE", "3", "1.6", tile="500x500x9 porcelain; weight 20 kg/m2")
    assert not steps("DE", "3", "2", tile="600x600x9 porcelain; weight 20 kg/m2")


def test_stone_has_the_stricter_limit_at_any_joint() -> None:
    """US stone trade manual by The Construction Specifier: 1/32 in, here 1 mm."""
    assert steps("UK", "7", "1.1", tile="300x300x8 slate; weight 19 kg/m2")


def test_the_measured_bow_comes_on_top() -> None:
    """ANSI A108.02, 4.3.7: plus the actual warpage."""
    came = "delivery wall-tile 2026-03-02; warp 0.5\n"
    assert not steps("UK", "3", "1.5", more=came) and steps("UK", "3", "1.6", more=came)
    spec = wall(*RENDER) + came + f"record lippage on wall A {BY}; reading 2\n"
    found = only(spec, "lippage-over-limit")
    assert found.message == (
        "The tiles of wall A stand 2 mm off each other; 1.5 mm is the most at a joint of 3 mm with tiles bowed as these are."
    )
    assert any("limit + bow" in n for n in found.notes)


@pytest.mark.parametrize(
    ("family", "reading", "fails"),
    [
        # NHBC Standards 9.1.7: 3 mm under 2 m. Guide of New South Wales, 12.9: 4 mm. DIN 18202, row 3: 6 mm; 4 mm under 1 m.
        ("UK", "3; over 2 m", False),
        ("UK", "3.1; over 2 m", True),
        ("AU", "4; over 2 m", False),
        ("AU", "4.1; over 2 m", True),
        ("DE", "6; over 2 m", False),
        ("DE", "6.1; over 2 m", True),
        ("DE", "4.1; over 1 m", True),
    ],
)
def test_the_finished_face(family: str, reading: str, fails: bool) -> None:
    spec = wall(*RENDER, head=practice(family)) + f"record finished-plane on wall A {BY}; reading {reading}\n"
    assert ("finished-plane-over-tolerance" in names(spec)) is fails


def test_a_spec_without_readings_is_silent() -> None:
    assert said(wall(*RENDER)) == ()
