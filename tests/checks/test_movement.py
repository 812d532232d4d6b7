"""Movement joints and sealants at their limits: just inside passes, just outside fails; and what the messages say.

The document stands beside the figure.
"""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, mended, names, only, practice, said, wall
from tilespec.diagnostics.model import Severity

CONCRETE, LAID = "base concrete", "tile floor-tile; joint 4"
SCREED = "base cement screed; thickness 65 mm; laid 2025-01-10"
BIG = "600x600x9 porcelain; barefoot class B; pendulum 40; dcof 0.6"


def ground(*lines: str, family: str = "EN", size: str = "3.6 x 1.8", head: str = "", heated: bool = False) -> str:
    """A floor of large tiles, so that it is quickly set out."""
    own = (SCREED, LAID, "heating pipes", *lines) if heated else (CONCRETE, LAID, *lines)
    return floor(*own, head=f"{practice(family)}\n{head}", size=size + (" heated" if heated else ""), tile=BIG)


def render(*lines: str, family: str = "EN", size: str = "2.4 x 2.4", head: str = "") -> str:
    return wall("base cement render", "tile wall-tile; joint 3", *lines, head=f"{practice(family)}\n{head}", size=size)


# ---------------------------------------------------------------- bays


@pytest.mark.parametrize(
    ("family", "length", "fails"),
    [
        # TCNA Handbook EJ171, ANSI A108.01, 3.7: 25 ft.
        ("US", "25 ft", False),
        ("US", "25.1 ft", True),
        # The Tile Association, Tiling Guide section 10, BS 5385-3: 8 to 10 m.
        ("UK", "10", False),
        ("UK", "10.1", True),
        ("EN", "8", False),
        ("EN", "8.1", True),
        # German trade rules: about 8 m on insulation.
        ("DE", "8", False),
        ("DE", "8.1", True),
        # A contractor's handbook from AS 3958: from memory.
        ("AU", "4.5", False),
        ("AU", "4.6", True),
    ],
)
def test_length_of_a_floor(family: str, length: str, fails: bool) -> None:
    assert ("movement-joint-missing-on-floor" in names(ground(family=family, size=f"{length} x 1.8"))) is fails
    assert ("movement-joint-missing-on-floor" in names(ground(family=family, size=f"1.8 x {length}"))) is fails


def test_the_message_says_where_a_joint_would_go() -> None:
    spec = ground(size="9 x 3")
    found = only(spec, "movement-joint-missing-on-floor")
    assert found.message == "The floor runs 9 m from edge to edge without a movement joint: 8 m at most."
    assert found.help == "Divide it, for example `movement joint 4.5 m from wall D; width 5 mm`."
    assert found.severity is Severity.WARNING
    assert names(ground("movement joint 4.5 m from wall D; width 5 mm", size="9 x 3")) == []


def test_the_proposal_is_in_the_words_of_the_spec() -> None:
    found = only(ground(family="US", size="30 ft x 10 ft"), "movement-joint-missing-on-floor")
    assert "`movement joint 180 in from wall D; width 1/4 in`" in found.help
    assert "movement-joint-missing-on-floor" not in names(
        ground("movement joint 180 in from wall D; width 1/4 in", family="US", size="30 ft x 10 ft")
    )


def test_a_joint_across_the_other_way_does_not_help() -> None:
    spec = ground("movement joint 1.5 from wall A; width 6", size="9 x 3")
    assert "between its movement joints" not in only(spec, "movement-joint-missing-on-floor").message
    short = ground("movement joint 8.5 from wall D; width 6", size="9 x 3")
    assert "runs 8.5 m between its movement joints and edges" in only(short, "movement-joint-missing-on-floor").message


def test_an_l_shaped_floor_is_measured_along_its_arms() -> None:
    """Computed: 9 m along wall A although its area is small."""
    body = f"  {CONCRETE}\n  {LAID}\n"
    spec = f"tile floor-tile {BIG}\nfloor walk A 9, B 1.8, C 6, corner external, D 1.8, E 3, F 3.6\n{body}"
    assert "runs 9 m" in only(spec, "movement-joint-missing-on-floor").message
    cut = spec + "  movement joint 3 from wall F; width 6\n"
    assert "movement-joint-missing-on-floor" not in names(cut)


