"""Rules about what is tiled on, each at its limit. The document stands beside the figure."""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, only, practice, said, wall
from tilespec.diagnostics.model import Severity

FLOOR, LAID = "tile floor-tile; joint 3", "tile wall-tile; joint 3"
FALL = "fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A"
TIMBER = "base timber; joists 400 mm; boards 22 mm; span 2.4 m"
LIGHT = "200x200x7 ceramic; weight 12 kg/m2"


def told(spec: str) -> list[str]:
    """The rules about bases that speak."""
    return [d.name for d in said(spec) if d.code.startswith("T22")]


@pytest.mark.parametrize(("day", "fails"), [("2026-02-27", False), ("2026-02-28", True)])
def test_plasterboard_on_dabs(day: str, fails: bool) -> None:
    """Ten days: NHBC Standards 9.2.5."""
    head = practice("UK") + "\n  begin 2026-03-09"
    spec = wall(f"base gypsum plasterboard unskimmed; laid {day}", LAID, head=head, tile=LIGHT)
    assert told(spec) == (["plasterboard-dabs-too-young"] if fails else [])
    if fails:
        assert "2026-03-10" in only(spec, "plasterboard-dabs-too-young").help


def test_gypsum_screed_on_a_wet_floor() -> None:
    """UK trade guidance in agreement: not where it is often wet."""
    spec = floor("base calcium sulfate screed; thickness 50 mm; laid 2025-01-10", FLOOR, FALL)
    found = only(spec, "calcium-sulfate-in-wet-area")
    assert found.severity is Severity.ERROR and at(spec, found) == "calcium sulfate screed"
    assert found.message == "The floor gets wet, and its calcium sulfate screed softens in water."
    assert told(spec.replace(f"\n  {FALL}", "")) == []


def test_under_a_tray_the_screed_stays_dry_for_a_bathroom() -> None:
    spec = floor("base calcium sulfate screed; thickness 50 mm; laid 2025-01-10", FLOOR)
    tray = "shower in corner D A, 0.9 x 0.9; tray; head at height 2.1\n"
    sides = "".join(f"wall {w}\n  base cement render\n  tile floor-tile; joint 3\n" for w in "AD")
    assert told(spec + tray + sides) == ["calcium-sulfate-in-bathroom"]


@pytest.mark.parametrize(("family", "fails"), [("UK", True), ("EN", False), ("US", False)])
def test_timber_on_a_wet_floor(family: str, fails: bool) -> None:
    """BS 5385-3:2024 in the trade press: not recommended; a rule of the United Kingdom only."""
    lines = (TIMBER, "build-up board 12, bed 4", FLOOR, FALL.replace("1:60", "1:48"))
    spec = floor(*lines, head=practice(family), tile="100x100x8 porcelain; barefoot class B; pendulum 40; dcof 0.5")
    assert told(spec) == (["timber-in-wet-area"] if fails else [])
    assert told(spec.replace(f"\n  {lines[-1]}", "")) == []


@pytest.mark.parametrize(
    ("build_up", "fails"),
    [
        # BS 5385-3:2024 in the trade press: an intermediate layer over wood sheets.
        ("bed 4", True),
        ("membrane 1, bed 4", True),
        ("uncoupling 3, bed 4", False),
        ("board 12, bed 4", False),
        ("leveller 6, bed 4", False),
    ],
)
def test_a_layer_over_timber(build_up: str, fails: bool) -> None:
    spec = floor(TIMBER, f"build-up {build_up}", FLOOR)
    assert told(spec) == (["timber-without-layer"] if fails else [])
    assert told(spec.replace(TIMBER, "base concrete")) == []


@pytest.mark.parametrize(
    ("base", "fails"), [("plywood", True), ("chipboard", True), ("cement board", False), ("gypsum plasterboard unskimmed", False)]
)
def test_wood_as_a_wall(base: str, fails: bool) -> None:
    """BS 5385-1:2018, 6.1.2.7, as The Tile Association reports."""
    spec = wall(f"base {base}", LAID, tile=LIGHT)
    assert told(spec) == (["plywood-wall"] if fails else [])
    if fails:
        assert only(spec, "plywood-wall").message.startswith(f"Wall A is {base}, ")


