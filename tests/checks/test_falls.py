"""Falls, drains and levels: each rule at its limit, and what its message says. The document stands beside the figure."""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, mended, names, only, practice, wall

SCREED = "base cement screed; thickness 65 mm; laid 2025-01-10"
LAID = "tile floor-tile; joint 3"
FALL = "fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A"
SHOWER = "shower in corner D A, 0.9 x 0.9; head at height 2.1"
TILED = "\n  base cement render\n  tile floor-tile; joint 3\n"
WALLS = f"wall A 2.4 x 2.4{TILED}wall D{TILED}"
DOOR = f"wall C{TILED}  door 0.8 x 2.0; 0.9 from left"


@pytest.mark.parametrize(
    ("family", "fall", "fails"),
    [
        # 1:40 often quoted for BS 5385-3, 1:35 in two pages of the trade's press that cite it.
        ("UK", "1:40", False),
        ("UK", "1:39", True),
        ("UK", "1:35", True),
        # Over the limit: another rule's.
        ("UK", "1:34", False),
        # DE borrows it; IRC P2709.1 (1:24) and the ABCB Housing Provisions (1:50) have one figure, so no band.
        ("DE", "1:38", True),
        ("US", "1:24", False),
        ("AU", "1:50", False),
    ],
)
def test_steep_but_allowed(family: str, fall: str, fails: bool) -> None:
    spec = floor(SCREED, LAID, FALL.replace("1:60", fall), head=practice(family))
    assert ("fall-steep" in names(spec)) is fails
    if fails:
        found = only(spec, "fall-steep")
        assert at(spec, found) == fall
        assert "fall-steep" not in names(mended(spec, found))


@pytest.mark.parametrize(("flange", "fails"), [("50", False), ("49", True), ("2 in", False), ("1 in", True)])
def test_flange_of_a_drain(flange: str, fails: bool) -> None:
    """50 mm: common practice, no source."""
    spec = floor(SCREED, LAID, f"{FALL}; flange {flange}")
    assert ("drain-flange-too-narrow" in names(spec)) is fails


def test_flange_of_a_channel_is_pointed_at() -> None:
    channel = "channel along wall A, 0.8 long, 0.05 from wall A, 0.05 from wall D; flange 30"
    spec = floor(SCREED, LAID, f"fall 1:60 one plane; {channel}")
    found = only(spec, "drain-flange-too-narrow")
    assert at(spec, found) == "30" and found.message.startswith("The channel in the floor has a flange 30 mm wide")


@pytest.mark.parametrize(
    ("drain", "shower", "fails"),
    [
        ("30 L/min", "30 L/min", False),
        ("30 L/min", "30.5 L/min", True),
        # 0.5 L/s is 30 L/min.
        ("0.5 L/s", "30 L/min", False),
        ("0.49 L/s", "30 L/min", True),
    ],
)
def test_flow_of_a_drain(drain: str, shower: str, fails: bool) -> None:
    """Arithmetic on the two data sheets."""
    spec = floor(SCREED, LAID, f"{FALL}; flow {drain}") + f"{SHOWER}; flow {shower}\n" + WALLS
    assert ("drain-too-small" in names(spec)) is fails


def test_drains_and_heads_count_together() -> None:
    two = f"{FALL}; flow 20 L/min; drain 1.5 from wall D, 0.9 from wall A; flow 15 L/min"
    spec = floor(SCREED, LAID, two) + f"{SHOWER}; flow 35 L/min\n" + WALLS
    assert "drain-too-small" not in names(spec)
    found = only(spec.replace("flow 35", "flow 36"), "drain-too-small")
    assert found.message.startswith("The drains of the floor take away 35 L/min, and the shower gives 36 L/min")


def test_a_drain_of_unknown_flow_and_a_tray_are_no_fault() -> None:
    spec = floor(SCREED, LAID, FALL) + f"{SHOWER}; flow 30 L/min\n" + WALLS
    assert "drain-too-small" not in names(spec)
    beside = floor(SCREED, LAID, "drain 1.5 from wall D, 0.9 from wall A; flow 10 L/min")
    tray = beside + f"{SHOWER}; tray; flow 30 L/min\n" + WALLS
    assert "drain-too-small" not in names(tray)


@pytest.mark.parametrize(
    ("hall", "door", "fails"),
    [
        # Common practice: water runs to the lower floor.
        ("+10", "", False),
        ("0", "", False),
        ("-1", "", True),
        ("-10", "", True),
        ("-10", "; threshold 0", True),
        ("-10", "; threshold 8", False),
    ],
)
def test_water_that_reaches_the_door(hall: str, door: str, fails: bool) -> None:
    spec = floor(SCREED, f"hall floor {hall}", LAID, FALL) + DOOR + door + "\n"
    assert ("wet-floor-runs-to-hall" in names(spec)) is fails
    # A floor with neither level shower nor drain is not flooded.
    assert "wet-floor-runs-to-hall" not in names(floor(SCREED, f"hall floor {hall}", LAID) + DOOR + door + "\n")