@pytest.mark.parametrize(
    ("family", "length", "fails"),
    [
        # The Tile Association, Tiling Guide section 10, BS 5385-1: 3 to 4.5 m; EN follows it.
        ("UK", "4.5", False),
        ("UK", "4.6", True),
        ("EN", "4.5", False),
        ("EN", "4.6", True),
        # TCNA Handbook EJ171: 25 ft.
        ("US", "25 ft", False),
        ("US", "25.1 ft", True),
    ],
)
def test_length_of_a_wall(family: str, length: str, fails: bool) -> None:
    assert ("movement-joint-missing-on-wall" in names(render(family=family, size=f"{length} x 2.4"))) is fails


def test_a_wall_says_where() -> None:
    found = only(render(size="9.3 x 2.4"), "movement-joint-missing-on-wall")
    assert found.help == "Divide them, for example `movement joint 3.1 m from left; width 5 mm`, and 1 more at equal distances."


def test_a_wall_is_as_high_as_it_is_tiled() -> None:
    high = render(size="2.4 x 4.8")
    assert "`movement joint 2.4 m up; width 5 mm`" in only(high, "movement-joint-missing-on-wall").help
    assert "movement-joint-missing-on-wall" not in names(high.replace("joint 3", "joint 3; tiled to 2.1"))


@pytest.mark.parametrize(
    ("family", "size", "fails"),
    [
        # Guidance of The Tile Association, BS 5385-3:2014; ZDB leaflet in the area of DIN 18560-2: 8 m, 40 m2.
        ("UK", "8 x 5", False),
        ("UK", "8.1 x 1.8", True),
        ("UK", "8 x 5.1", True),
        ("DE", "8 x 5", False),
        ("DE", "8 x 5.1", True),
        # TCNA Handbook EJ171: 12 ft for sun and moisture, heated floors by practice.
        ("US", "12 ft x 6 ft", False),
        ("US", "12.1 ft x 6 ft", True),
        # No heated figure of its own: never more than the unheated 4.5 m.
        ("AU", "4.5 x 3", False),
        ("AU", "4.6 x 3", True),
    ],
)
def test_heated_bays(family: str, size: str, fails: bool) -> None:
    found = names(ground(family=family, size=size, heated=True))
    assert ("heated-bay-too-large" in found) is fails
    # The same floor is not told twice.
    assert "movement-joint-missing-on-floor" not in found


def test_a_heated_bay_says_its_area() -> None:
    found = only(ground(size="8 x 6", heated=True), "heated-bay-too-large")
    assert found.message == "The floor is heated and has a bay of 48 m2: 40 m2 at most."
    assert "`movement joint 4 m from wall D; width 10 mm`" in found.help
    assert found.severity is Severity.ERROR


@pytest.mark.parametrize(
    ("family", "size", "fails"),
    [
        # TCNA Handbook EJ171: 8 to 12 ft.
        ("US", "12 ft x 6 ft", False),
        ("US", "12.1 ft x 6 ft", True),
        # Guidance of The Tile Association, BS 5385-3:2014.
        ("UK", "8 x 5", False),
        ("UK", "8 x 5.1", True),
        ("UK", "8.1 x 3", True),
    ],
)
def test_sunlit_floors(family: str, size: str, fails: bool) -> None:
    spec = ground(family=family, size=size + " sunlit")
    assert ("sunlit-floor-without-joint" in names(spec)) is fails
    assert "sunlit-floor-without-joint" not in names(spec.replace(" sunlit", ""))


def test_a_sunlit_floor_that_is_heated_is_told_once() -> None:
    found = names(ground(size="9 x 3 sunlit", heated=True))
    assert found.count("heated-bay-too-large") == 1 and "sunlit-floor-without-joint" not in found


@pytest.mark.parametrize(
    ("size", "fails"),
    [
        # ZDB leaflet: about twice as long as wide; judged from 4 m (common practice, no source).
        ("4.8 x 2.4", False),
        ("4.9 x 2.4", True),
        ("2.4 x 4.9", True),
        ("4 x 1.2", False),
    ],
)
def test_shape_of_a_heated_bay(size: str, fails: bool) -> None:
    assert ("heated-bay-too-long" in names(ground(family="DE", size=size, heated=True))) is fails
    assert "heated-bay-too-long" not in names(ground(family="EN", size=size, heated=True))


def test_a_bay_that_is_too_long_altogether_is_not_also_narrow() -> None:
    assert "heated-bay-too-long" not in names(ground(family="DE", size="9 x 2.4", heated=True))