@pytest.mark.parametrize(
    ("base", "fails"),
    [
        # NHBC Standards 9.2.5: no gypsum plaster where it may be wetted repeatedly or for long.
        ("gypsum plaster", True),
        ("gypsum plasterboard skimmed", True),
        ("gypsum plasterboard unskimmed", False),
        ("cement render", False),
    ],
)
def test_plaster_in_a_shower(base: str, fails: bool) -> None:
    spec = wall(f"base {base}", LAID, "shower zone", tile=LIGHT)
    assert told(spec) == (["gypsum-plaster-in-shower"] if fails else [])
    assert told(spec.replace("shower zone", "splash area 0.7 x 1.2; 0.1 from left, 0.6 up")) == []


@pytest.mark.parametrize(
    ("base", "fails"),
    [
        # BS 5385-1:2018 as restated: in layers that only adhesive joins, the weakest governs.
        ("old tiles", True),
        ("painted plaster", True),
        ("old tiles; carries 20 kg/m2", False),
        ("gypsum plaster existing", False),
    ],
)
def test_what_the_wall_behind_carries(base: str, fails: bool) -> None:
    assert told(wall(f"base {base}", LAID, tile=LIGHT)) == (["wall-load-not-known"] if fails else [])
    assert "wall-load-not-known" not in told(floor(f"base {base}", FLOOR))


def test_what_is_said_of_old_tiles_is_held_against_the_weight() -> None:
    assert told(wall("base old tiles; carries 12 kg/m2", LAID, tile=LIGHT)) == ["tiling-too-heavy-for-base"]


@pytest.mark.parametrize(
    ("thick", "kind", "fails"),
    [
        # From BS 8204 as restated: 65 mm over pipes in homes.
        ("65", "pipes", False),
        ("64", "pipes", True),
        ("64", "mat", False),
    ],
)
def test_screed_over_pipes(thick: str, kind: str, fails: bool) -> None:
    head = f"heating own {kind}; output 80 W/m2; voltage 230 V"
    sensor = "" if kind == "pipes" else "; sensor at wall B"
    spec = floor(f"base cement screed; thickness {thick} mm; laid 2025-01-10", f"heating own{sensor}", FLOOR, head=head)
    spec = spec.replace("floor 2.4 x 1.8", "floor 2.4 x 1.8 heated")
    assert told(spec) == (["heated-screed-too-thin"] if fails else [])
    if fails:
        assert at(spec, only(spec, "heated-screed-too-thin")) == "64 mm"


@pytest.mark.parametrize(("tile", "fails"), [("12 granite", False), ("12.1 granite", True), ("13 porcelain", True)])
def test_thick_tiles(tile: str, fails: bool) -> None:
    """About 12 mm: UK trade practice, in the press."""
    spec = wall("base cement render", LAID, tile=f"300x200x{tile}; weight 33 kg/m2")
    assert told(spec) == (["thick-tile-without-fixing"] if fails else [])
    assert "thick-tile-without-fixing" not in told(floor("base concrete", FLOOR, tile=f"300x200x{tile}"))


@pytest.mark.parametrize("base", ["gypsum plaster", "gypsum plasterboard", "brickwork"])
def test_a_wall_under_a_floor(base: str) -> None:
    """Plain sense, no source."""
    assert told(floor(f"base {base}", FLOOR)) == ["base-of-another-surface"]


def test_a_floor_on_a_wall() -> None:
    spec = wall("base cement screed; thickness 65 mm; laid 2025-01-10", LAID)
    assert only(spec, "base-of-another-surface").message.endswith("which is the base of a floor.")
    assert told(floor("base gypsum fibreboard", FLOOR)) == []


@pytest.mark.parametrize(("base", "fails"), [("old tiles", True), ("concrete", False)])
def test_old_tiles_without_a_primer(base: str, fails: bool) -> None:
    """A primer or abrasion: common practice, from memory."""
    spec = floor(f"base {base}", FLOOR, "primer none")
    assert told(spec) == (["unprimed-old-tiles"] if fails else [])
    assert told(spec.replace("\n  primer none", "")) == []