@pytest.mark.parametrize(
    ("hall", "threshold", "step"),
    [
        # 20 mm barrier-free: DIN 18040 as the trade's press quotes it.
        ("+20", "", None),
        ("+21", "", "21 mm"),
        ("-20", "", None),
        ("-21", "", "21 mm"),
        ("0", "20", None),
        ("0", "21", "21 mm"),
        # Up from the lower hall.
        ("-10", "10", None),
        ("-10", "11", "21 mm"),
        # The hall lies above the threshold.
        ("+21", "15", "21 mm"),
    ],
)
def test_step_at_the_door(hall: str, threshold: str, step: str | None) -> None:
    spec = floor(SCREED, f"hall floor {hall}", LAID) + DOOR + (f"; threshold {threshold}" if threshold else "") + "\n"
    if step is None:
        assert "step-at-door-too-high" not in names(spec)
    else:
        assert f"makes a step of {step}" in only(spec, "step-at-door-too-high").message


def test_a_wet_floor_above_the_hall_is_told_once() -> None:
    spec = floor(SCREED, "hall floor -40", LAID, FALL) + DOOR + "\n"
    found = names(spec)
    assert "wet-floor-runs-to-hall" in found and "step-at-door-too-high" not in found


@pytest.mark.parametrize(
    ("covers", "label"),
    [
        # Bed 3.5 mm by the trowel and tile 9 mm, to the whole millimetre: 12 mm (computed).
        ("12 to 40", None),
        ("13 to 40", "it stands out of the face"),
        ("5 to 12", None),
        ("5 to 11", "its trim does not reach the face"),
    ],
)
def test_what_a_valve_covers(covers: str, label: str | None) -> None:
    spec = wall("base cement render", "tile wall-tile; joint 3", f"shower zone; valve 1.2 from left, 1.1 up; covers {covers}")
    if label is None:
        assert "valve-out-of-reach" not in names(spec)
    else:
        assert only(spec, "valve-out-of-reach").primary.text == label


def test_a_valve_in_a_band_has_the_tile_of_the_band() -> None:
    head = "tile ribbon 300x300x20 stone; weight 50 kg/m2"
    lines = ("base cement render", "tile wall-tile; joint 3", "tile ribbon; band 0.3 high, bottom 1.0 up", "shower zone")
    spec = wall(*lines, "valve 1.2 from left, 1.1 up; covers 10 to 15", head=head)
    assert "tile ribbon and its bed" in only(spec, "valve-out-of-reach").message
    assert "valve-out-of-reach" not in names(spec.replace("1.1 up; covers", "1.5 up; covers"))


def test_a_tile_of_unknown_thickness_is_not_judged() -> None:
    spec = wall(
        "base cement render", "tile wall-tile; joint 3", "shower zone; valve 1.2 from left, 1.1 up; covers 20 to 40",
        tile="300x300 porcelain; weight 20 kg/m2",
    )
    assert "valve-out-of-reach" not in names(spec)


@pytest.mark.parametrize(
    ("base", "layers", "fails"),
    [
        # 1:60 over 450 mm falls 7.5 mm (computed).
        ("base concrete; laid 2025-01-10", "leveller 8, membrane 1, bed 4", False),
        ("base concrete; laid 2025-01-10", "leveller 7, membrane 1, bed 4", True),
        ("base concrete; laid 2025-01-10", "membrane 1, bed 8", True),
        ("base concrete; laid 2025-01-10", "leveller 4, falls 4, bed 4", False),
        ("base old tiles", "membrane 1, bed 4", True),
        # A board may come with its fall.
        ("base old tiles", "board 6, membrane 1, bed 4", False),
        # A screed is laid to the fall itself.
        (SCREED, "membrane 1, bed 4", False),
    ],
)
def test_what_a_fall_is_made_of(base: str, layers: str, fails: bool) -> None:
    spec = floor(base, f"build-up {layers}", LAID, FALL) + SHOWER + "\n" + WALLS
    assert ("fall-without-depth" in names(spec)) is fails


def test_without_a_build_up_nobody_knows_what_makes_the_fall() -> None:
    assert "fall-without-depth" not in names(floor("base concrete; laid 2025-01-10", LAID, FALL) + SHOWER + "\n" + WALLS)