# ---------------------------------------------------------------- joints of the base


@pytest.mark.parametrize(
    ("place", "fails"), [("1.8", False), ("1.804", False), ("1.805", True), ("1.7", True)]
)
def test_a_joint_of_the_base_shows_through(place: str, fails: bool) -> None:
    """Carried through in the same place: The Tile Association, Tiling Guide section 10. Half of an 8 mm joint is 4 mm."""
    spec = ground("structural joint 1.8 from wall D; width 8", f"movement joint {place} from wall D; width 8")
    assert ("structural-joint-covered" in names(spec)) is fails


def test_a_covered_joint_says_what_to_write() -> None:
    spec = ground("structural joint 1.8 from wall D; width 8")
    found = only(spec, "structural-joint-covered")
    assert at(spec, found).startswith("structural joint")
    assert "`width 8 mm` or more" in found.help and found.severity is Severity.ERROR
    beside = only(
        ground("structural joint 1.8 from wall D; width 8", "movement joint 1.7 from wall D; width 8"), "structural-joint-covered"
    )
    assert "the movement joint stands 100 mm beside it" in beside.message


def test_a_joint_the_other_way_is_no_cover() -> None:
    spec = ground("structural joint 0.9 from wall A; width 8", "movement joint 1.8 from wall D; width 8")
    assert "structural-joint-covered" in names(spec)


def test_on_walls_too() -> None:
    spec = render("structural joint 1.2 from left; width 8")
    assert "structural-joint-covered" in names(spec)
    assert names(render("structural joint 1.2 from left; width 8", "movement joint 1.2 from left; width 8")) == []


@pytest.mark.parametrize(("width", "fails"), [("9", True), ("10", False), ("12", False)])
def test_as_wide_as_the_joint_below(width: str, fails: bool) -> None:
    """At least the same width: The Tile Association, Tiling Guide section 10."""
    spec = ground("structural joint 1.8 from wall D; width 10", f"movement joint 1.8 from wall D; width {width}")
    assert ("joint-narrower-than-structural-joint" in names(spec)) is fails
    if fails:
        found = only(spec, "joint-narrower-than-structural-joint")
        assert found.message == "The movement joint of the floor is 9 mm wide over a joint of the base of 10 mm."
        assert names(mended(spec, found)) == []


def test_a_width_that_nobody_said_is_asked_instead() -> None:
    spec = ground("structural joint 1.8 from wall D; width 10", "movement joint 1.8 from wall D")
    assert names(spec) == []


# ---------------------------------------------------------------- widths


@pytest.mark.parametrize(
    ("family", "width", "fails"),
    [
        # The Tile Association, Tiling Guide section 10, citing the British Standard: 6 mm.
        ("UK", "6", False),
        ("UK", "5", True),
        # TCNA Handbook EJ171: 1/4 in on floors.
        ("US", "1/4 in", False),
        ("US", "3/16 in", True),
        # A contractor's handbook from AS 3958.
        ("AU", "6", False),
        ("AU", "5", True),
        # Common practice.
        ("EN", "5", False),
        ("EN", "4", True),
    ],
)
def test_width_of_a_joint_in_a_floor(family: str, width: str, fails: bool) -> None:
    spec = ground(f"movement joint 1.8 from wall D; width {width}", family=family)
    assert ("movement-joint-too-narrow" in names(spec)) is fails


@pytest.mark.parametrize(("width", "fails"), [("1/8 in", False), ("0.1 in", True)])
def test_walls_and_mosaic_take_narrower_joints(width: str, fails: bool) -> None:
    """TCNA Handbook EJ171: 1/8 in on walls and in mosaic."""
    spec = render(f"movement joint 1.2 from left; width {width}", family="US")
    assert ("movement-joint-too-narrow" in names(spec)) is fails
    large = ground(f"movement joint 1.8 from wall D; width {width}", family="US")
    mosaic = large.replace(BIG, "300x300x6 mosaic porcelain; dcof 0.6")
    assert ("movement-joint-too-narrow" in names(mosaic)) is fails


def test_one_narrow_joint_over_a_wide_one_is_told_once() -> None:
    spec = ground("structural joint 1.8 from wall D; width 10", "movement joint 1.8 from wall D; width 4")
    assert names(spec) == ["joint-narrower-than-structural-joint"]


