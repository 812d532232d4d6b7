"""Rules about the adhesive and its bed, each at its limit. The document stands beside the figure."""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, mended, names, only, practice, said, wall
from tilespec.diagnostics.model import Severity

SCREED = "base cement screed; thickness 65 mm; laid 2025-01-10"
RENDER = "base cement render"
LAID = "tile wall-tile; joint 3"
FLOOR = "tile floor-tile; joint 3"
FALL = "fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A"


def own(cls: str, rest: str = "") -> str:
    return f"adhesive own class {cls}; pack 25 kg{rest}"


def told(spec: str) -> list[str]:
    """The rules about adhesive that speak."""
    return [d.name for d in said(spec) if d.code.startswith("T21")]


@pytest.mark.parametrize(
    ("cls", "tile", "fails"),
    [
        # C2 under porcelain: common practice, from memory. Porcelain takes up 0.5 % at most: EN 14411, group BIa.
        ("C1T", "300x300x9 porcelain", True),
        ("C2T", "300x300x9 porcelain", False),
        ("R1T", "300x300x9 porcelain", False),
        ("D2T", "300x300x9 porcelain", True),
        ("C1T", "300x300x9 ceramic", False),
        ("C1T", "300x300x9 ceramic; absorption 0.5 %", True),
        ("C1T", "300x300x9 ceramic; absorption 0.6 %", False),
        ("C1T", "300x300x9 porcelain; absorption 0.6 %", False),
    ],
)
def test_porcelain(cls: str, tile: str, fails: bool) -> None:
    spec = wall(RENDER, LAID, head=own(cls), tile=f"{tile}; weight 20 kg/m2")
    assert told(spec) == (["weak-adhesive-for-porcelain"] if fails else [])


@pytest.mark.parametrize(
    ("size", "cls", "fault"),
    [
        # C2 S1 above 600 mm and C2 S2 above 1200 mm: common practice, from memory; 600 mm of BS 5385-1:2018 as reported.
        ("600x300x9", "C2T", None),
        ("601x300x9", "C2T", "weak-adhesive-for-large-tile"),
        ("601x300x9", "C2T S1", None),
        ("1200x600x9", "C2T S1", None),
        ("1201x600x9", "C2T S1", "weak-adhesive-for-very-large-tile"),
        ("1201x600x9", "C2T S2", None),
        # The stronger reason alone is told.
        ("1201x600x9", "C1T", "weak-adhesive-for-very-large-tile"),
        ("601x300x9", "C1T", "weak-adhesive-for-large-tile"),
    ],
)
def test_large_tiles(size: str, cls: str, fault: str | None) -> None:
    spec = wall(RENDER, LAID, head=own(cls), tile=f"{size} porcelain rectified; weight 21 kg/m2")
    assert told(spec) == ([fault] if fault else [])


def test_what_is_said_of_a_large_tile() -> None:
    spec = wall(RENDER, LAID, head=own("C2TE"), tile="800x400x9 porcelain; weight 21 kg/m2")
    found = only(spec, "weak-adhesive-for-large-tile")
    assert found.message == "Tile wall-tile on wall A is laid in own (C2 TE); an edge of 800 mm takes C2 S1 at least."
    assert found.help == "Declare an adhesive of that class: `adhesive NAME class C2 S1; for tile wall-tile`."


def test_a_firms_edge_counts() -> None:
    head = own("C2TE") + '\nlimit large-format-edge 500 mm because "house rule"'
    spec = wall(RENDER, LAID, head=head, tile="600x300x9 porcelain; weight 21 kg/m2")
    assert told(spec) == ["weak-adhesive-for-large-tile"]


def test_a_heated_floor_is_told_once() -> None:
    spec = floor(SCREED, FLOOR, head=own("C1T"), tile="800x400x9 porcelain").replace("floor 2.4 x 1.8", "floor 2.4 x 1.8 heated")
    assert told(spec) == ["heated-floor-without-deformable-adhesive"]


