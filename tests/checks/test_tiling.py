"""Rules about tiles, joints, patterns and grout, each at its limit. The document stands beside the figure."""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, mended, only, practice, said, wall

SCREED, RENDER = "base cement screed; thickness 65 mm; laid 2025-01-10", "base cement render"
LAID, FLOOR = "tile wall-tile; joint 3", "tile floor-tile; joint 3"
FALL = "fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A"


def told(spec: str) -> list[str]:
    """The rules about tiling that speak; where it starts is another matter."""
    return [d.name for d in said(spec) if d.code.startswith("T24") and d.name not in ("sliver-cut", "low-window-cut")]


@pytest.mark.parametrize(
    ("size", "bond", "fails"),
    [
        # ANSI A108.02 in the press: 33 % where the shifted side is over 15 in (381 mm).
        ("600x300x9", "half bond", True),
        ("600x300x9", "third bond", False),
        ("600x300x9", "straight", False),
        ("381x190x9", "half bond", False),
        ("382x190x9", "half bond", True),
        # A third, and a little more; as a run counts from either neighbour, two thirds are a third.
        ("600x300x9", "run 200", False),
        ("600x300x9", "run 210", True),
        ("600x300x9", "run 400", False),
        # The long side stands across the shift.
        ("300x600x9", "half bond", False),
        ("300x600x9", "vertical half bond", True),
    ],
)
def test_offset(size: str, bond: str, fails: bool) -> None:
    spec = wall(RENDER, f"{LAID}; {bond}", tile=f"{size} porcelain rectified; weight 20 kg/m2")
    assert told(spec) == (["offset-over-a-third"] if fails else [])


def test_the_bond_is_mended() -> None:
    spec = wall(RENDER, f"{LAID}; half bond", tile="600x300x9 porcelain; weight 20 kg/m2")
    found = only(spec, "offset-over-a-third")
    assert at(spec, found) == "half bond" and told(mended(spec, found)) == []
    assert found.message == (
        "Tile wall-tile on wall A is 600 mm long and shifted by 50 % from course to course; "
        "33 % is the most for tiles over 381 mm (15 in)."
    )


@pytest.mark.parametrize(
    ("family", "tile", "joint", "fails"),
    [
        # NHBC Standards 9.1.7 and 9.3.5: not wider than the tile is thick; up to 10 mm for irregular tiles.
        ("UK", "300x300x8 porcelain", "8", False),
        ("UK", "300x300x8 porcelain", "8.1", True),
        ("UK", "300x300x12 porcelain", "10", False),
        ("UK", "300x300x12 porcelain", "10.1", True),
        ("UK", "150x150x8 quarry", "10", False),
        ("UK", "150x150x8 quarry", "10.1", True),
        ("EN", "300x300x8 porcelain", "12", False),
    ],
)
def test_wide_joints(family: str, tile: str, joint: str, fails: bool) -> None:
    spec = floor(SCREED, f"tile floor-tile; joint {joint}", head=practice(family), tile=tile)
    assert told(spec) == (["joint-wider-than-tile-is-thick"] if fails else [])


@pytest.mark.parametrize(
    ("family", "size", "joint", "fault"),
    [
        # BS 5385-1:2018 as restated: 2 mm, from a face of 0.1 m2 3 mm. NHBC Standards 9.1.7: never under 1.5 mm.
        ("UK", "250x399x9", "2", None),
        ("UK", "250x399x9", "1.9", "joint-below-advice-for-face"),
        ("UK", "250x400x9", "2.9", "joint-below-advice-for-face"),
        ("UK", "250x400x9", "3", None),
        ("UK", "250x400x9", "1.4", "joint-too-narrow"),
        ("EN", "250x400x9", "2", None),
    ],
)
def test_joint_by_face(family: str, size: str, joint: str, fault: str | None) -> None:
    tile = f"{size} porcelain rectified; weight 20 kg/m2"
    spec = wall(RENDER, f"tile wall-tile; joint {joint}", head=practice(family), tile=tile)
    assert told(spec) == ([fault] if fault else [])
    if fault == "joint-below-advice-for-face":
        assert told(mended(spec, only(spec, fault))) == []