@pytest.mark.parametrize(
    ("family", "width", "heated", "fails"),
    [
        # 6 mm: The Tile Association. 1/4 in: EJ171. 5 and 10 mm: German trade glossary.
        ("UK", "6", False, False),
        ("UK", "5", False, True),
        ("US", "1/4 in", False, False),
        ("US", "3/16 in", True, True),
        ("DE", "5", False, False),
        ("DE", "4", False, True),
        ("DE", "9", True, True),
        ("DE", "10", True, False),
    ],
)
def test_edge_of_a_floor(family: str, width: str, heated: bool, fails: bool) -> None:
    spec = ground(f"perimeter joint {width}", family=family, heated=heated)
    name = "perimeter-joint-on-heated-floor" if heated else "perimeter-joint-too-narrow"
    assert [n for n in names(spec) if n.startswith("perimeter")] == ([name] if fails else [])
    if fails:
        found = only(spec, name)
        assert at(spec, found) == width and name not in names(mended(spec, found))


@pytest.mark.parametrize(("size", "fails"), [("2 x 1.8", False), ("2.1 x 1.8", True)])
def test_a_short_floor_in_the_uk_needs_no_edge_joint(size: str, fails: bool) -> None:
    """BS 5385-3 as restated: above 2 m between restraints."""
    assert ("perimeter-joint-too-narrow" in names(ground("perimeter joint 4", family="UK", size=size))) is fails


@pytest.mark.parametrize(
    ("cls", "width", "needs"),
    [
        # Worked example: 8000 mm x 12e-6 x 20 = 1.92 mm; class 25 wants 7.7 mm, class 20 9.6 mm.
        ("25LM", "7", "7.7 mm"),
        ("25LM", "7.7", ""),
        ("20LM", "9", "9.6 mm"),
        ("20LM", "9.6", ""),
    ],
)
def test_a_joint_takes_what_its_bays_move(cls: str, width: str, needs: str) -> None:
    head = f"sealant own-seal class XS1 {cls}; neutral; pack 310 mL"
    spec = ground(f"movement joint 8 from wall D; width {width}", family="UK", size="16 x 2.4", head=head, heated=True)
    found = [d for d in said(spec) if d.name == "joint-too-narrow-for-its-movement"]
    assert bool(found) is bool(needs)
    if found:
        assert f"it needs {needs}" in found[0].message and "takes up 1.9 mm" in found[0].message


def test_the_edge_takes_half_a_bay() -> None:
    """Computed: 8000 mm x 12e-6 x 20 / 2 = 0.96 mm; class 12.5 wants 7.7 mm."""
    head = "sealant own-seal class XS1 12.5E; neutral; pack 310 mL"
    spec = ground("perimeter joint 7", family="UK", size="8 x 2.4", head=head, heated=True)
    assert "needs 7.7 mm" in only(spec, "joint-too-narrow-for-its-movement").message
    assert "`8 mm` or more" in only(spec, "joint-too-narrow-for-its-movement").help
    assert names(spec.replace("joint 7", "joint 8")) == []


def test_a_floor_that_stays_cold_is_not_reckoned() -> None:
    spec = ground("movement joint 8 from wall D; width 6", family="UK", size="16 x 2.4")
    assert "joint-too-narrow-for-its-movement" not in names(spec)


# ---------------------------------------------------------------- sealants

BASE_JOINT = ("structural joint 1.8 from wall D; width 8", "movement joint 1.8 from wall D; width 8")


@pytest.mark.parametrize(("cls", "fails"), [("25LM", False), ("20HM", False), ("12.5E", True), ("7.5P", True)])
def test_class_over_a_joint_of_the_base(cls: str, fails: bool) -> None:
    """BS 5385 as restated: not below class 20 over structural joints. ISO 11600 names the classes."""
    spec = ground(*BASE_JOINT, head=f"sealant own-seal class XS1 {cls}; neutral; pack 310 mL")
    assert ("sealant-class-low-over-structural-joint" in names(spec)) is fails


def test_the_data_sheet_goes_before_the_class() -> None:
    spec = ground(*BASE_JOINT, head="sealant own-seal class XS1 25LM; neutral; pack 310 mL; movement 15 %")
    found = only(spec, "sealant-class-low-over-structural-joint")
    assert at(spec, found) == "15 %"
    assert found.message == (
        "Sealant own-seal moves by 15 % of its width and goes over a joint of the base of the floor: 20 % at least."
    )