def test_classes_of_the_american_standard_are_not_judged_by_these() -> None:
    assert told(wall(RENDER, LAID, head=practice("US") + "\n" + own("A118.4"), tile="800x400x9 porcelain")) == []


@pytest.mark.parametrize(
    ("base", "cls", "fault"),
    [
        # C2 S1: common practice, from memory.
        ("old tiles", "C2TE", "weak-adhesive-on-old-tiles"),
        ("old tiles", "C2TE S1", None),
        ("old tiles", "R2T", None),
        ("timber; joists 400 mm; boards 22 mm; span 2.4 m", "C2TE", "weak-adhesive-on-timber"),
        ("timber; joists 400 mm; boards 22 mm; span 2.4 m", "C2TE S1", None),
        ("cement board", "C2TE", None),
    ],
)
def test_bases_that_move_or_are_dense(base: str, cls: str, fault: str | None) -> None:
    spec = floor(f"base {base}", "build-up uncoupling 3, bed 4", FLOOR, head=own(cls))
    assert told(spec) == ([fault] if fault else [])


@pytest.mark.parametrize(("cls", "fails"), [("C1T", True), ("D2TE", True), ("C2TE", False), ("R2T", False)])
def test_glass(cls: str, fails: bool) -> None:
    """C2 or R2: common practice, from memory."""
    spec = wall(RENDER, "tile wall-tile; joint 2", head=own(cls), tile="300x300x6 mosaic glass; weight 14 kg/m2; chips 25 x 25")
    assert told(spec) == (["weak-adhesive-for-glass"] if fails else [])


CERAMIC, PORCELAIN = "150x150x6 ceramic; weight 11 kg/m2", "150x150x6 porcelain; weight 14 kg/m2"


@pytest.mark.parametrize(
    ("cls", "tile", "fault"),
    [
        # Guidance of The Tile Association as quoted: D2, or a cement adhesive; on a membrane C2, common practice.
        ("D1T", CERAMIC, "d1-adhesive-in-shower"),
        ("D2T", CERAMIC, "d-adhesive-on-membrane"),
        ("D2T", PORCELAIN, "d-adhesive-behind-porcelain"),
        ("D1T", PORCELAIN, "d1-adhesive-in-shower"),
        ("C1T", CERAMIC, "adhesive-below-class-in-shower"),
        ("C2T", CERAMIC, None),
        ("C2T", PORCELAIN, None),
        ("R2T", PORCELAIN, None),
    ],
)
def test_shower_walls(cls: str, tile: str, fault: str | None) -> None:
    spec = wall(RENDER, LAID, "shower zone", head=own(cls), tile=tile)
    assert told(spec) == ([fault] if fault else [])


def test_only_tiles_in_the_shower_are_wetted() -> None:
    """A band at the far end of the wall lies outside the shower."""
    head = own("C2T", "; for tile wall-tile") + "\nadhesive plain class C1T; pack 25 kg; for tile strip\n"
    head += "tile strip 150x150x6 ceramic; weight 11 kg/m2"
    lines = [RENDER, LAID, "tile strip; panel 0.45 x 1.5; 1.8 from left, 0.3 up", "shower zone 0.9 x 2.1; 0 from left, 0 up"]
    assert told(wall(*lines, head=head)) == []
    assert told(wall(*lines, head=head).replace("shower zone 0.9 x", "shower zone 2.0 x")) == ["adhesive-below-class-in-shower"]


def test_a_normal_adhesive_on_a_wet_floor() -> None:
    """C2 or R2: common practice, from memory."""
    spec = floor(SCREED, FLOOR, FALL, head=own("C1T"), tile="100x100x8 ceramic; barefoot class B")
    assert told(spec) == ["adhesive-below-class-in-shower"]
    assert told(spec.replace("C1T", "C2T")) == []


def test_a_wet_floor_in_dispersion_is_told_once() -> None:
    assert told(floor(SCREED, FLOOR, FALL, head=own("D2T"))) == ["d-adhesive-on-wet-floor"]