@pytest.mark.parametrize(
    ("family", "words", "joint", "fault"),
    [
        # US trade recommendation: 1/8 in. ANSI A108.02, 4.3.8: never under 1/16 in. AS 3958.1-2007: 1.5 mm on walls.
        ("US", "porcelain rectified", "1/8 in", None),
        ("US", "porcelain rectified", "3/32 in", "narrow-joint-for-rectified-tile"),
        ("US", "porcelain", "3/32 in", None),
        ("US", "porcelain rectified", "1/32 in", "joint-too-narrow"),
        # 2 mm: common practice, from memory.
        ("AU", "porcelain rectified", "1.9", "narrow-joint-for-rectified-tile"),
        ("AU", "porcelain rectified", "2", None),
        ("EN", "porcelain rectified", "2", None),
    ],
)
def test_rectified(family: str, words: str, joint: str, fault: str | None) -> None:
    spec = wall(RENDER, f"tile wall-tile; joint {joint}", head=practice(family), tile=f"300x300x9 {words}; weight 20 kg/m2")
    assert told(spec) == ([fault] if fault else [])


@pytest.mark.parametrize(("family", "joint", "fails"), [("UK", "6", False), ("UK", "5.9", True), ("EN", "3", False)])
def test_textured_stone(family: str, joint: str, fails: bool) -> None:
    """6 mm round textured stone on walls: NHBC Standards 9.1.7."""
    tile = "300x200x10 slate textured; weight 27 kg/m2"
    spec = wall(RENDER, f"tile wall-tile; joint {joint}", head=practice(family), tile=tile)
    assert told(spec) == (["joint-too-narrow"] if fails else [])


def filled(cls: str) -> str:
    return f"grout own class {cls}; pack 5 kg"


@pytest.mark.parametrize(
    ("cls", "dry", "wet"),
    [
        # CG1 on dry walls, CG2 W in bathrooms, CG2 WA or RG under foot in wet rooms: common practice, from memory.
        ("CG1", False, True),
        ("CG2", False, True),
        ("CG2A", False, True),
        ("CG2W", False, False),
        ("RG", False, False),
    ],
)
def test_grout_on_walls(cls: str, dry: bool, wet: bool) -> None:
    spec = wall(RENDER, LAID, head=filled(cls))
    assert told(spec) == []
    assert told(spec + "  shower zone\n") == (["weak-grout-in-wet-area"] if wet else [])
    splash = spec + "  splash area 0.7 x 1.2; 0.1 from left, 0.6 up\n"
    assert told(splash) == (["weak-grout-in-bathroom"] if wet else [])


@pytest.mark.parametrize(
    ("cls", "faults"),
    [
        ("CG1", ("weak-grout-in-bathroom", "weak-grout-on-heated-floor", "weak-grout-in-wet-area")),
        ("CG2W", (None, "weak-grout-on-heated-floor", "weak-grout-in-wet-area")),
        ("CG2WA", (None, None, None)),
        ("RG", (None, None, None)),
    ],
)
def test_grout_on_floors(cls: str, faults: tuple[str | None, ...]) -> None:
    """CG2 W in bathrooms, CG2 WA on heated and wet floors, or resin: common practice, from memory."""
    dry = floor(SCREED, FLOOR, head=filled(cls))
    heated = dry.replace("floor 2.4 x 1.8", "floor 2.4 x 1.8 heated")
    wet = floor(SCREED, FLOOR, FALL, head=filled(cls))
    assert [told(s) for s in (dry, heated, wet)] == [[f] if f else [] for f in faults]


def test_one_grout_is_told_once_for_all_its_walls() -> None:
    spec = filled("CG1") + "\ntile wall-tile 300x300x9 porcelain; weight 20 kg/m2\n" + "".join(
        f"wall {letter} 2.4 x 2.4 shower zone\n  base cement render\n  tile wall-tile; joint 3\n" for letter in "AB"
    )
    found = only(spec, "weak-grout-in-wet-area")
    assert at(spec, found) == "grout own class CG1" and "The same holds for wall B." in found.notes