@pytest.mark.parametrize(
    ("family", "width", "deep", "name"),
    [
        # Common practice: as deep as wide in narrow joints, half in wider ones, 6 mm at the least.
        ("EN", "8", "8", ""),
        ("EN", "8", "9", "sealant-too-deep"),
        ("EN", "8", "6", ""),
        ("EN", "8", "5", "sealant-too-shallow"),
        ("EN", "5", "5", ""),
        ("EN", "20", "10", ""),
        ("EN", "20", "9", "sealant-too-shallow"),
        # TCNA Handbook EJ171: half the width over a backer rod.
        ("US", "1/2 in", "1/4 in", ""),
        ("US", "1/2 in", "5/16 in", "sealant-too-deep"),
        ("US", "1/2 in", "3/16 in", "sealant-too-shallow"),
    ],
)
def test_depth_of_sealant(family: str, width: str, deep: str, name: str) -> None:
    spec = ground(f"movement joint 1.8 from wall D; width {width}; {deep} deep", family=family)
    found = [d for d in said(spec) if d.name.startswith("sealant-too")]
    assert [d.name for d in found] == ([name] if name else [])
    for d in found:
        assert at(spec, d) == deep and names(mended(spec, d)) == []


@pytest.mark.parametrize(
    ("cls", "fails"), [("XS1 25LM", False), ("S1", False), ("XS2", True), ("S3 25LM", True), ("25LM", True)]
)
def test_mould_in_the_shower(cls: str, fails: bool) -> None:
    """EN 15651-3: S1 resists mould best. XS1 in showers by common practice; the X is for shrinkage."""
    head = f"sealant own-seal class {cls}; neutral; pack 310 mL"
    assert ("sealant-without-mould-class-in-shower" in names(render("shower zone", head=head))) is fails
    assert "sealant-without-mould-class-in-shower" not in names(render(head=head))


def test_a_sealant_with_no_class_said_is_no_fault() -> None:
    assert names(render("shower zone", head="sealant own-seal neutral; pack 310 mL")) == []


def test_one_sealant_on_two_shower_walls_is_told_once() -> None:
    walls = "".join(f"wall {w} 2.4 x 2.4\n  base cement render\n  tile wall-tile; joint 3\n" for w in "AB")
    spec = (
        "sealant own-seal class S3; neutral; pack 310 mL\ntile wall-tile 300x300x9 porcelain; barefoot class B\n"
        f"floor 2.4 x 2.4\n  base concrete\n  tile wall-tile; joint 3\n"
        f"shower in corner A B, 0.9 x 0.9; tray; head at 2.0\n{walls}"
    )
    assert "The same holds for" in only(spec, "sealant-without-mould-class-in-shower").notes[-2]


@pytest.mark.parametrize(("zone", "fails"), [("shower zone", True), ("bath zone", True), ("splash area", False)])
def test_acrylic(zone: str, fails: bool) -> None:
    """BS 5385-4:2015 as restated: a curing sealant in wet movement joints."""
    spec = render(zone, head="sealant own-seal acrylic; pack 310 mL")
    found = [n for n in names(spec) if n == "drying-sealant-in-wet-joint"]
    assert bool(found) is fails
    assert "sealant-without-mould-class-in-shower" not in names(spec)


def test_acetoxy_at_stone_and_mirror() -> None:
    """Common practice: neutral cure at stone and mirrors."""
    head = "sealant own-seal class XS1 25LM; acetoxy; pack 310 mL"
    spec = render(head=head)
    assert names(spec) == []
    stone = spec.replace("300x300x9 porcelain; weight 20 kg/m2", "300x300x10 marble; weight 27 kg/m2")
    assert names(stone) == ["acetoxy-sealant-at-stone"]
    mirror = "  mirror 0.6 x 0.8; 0.9 from left, 1.2 up\n"
    assert names(spec + mirror) == ["acetoxy-at-mirror"]
    # The same sealant on one wall is told once.
    assert names(stone + mirror) == ["acetoxy-sealant-at-stone"]


def test_a_neutral_sealant_is_chosen_where_both_are_declared() -> None:
    head = "sealant sour class XS1 25LM; acetoxy; pack 310 mL\nsealant mild class XS1 25LM; neutral; pack 310 mL"
    spec = render("mirror 0.6 x 0.8; 0.9 from left, 1.2 up", head=head)
    assert names(spec) == []