def test_dispersion_behind_porcelain_on_a_board_of_foam() -> None:
    assert told(wall("base tile-backer board", LAID, head=own("D2T"))) == ["d-adhesive-behind-porcelain"]


def test_the_grave_fault_is_an_error() -> None:
    found = only(wall(RENDER, LAID, "shower zone", head=own("D1T"), tile=CERAMIC), "d1-adhesive-in-shower")
    assert found.severity is Severity.ERROR
    assert found.message == "Tile wall-tile on wall A is wetted by a shower or a bath, and own (D1) softens in water."


@pytest.mark.parametrize(
    ("tile", "colour", "fails"),
    [
        # White under light stone: common practice, from memory.
        ("limestone", "; colour grey", True),
        ("limestone", "", True),
        ("limestone", "; colour white", False),
        ("limestone dark", "; colour grey", False),
        ("slate", "; colour grey", False),
        ("granite light", "; colour grey", True),
        ("marble; colour black", "; colour grey", False),
        ("porcelain light", "; colour grey", False),
    ],
)
def test_light_stone(tile: str, colour: str, fails: bool) -> None:
    head = own("C2FT S1", f"{colour}; for tile wall-tile")
    spec = wall(RENDER, LAID, head=head, tile=f"300x300x10 {tile}; weight 26 kg/m2")
    assert told(spec) == (["coloured-adhesive-under-light-stone"] if fails else [])


@pytest.mark.parametrize(
    ("size", "cls", "fails"),
    [
        # T above 300 mm: common practice; T slips by 0.5 mm at most, EN 12004-1 as restated.
        ("300x300x9", "C2E", False),
        ("301x300x9", "C2E", True),
        ("301x300x9", "C2TE", False),
        ("301x300x9", "C2E S1", True),
        ("301x300x9", "R2", True),
    ],
)
def test_slip_on_walls(size: str, cls: str, fails: bool) -> None:
    spec = wall(RENDER, LAID, head=own(cls), tile=f"{size} porcelain; weight 20 kg/m2")
    assert told(spec) == (["slipping-adhesive-on-wall"] if fails else [])
    assert told(floor(SCREED, FLOOR, head=own(cls), tile=f"{size} porcelain")) == []


def test_the_better_class_keeps_what_it_had() -> None:
    spec = wall(RENDER, LAID, head=own("C2FE S1"), tile="600x300x9 porcelain; weight 20 kg/m2")
    assert "class C2FTE S1;" in only(spec, "slipping-adhesive-on-wall").help


@pytest.mark.parametrize(
    ("family", "bed", "tile", "fault"),
    [
        # ANSI A108.5, 2.2.2 in the press: 3/32 in, 2 mm.
        ("EN", "1.9", "300x300x9 porcelain", "bed-too-thin"),
        ("EN", "2", "300x300x9 porcelain", None),
        ("US", "1/16 in", "12 in x 12 in x 3/8 in porcelain", "bed-too-thin"),
        ("US", "3/32 in", "12 in x 12 in x 3/8 in porcelain", None),
        # Ceramic Tile Education Foundation: 1/4 in for thin-bed mortar, 1/2 in for large and heavy tiles.
        ("EN", "6.4", "300x300x9 porcelain", None),
        ("EN", "6.5", "300x300x9 porcelain", "bed-too-thick"),
        ("US", "1/4 in", "12 in x 12 in x 3/8 in porcelain", None),
        ("US", "5/16 in", "12 in x 12 in x 3/8 in porcelain", "bed-too-thick"),
        ("US", "1/2 in", "15 in x 15 in x 3/8 in porcelain", None),
        ("US", "9/16 in", "15 in x 15 in x 3/8 in porcelain", "bed-too-thick"),
        ("EN", "12.7", "400x400x9 porcelain", None),
        ("EN", "12.8", "400x400x9 porcelain", "bed-too-thick"),
        # Sheets of mosaic lie in a thin bed.
        ("EN", "1.5", "300x300x5 mosaic porcelain; chips 23 x 23", None),
    ],
)
def test_the_bed(family: str, bed: str, tile: str, fault: str | None) -> None:
    spec = floor(SCREED, f"build-up bed {bed}", FLOOR, head=practice(family), tile=tile)
    assert told(spec) == ([fault] if fault else [])
    if fault == "bed-too-thin":
        assert told(mended(spec, only(spec, fault))) == []