@pytest.mark.parametrize(
    ("tile", "fails"),
    [
        # EN 14411, group BIa: 0.5 %.
        ("porcelain; absorption 0.5 %", False),
        ("porcelain; absorption 0.6 %", True),
        ("ceramic; absorption 0.6 %", False),
        ("porcelain", False),
    ],
)
def test_porcelain(tile: str, fails: bool) -> None:
    spec = wall(RENDER, LAID, tile=f"300x300x9 {tile}; weight 20 kg/m2")
    assert told(spec) == (["porcelain-that-is-none"] if fails else [])
    if fails:
        silenced = spec + 'deviation porcelain-that-is-none on wall A because "tested anew"\n'
        assert told(silenced) == []


@pytest.mark.parametrize(
    ("tile", "fails"),
    [
        # Group BIII of EN 14411: above 10 %; walls only: common practice, from memory.
        ("ceramic; absorption 10 %", False),
        ("ceramic; absorption 11 %", True),
        ("earthenware", True),
        ("earthenware; absorption 6 %", False),
        ("terracotta; absorption 11 %", False),
        ("limestone; absorption 11 %", False),
        ("ceramic", False),
    ],
)
def test_wall_tiles_under_foot(tile: str, fails: bool) -> None:
    spec = floor(SCREED, FLOOR, tile=f"200x200x7 {tile}")
    assert told(spec) == (["wall-tile-on-floor"] if fails else [])
    assert told(wall(RENDER, LAID, tile=f"200x200x7 {tile}; weight 15 kg/m2")) == []


@pytest.mark.parametrize(
    ("tile", "colour", "fails"),
    [
        # Common practice, no source.
        ("limestone", "black", True),
        ("limestone", "beige", False),
        ("limestone dark", "black", False),
        ("porcelain light", "black", False),
    ],
)
def test_dark_grout(tile: str, colour: str, fails: bool) -> None:
    head = f"grout own class CG2WA; colour {colour}; pack 5 kg"
    spec = wall(RENDER, LAID, head=head, tile=f"300x300x10 {tile}; weight 26 kg/m2")
    assert told(spec) == (["dark-grout-in-light-stone"] if fails else [])


@pytest.mark.parametrize(("tile", "fails"), [("slate", True), ("terracotta", True), ("porcelain", False)])
def test_unsealed(tile: str, fails: bool) -> None:
    """Sealed before grouting: common practice, no source."""
    spec = wall(RENDER, LAID, "sealer none", tile=f"300x300x10 {tile}; weight 23 kg/m2")
    assert told(spec) == (["unsealed-porous-tile"] if fails else [])


@pytest.mark.parametrize(("thick", "fails"), [("8", False), ("7.9", True), ("10", False), ("10.1", True)])
def test_two_thicknesses_in_one_pattern(thick: str, fails: bool) -> None:
    """1 mm for joints up to 6 mm: NHBC Standards 9.1.7."""
    head = f"tile small 200x200x{thick} porcelain"
    spec = floor(SCREED, f"{FLOOR}; modular with small", head=head, tile="400x400x9 porcelain")
    assert told(spec) == (["pattern-of-unequal-thickness"] if fails else [])


@pytest.mark.parametrize(
    ("family", "rating", "fails"),
    [
        # ANSI A326.3 in the United States, HSE and UKSRG in the United Kingdom, DIN 51097 in Germany.
        ("US", "dcof 0.45", False),
        ("US", "barefoot class B", True),
        ("US", "barefoot class B; dcof 0.45", False),
        ("UK", "pendulum 40", False),
        ("UK", "barefoot class C", True),
        ("DE", "barefoot class B", False),
        ("DE", "pendulum 40", True),
        # Too slippery by any method: told as that.
        ("US", "barefoot class A", False),
    ],
)
def test_ratings_of_another_method(family: str, rating: str, fails: bool) -> None:
    fall = FALL.replace("1:60", "1:48" if family == "US" else "1:60")
    found = [d.name for d in said(floor(SCREED, FLOOR, fall, head=practice(family), tile=f"100x100x8 porcelain; {rating}"))]
    assert ("rating-of-another-method" in found) is fails