def test_a_mat_lies_in_the_bed() -> None:
    spec = floor(SCREED, "build-up bed 12", FLOOR, "heating mat; sensor at wall B")
    assert told(spec.replace("floor 2.4 x 1.8", "floor 2.4 x 1.8 heated")) == []


@pytest.mark.parametrize(
    ("family", "kind", "notch", "edge", "fails"),
    [
        # Trade practice, from memory: to 50 mm 3-4, to 108 mm 4-6, to 200 mm 6-8, to 300 mm 8-10, above 10-12; walls a step less.
        ("EN", "floor", "8", "300", False),
        ("EN", "floor", "7", "300", True),
        ("EN", "floor", "10", "301", False),
        ("EN", "floor", "9", "301", True),
        ("EN", "wall", "6", "300", False),
        ("EN", "wall", "5", "300", True),
        ("EN", "floor", "4", "100", False),
        ("EN", "floor", "3", "100", True),
        # US trade practice: over 16 in 1/2 in, one step less 3/8 in.
        ("US", "floor", "3/8 in", "450", False),
        ("US", "floor", "1/4 in", "450", True),
    ],
)
def test_the_notch(family: str, kind: str, notch: str, edge: str, fails: bool) -> None:
    head = practice(family) + "\n" + own("C2TE S1", f"; notch {notch}")
    tile = f"{edge}x100x9 porcelain; weight 20 kg/m2"
    spec = floor(SCREED, FLOOR, head=head, tile=tile) if kind == "floor" else wall(RENDER, LAID, head=head, tile=tile)
    assert told(spec) == (["notch-too-small"] if fails else [])


@pytest.mark.parametrize(
    ("tile", "family", "fails"),
    [
        # BS 5385-1:2018 in the trade press: a solid bed above 70 % of the capacity, 14 kg/m2 on plaster; 95 % by common practice.
        ("200x200x7 ceramic; weight 14 kg/m2", "UK", False),
        ("200x200x7 ceramic; weight 14.1 kg/m2", "UK", True),
        ("200x200x7 ceramic; weight 14.1 kg/m2", "EN", False),
        # The same, from memory: a face of 0.1 m2 or more.
        ("400x250x7 ceramic; weight 12 kg/m2", "UK", True),
        ("400x249x7 ceramic; weight 12 kg/m2", "UK", False),
    ],
)
def test_solid_bed(tile: str, family: str, fails: bool) -> None:
    """90 % of the back in adhesive is enough on a dry wall (ANSI A108.5: 80 %), not where a solid bed is asked."""
    record = 'record contact on wall A 2026-03-12 by "A. Finch"; reading 90 %; samples 3\n'
    spec = wall("base gypsum plaster", LAID, head=practice(family), tile=tile) + record
    assert told(spec) == (["contact-too-low"] if fails else [])


@pytest.mark.parametrize(
    ("tile", "cls", "fails"),
    [
        # Common practice, from memory.
        ("marble dark; colour green", "C2T S1", True),
        ("marble dark; colour green", "R2T", False),
        ("marble dark; colour black", "C2FT S1", False),
        ("porcelain; colour green", "C2T S1", False),
    ],
)
def test_green_marble(tile: str, cls: str, fails: bool) -> None:
    spec = wall(RENDER, LAID, head=own(cls, "; for tile wall-tile"), tile=f"300x300x10 {tile}; weight 27 kg/m2")
    assert told(spec) == (["green-marble-in-cement-adhesive"] if fails else [])


@pytest.mark.parametrize(
    ("cls", "minutes", "fails"),
    [
        # EN 12004-1 as restated: 20 min, 30 with E, 10 with F.
        ("C2T", 20, False),
        ("C2T", 19, True),
        ("C2TE", 30, False),
        ("C2TE", 29, True),
        ("C2FT", 10, False),
        ("C2FT", 9, True),
        ("D2TE", 29, True),
        ("R2T", 9, False),
    ],
)
def test_open_time(cls: str, minutes: int, fails: bool) -> None:
    spec = wall("base cement render", LAID, head=own(cls, f"; open time {minutes} min"), tile=CERAMIC)
    assert told(spec) == (["open-time-below-class"] if fails else [])


def test_an_open_time_that_the_adhesive_does_not_say_is_not_held_against_it() -> None:
    """It is then taken from the generic adhesive of the class."""
    assert told(wall(RENDER, LAID, head=own("C2FTE S1"))) == []


@pytest.mark.parametrize(
    ("cls", "wait", "fails"),
    [
        # EN 12004-1 as restated: F holds after 6 h.
        ("C2TE", "6 h before grouting", False),
        ("C2TE", "5 h before grouting", True),
        ("C2TE", "5 h before walking", True),
        ("C2FT", "4 h before grouting", False),
        ("R2T", "4 h before grouting", False),
    ],
)
def test_short_waits(cls: str, wait: str, fails: bool) -> None:
    spec = wall(RENDER, LAID, head=own(cls, f"\n  wait {wait}"))
    assert told(spec) == (["short-wait-without-fast-class"] if fails else [])
    if fails:
        assert at(spec, only(spec, "short-wait-without-fast-class")) == "5 h"


def test_the_generic_adhesives_pass() -> None:
    for tile in ("1300x600x9 porcelain", "800x400x10 limestone light", "300x300x9 marble; colour green", "300x300x6 glass"):
        spec = wall(RENDER, LAID, "shower zone", tile=f"{tile}; weight 20 kg/m2")
        assert told(spec) == [], tile
    assert names(floor("base old tiles", FLOOR, tile="1300x600x9 porcelain")).count("weak-adhesive-on-old-tiles") == 0


def test_one_adhesive_that_is_too_weak_is_told_once_for_all_its_walls() -> None:
    head = own("C1T") + "\n"
    spec = head + "tile wall-tile 300x300x9 porcelain; weight 20 kg/m2\n" + "".join(
        f"wall {letter} 2.4 x 2.4\n  base cement render\n  tile wall-tile; joint 3\n" for letter in "ABC"
    )
    found = only(spec, "weak-adhesive-for-porcelain")
    assert at(spec, found) == "adhesive own class C1T"
    assert "The same holds for wall B, wall C." in found.notes


def test_an_adhesive_of_a_stock_file_is_told_at_the_tile() -> None:
    from tests.checks.specs import PATH
    from tilespec import pipeline
    from tilespec.workspace.host import MemoryHost

    spec = 'use "stock.tilespec"\n' + wall(RENDER, LAID)
    host = MemoryHost({PATH: spec, "/stock.tilespec": own("C1T") + "\n"})
    (found,) = [d for d in pipeline.compile(PATH, host).diagnostics if d.name == "weak-adhesive-for-porcelain"]
    assert at(spec, found) == "tile wall-tile 300x300x9 porcelain"
    assert [(s.span.file, s.text) for s in found.secondary] == [("/stock.tilespec", "this adhesive")]