@pytest.mark.parametrize(
    ("tile", "fails"),
    [
        # 2.35 kg for each millimetre of porcelain, 1.9 of wall tile, 2.8 of stone: ceramics data, from memory. 30 %: own rule.
        ("300x300x10 porcelain; weight 30.5 kg/m2", False),
        ("300x300x10 porcelain; weight 30.6 kg/m2", True),
        ("300x300x10 porcelain; weight 16.5 kg/m2", False),
        ("300x300x10 porcelain; weight 16.4 kg/m2", True),
        ("300x300x10 ceramic; weight 19 kg/m2", False),
        ("300x300x10 slate; weight 28 kg/m2", False),
        ("300x300x10 slate; weight 19 kg/m2", True),
        # A sheet has more joint than chip.
        ("300x300x10 mosaic porcelain; weight 15 kg/m2; chips 23 x 23", False),
    ],
)
def test_weight_and_thickness(tile: str, fails: bool) -> None:
    spec = wall(RENDER, LAID, tile=tile)
    assert told(spec) == (["weight-unlike-thickness"] if fails else [])


def test_the_weight_of_one_tile_is_seen_through() -> None:
    """600 x 300 mm of 9 mm porcelain: 0.18 m2 at 21.2 kg/m2, 3.8 kg."""
    found = only(wall(RENDER, LAID, tile="600x300x9 porcelain; weight 3.8 kg/m2"), "weight-unlike-thickness")
    assert found.help.startswith("This looks like the weight of one tile")
    found = only(wall(RENDER, LAID, tile="600x300x9 porcelain; weight 50 kg/m2"), "weight-unlike-thickness")
    assert found.help.startswith("Take the weight of a square metre")


@pytest.mark.parametrize(("tile", "cls", "fails"), [("slate", "RG", True), ("slate", "CG2WA", False), ("porcelain", "RG", False)])
def test_resin_grout(tile: str, cls: str, fails: bool) -> None:
    """Common practice, no source."""
    spec = wall(RENDER, LAID, head=filled(cls), tile=f"300x300x10 {tile}; weight 25 kg/m2")
    assert told(spec) == (["resin-grout-in-porous-tile"] if fails else [])


@pytest.mark.parametrize(
    ("start", "window", "help"),
    [
        # Worked by hand with courses of 303 mm. Datum 1.0: courses at 1.0, 1.303 ... 2.212; the head at 2.1 cuts 109 mm.
        ("full tile at datum", "0.6 x 0.9; 0.6 from left, 1.2 up", "Move the datum line 41 mm up"),
        ("full tile at floor", "0.6 x 0.9; 0.6 from left, 1.2 up", "the courses move 127 mm up"),
        ("full tile at floor", "0.6 x 1.03; 0.3 from left, 1.0 up", "Write `full tile at datum`"),
        # 102 mm are left between window and ceiling: no start makes more of it.
        ("full tile at datum", "0.6 x 0.9; 0.6 from left, 1.398 up", "No start leaves larger cuts here"),
    ],
)
def test_what_is_said_to_do_about_a_window(start: str, window: str, help: str) -> None:
    spec = wall(
        RENDER, f"{LAID}; {start}", f"window {window}", head="datum 1.0 above finished floor",
        tile="600x300x9 porcelain landscape; weight 20 kg/m2",
    )
    assert help in only(spec, "low-window-cut").help


def test_a_datum_line_that_is_moved_as_said_leaves_no_thin_cut() -> None:
    spec = wall(
        RENDER, f"{LAID}; full tile at datum", "window 0.6 x 0.9; 0.6 from left, 1.2 up", head="datum 1.0 above finished floor",
        tile="600x300x9 porcelain landscape; weight 20 kg/m2",
    )
    assert "low-window-cut" in [d.name for d in said(spec)]
    assert "low-window-cut" not in [d.name for d in said(spec.replace("datum 1.0", "datum 1.041"))]