@pytest.mark.parametrize(
    ("family", "notch", "chips", "fails"),
    [
        # Trade practice, from memory: 3-4 mm for chips to 50 mm, one step over that at most; US trade practice 3/16 to 1/4 in.
        ("EN", "6", "23 x 23", False),
        ("EN", "6.1", "23 x 23", True),
        ("US", "1/4 in", "1 in x 1 in", False),
        ("US", "3/8 in", "1 in x 1 in", True),
    ],
)
def test_a_coarse_notch_under_mosaic(family: str, notch: str, chips: str, fails: bool) -> None:
    head = practice(family) + "\n" + own("C2TE S1", f"; notch {notch}")
    spec = wall(RENDER, LAID, head=head, tile=f"300x300x6 mosaic porcelain; weight 14 kg/m2; chips {chips}")
    assert told(spec) == (["notch-too-large-for-mosaic"] if fails else [])


@pytest.mark.parametrize(
    ("tile", "cls", "fails"),
    [
        # Fast setting under stone that moves with moisture: common practice, from memory.
        ("limestone", "C2TE S1", True),
        ("limestone", "C2FTE S1", False),
        ("limestone", "R2T", False),
        ("granite", "C2TE S1", False),
        ("terrazzo engineered", "C2TE S1", False),
    ],
)
def test_stone_that_takes_water_up(tile: str, cls: str, fails: bool) -> None:
    head = own(cls, "; colour white; for tile wall-tile")
    spec = wall(RENDER, LAID, head=head, tile=f"300x300x10 {tile}; weight 26 kg/m2")
    assert told(spec) == (["slow-adhesive-under-marble"] if fails else [])


@pytest.mark.parametrize(("cls", "fault"), [("C1T", "weak-adhesive-for-porcelain"), ("D2T", "d-adhesive-behind-porcelain")])
def test_one_adhesive_is_told_once_for_a_dry_wall_and_a_shower(cls: str, fault: str) -> None:
    walls = f"wall A 2.4 x 2.4\n  {RENDER}\n  {LAID}\nwall B 2.4 x 2.4 shower zone\n  {RENDER}\n  {LAID}\n"
    assert told(own(cls) + "\ntile wall-tile 300x300x9 porcelain; weight 20 kg/m2\n" + walls) == [fault]


def test_of_two_faults_of_one_dispersion_the_graver_is_told() -> None:
    spec = floor(SCREED, FLOOR, FALL, head=own("D2T"))
    spec += "wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3\n"
    assert told(spec) == ["d-adhesive-on-wet-floor"]


@pytest.mark.parametrize(
    ("tile", "cls", "fault"),
    [
        # C2 under stone, and on walls above an edge of 300 mm: common practice, from memory.
        ("300x300x10 slate; weight 27 kg/m2", "C1T", "weak-adhesive-for-stone"),
        ("300x300x10 slate; weight 27 kg/m2", "C2T", None),
        ("300x200x8 ceramic; weight 15 kg/m2", "C1T", None),
        ("301x200x8 ceramic; weight 15 kg/m2", "C1T", "weak-adhesive-for-wall-tile"),
        ("301x200x8 ceramic; weight 15 kg/m2", "D2T", "weak-adhesive-for-wall-tile"),
        ("301x200x8 ceramic; weight 15 kg/m2", "C2T", None),
        # What the tile is made of is told before its size.
        ("400x200x8 porcelain; weight 18 kg/m2", "C1T", "weak-adhesive-for-porcelain"),
    ],
)
def test_stone_and_wall_tiles(tile: str, cls: str, fault: str | None) -> None:
    assert told(wall(RENDER, LAID, head=own(cls, "; for tile wall-tile"), tile=tile)) == ([fault] if fault else [])


def test_a_larger_tile_on_a_floor_asks_for_no_more() -> None:
    """C1 on dry floors: common practice, from memory."""
    assert told(floor(SCREED, FLOOR, head=own("C1T"), tile="400x200x8 ceramic")) == []


def test_an_american_class_on_a_heated_floor_is_left_to_its_data_sheet() -> None:
    spec = floor(SCREED, FLOOR, head=practice("US") + "\n" + own("A118.15")).replace("floor 2.4 x 1.8", "floor 2.4 x 1.8 heated")
    assert told(spec) == []
