"""Tile planes worked by hand, in millimetres: bare wall less bed and tile and joint at both sides; floors to a joint before the
bare wall. Measured rooms against triangles solved without the code (law of cosines) and against shapely.
"""

from __future__ import annotations

import math
from fractions import Fraction as F

import pytest
import shapely

from tests.setout.spec import (
    CORNER,
    EDGE,
    FITTING,
    LARGE,
    LARGE_OFF,
    SMALL,
    SMALL_OFF,
    SQUARE,
    bounds,
    face,
    floor,
    layout,
    layouts,
    mm,
    plan,
    ring,
    setout,
    spec,
    wall,
)
from tests.takeoff.building import en, laid, m, mosaic, replace, surface, tile, wall_job
from tilespec.job.types import Start
from tilespec.setout import lay, plane
from tilespec.setout.plane import wall_plan

ON = "tile large; joint 3"
ROOM = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON), wall("B", ON), wall("C", ON), wall("D", ON))


@pytest.mark.parametrize(("letter", "wide"), [("A", 2400), ("B", 1800), ("C", 2400), ("D", 1800)])
def test_a_wall_ends_at_the_tiles_beside_it(letter: str, wide: int) -> None:
    back = LARGE_OFF + CORNER
    assert bounds(face(ROOM, f"wall {letter}").outline) == (back, EDGE, wide - back, 2400 - CORNER)


def test_a_floor_ends_a_joint_before_the_bare_wall() -> None:
    assert bounds(face(ROOM, "floor").outline) == (EDGE, EDGE, 2400 - EDGE, 1800 - EDGE)


def test_beside_a_wall_without_tiles_there_is_only_the_joint() -> None:
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON), wall("B", ON))
    assert bounds(face(text, "wall A").outline) == (CORNER, EDGE, 2400 - LARGE_OFF - CORNER, 2395)


def test_each_side_by_its_own_tile() -> None:
    text = spec(
        LARGE, SMALL, SQUARE, floor("2.4 x 1.8", "tile square"), wall("A", "tile large; joint 3"),
        wall("B", "tile small; joint 2"), wall("D", "tile square; joint 3"),
    )
    left, _, right, _ = bounds(face(text, "wall A").outline)
    assert (left, right) == (12 + CORNER, 2400 - SMALL_OFF - CORNER)


def test_a_notch_that_the_product_asks_for() -> None:
    """12 / 2 x sin 60 = 5.196; + 9 = 14.2, so 14."""
    own = "adhesive thick class C2TE S1; for walls; notch 12"
    text = spec(LARGE, own, floor("2.4 x 1.8", ON), wall("A", ON), wall("B", ON))
    assert bounds(face(text, "wall A").outline)[2] == 2400 - 14 - CORNER


def test_rooms_measured_to_the_tile_face() -> None:
    """Nothing is taken off for bed and tile, and the floor reaches under the walls' tiles to a joint before the wall itself."""
    text = spec('job "x"', "  rooms measured to tile face", ROOM)
    assert bounds(face(text, "wall A").outline) == (CORNER, EDGE, 2400 - CORNER, 2395)
    out = LARGE_OFF - EDGE
    assert bounds(face(text, "floor").outline) == (-out, -out, 2400 + out, 1800 + out)


def test_heated_rooms_have_the_wider_joint_at_the_floor() -> None:
    text = spec(LARGE, floor("2.4 x 1.8 heated", ON), wall("A", ON))
    assert bounds(face(text, "floor").outline) == (10, 10, 2390, 1790)
    assert bounds(face(text, "wall A").outline)[1] == 10


def test_tiled_to_a_height() -> None:
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON, "tiled to 1.2"))
    assert bounds(face(text, "wall A").outline)[3] == 1200


WALKED = "walk A 3.2, B 2.6, C 1.7, corner external, D 0.7, E 1.5, F 3.3"


def test_measured_to_the_tile_face_a_bath_stands_at_the_wall() -> None:
    """By hand: the floor runs 13 - 5 = 8 mm on under the tiles of walls A and B, but not behind the bath in their corner."""
    bath = "bath in corner A B, 1.0 x 0.7; rim 0.56"
    walls = [wall(letter, "tile large; joint 3") for letter in "AB"]
    text = spec('job "x"', "  rooms measured to tile face", LARGE, floor("2.4 x 1.8", "tile large; joint 3"), bath, *walls)
    made = face(text, "floor")
    assert bounds(made.outline)[1:3] == (-8, 2408)
    assert [bounds(h) for h in made.holes] == [(1395, -8, 2408, 705)]


def test_at_an_external_corner_both_walls_reach_the_face_round_it() -> None:
    """C ends at the corner that sticks out, D begins at it. B and E have no tiles."""
    text = spec(LARGE, floor(WALKED, ON), wall("C", ON), wall("D", ON))
    assert bounds(face(text, "wall C").outline)[::2] == (CORNER, 1700 + LARGE_OFF)
    assert bounds(face(text, "wall D").outline)[::2] == (-LARGE_OFF, 700 - CORNER)


def test_at_an_external_corner_without_tiles_round_it() -> None:
    text = spec(LARGE, floor(WALKED, ON), wall("C", ON))
    assert bounds(face(text, "wall C").outline)[::2] == (CORNER, 1700)


def test_a_walked_floor_keeps_its_joint_at_each_wall() -> None:
    """Re-entrant corner of the L at (1500, 2600): the joint lies inside the room on both of its walls."""
    text = spec(LARGE, floor(WALKED, ON))
    assert set(ring(face(text, "floor").outline)) == {
        (5, 5), (3195, 5), (3195, 2595), (1495, 2595), (1495, 3295), (5, 3295),
    }


# ---------------------------------------------------------------- measured shapes

def test_heights_measured_left_and_right() -> None:
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A 2.4 x 2.5", "heights left 2.5, right 2.46", ON))
    assert ring(face(text, "wall A").outline) == [(5, 5), (2395, 5), (2395, 2455), (5, 2495)]


def test_tiled_below_the_lower_of_two_heights() -> None:
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A 2.4 x 2.5", "heights left 2.5, right 2.46; tiled to 2.1", ON))
    assert ring(face(text, "wall A").outline) == [(5, 5), (2395, 5), (2395, 2100), (5, 2100)]


def test_a_wall_that_leans_into_the_room() -> None:
    """B leans in by 12 mm on 2.4 m: A's right edge does too, 0.025 mm at the foot (5 mm up), 11.975 at 2395."""
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON), wall("B", ON, "out of plumb 12"))
    x = 2400 - LARGE_OFF - CORNER
    assert ring(face(text, "wall A").outline) == [(5, 5), (x - 0.025, 5), (x - 11.975, 2395), (5, 2395)]


def test_a_wall_that_leans_out() -> None:
    """At its foot D's tiles and joint take 18, less 24 x 5 / 2400; at 2395 up A reaches behind where D's foot is."""
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON), wall("D", ON, "out of plumb -24"))
    assert ring(face(text, "wall A").outline) == [(17.95, 5), (2395, 5), (2395, 2395), (-5.95, 2395)]


def _far_corners(a: float, b: float, d: float, one: float, two: float) -> list[tuple[float, float]]:
    """Corners of the room with wall A along the top: by angles (law of cosines), not by meeting circles."""
    right = math.acos((a * a + b * b - one * one) / (2 * a * b))
    left = math.acos((a * a + d * d - two * two) / (2 * a * d))
    return [(0, 0), (a, 0), (a - b * math.cos(right), b * math.sin(right)), (d * math.cos(left), d * math.sin(left))]


@pytest.mark.parametrize(("a", "b", "one", "two"), [
    (2400, 1800, 2990, 3012), (2400, 1800, 3005, 2995), (3210, 2455, 4050, 4035), (1500, 900, 1740, 1760),
])
def test_a_room_out_of_square(a: int, b: int, one: int, two: int) -> None:
    """The corners, and the joint measured square to every wall, against triangles and against shapely's inward offset."""
    text = spec(LARGE, floor(f"{a / 1000} x {b / 1000}", f"diagonals {one / 1000}, {two / 1000}", ON))
    room = plan(text).job.rooms[0]
    corners = _far_corners(a, b, b, one, two)
    for (x, y), (u, v) in zip(ring(wall_plan(room)), corners):
        assert abs(x - u) < 1e-3 and abs(y - v) < 1e-3
    inner = shapely.Polygon(corners).buffer(-EDGE, join_style="mitre")
    mine = shapely.Polygon(ring(face(text, "floor").outline))
    assert mine.symmetric_difference(inner).area < 1  # mm2
    assert mine.exterior.hausdorff_distance(inner.exterior) < 1e-3


def test_equal_diagonals_close() -> None:
    """3-4-5: a room of 2.4 by 1.8 with both diagonals 3.0 is square."""
    text = spec(LARGE, floor("2.4 x 1.8", "diagonals 3, 3", ON))
    assert bounds(face(text, "floor").outline) == (5, 5, 2395, 1795)


# ---------------------------------------------------------------- what is left out, and what is added

def test_above_a_bath() -> None:
    """Rim at 560: the tiles stop a joint above it, and a joint beside its open end."""
    text = spec(LARGE, floor("2.4 x 1.7", ON), "bath in corner A B, 0.7 x 1.7; rim 0.56", wall("A", ON), wall("B", ON))
    assert [bounds(h) for h in face(text, "wall A").holes] == [(1700 - FITTING, 0, 2400, 560 + FITTING)]
    assert [bounds(h) for h in face(text, "wall B").holes] == [(0, 0, 1700, 560 + FITTING)]


def test_openings_and_what_is_not_tiled() -> None:
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall(
        "A", ON, "window 0.6 x 0.9; 0.6 from left, 1.15 up", "untiled 0.3 x 0.4; 2.0 from left, 1.2 up",
        "niche 0.3 x 0.3; 1.5 from left, 1.2 up; 0.09 deep",
    ))
    assert [bounds(h) for h in face(text, "wall A").holes] == [
        (600, 1150, 1200, 2050), (2000, 1200, 2300, 1600), (1500, 1200, 1800, 1500),
    ]


def test_inside_a_niche() -> None:
    """Its back is less by a joint in each corner. Its sides are as deep as the bare niche, from the tile face of the back to that
    of the wall, less a joint; the upright ones stand between the tiles (13) and joints of the lower and the upper one.
    """
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON, "niche 0.6 x 0.3; 0.9 from left, 1.2 up; 0.09 deep"))
    found = {f.side: bounds(f.outline) for f in setout(text).faces if f.kind == "niche"}
    assert found == {
        "back": (0, 0, 590, 290), "left": (0, 0, 85, 264), "right": (0, 0, 85, 264), "bottom": (0, 0, 590, 85),
        "top": (0, 0, 590, 85),
    }
    x, y = face(text, "wall A/niche 1 back").origin
    assert x is not None and y is not None and (mm(x), mm(y)) == (905, 1205)
    left = face(text, "wall A/niche 1 left").origin[1]
    assert left is not None and mm(left) == 1200 + LARGE_OFF + CORNER


def test_a_niche_lined_with_another_tile() -> None:
    """Lined with the small tile: 10 in place of 13 above, below and at the back, and the wall's 13 at the front."""
    niche = "niche 0.6 x 0.3; 0.9 from left, 1.2 up; 0.09 deep; tile small"
    text = spec(LARGE, SMALL, floor("2.4 x 1.8", ON), wall("A", ON, niche))
    assert bounds(face(text, "wall A/niche 1 left").outline) == (0, 0, 85 + LARGE_OFF - SMALL_OFF, 300 - 2 * (SMALL_OFF + CORNER))


def test_reveals() -> None:
    """From the joint at the frame out to the face of the wall's tiles; the upright ones between those of sill and head."""
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON, "window 0.6 x 0.9; 0.6 from left, 1.15 up; reveal 0.12"))
    found = {f.side: bounds(f.outline) for f in setout(text).faces if f.kind == "reveal"}
    deep, tall = 120 + LARGE_OFF - CORNER, 900 - 2 * (LARGE_OFF + CORNER)
    upright, level = (0, 0, deep, tall), (0, 0, 600, deep)
    assert found == {"left": upright, "right": upright, "bottom": level, "top": level}
    without = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON, "window 0.6 x 0.9; 0.6 from left, 1.15 up"))
    assert not [f for f in setout(without).faces if f.kind == "reveal"]


def test_a_passage_has_no_reveal_at_its_foot_and_begins_a_joint_above_the_floor() -> None:
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", ON, "opening 0.8 x 2.0; 0.9 from left, 0 up; reveal 0.12"))
    found = {f.side: bounds(f.outline) for f in setout(text).faces if f.kind == "reveal"}
    tall = 1995 - LARGE_OFF - CORNER
    assert found == {"left": (0, 0, 128, tall), "right": (0, 0, 128, tall), "top": (0, 0, 800, 128)}


def test_nor_where_the_floor_falls_to_its_wall() -> None:
    """The wall's tiles reach down to the floor, which lies lower there; the passage still has no sill."""
    text = spec(SQUARE, floor("1.2 x 1.2", "tile square; joint 3", "fall 1:60 one plane",
                              "channel along wall A, 0.9 long, 0.1 from wall A, 0.15 from wall D"),
                wall("A", "tile square; joint 3", "opening 0.8 x 2.0; 0.2 from left, 0 up; reveal 0.12"))
    assert [f.side for f in setout(text).faces if f.kind == "reveal"] == ["left", "right", "top"]


def test_a_reveal_in_a_corner_ends_at_the_tiles_of_the_next_wall() -> None:
    """Window at the right end of wall A: no reveal there; sill and head end a joint before B's tiles, at 1800 - 18 = 1782."""
    window = "window 0.6 x 0.9; 1.2 from left, 1.15 up; reveal 0.12"
    text = spec(LARGE, floor("1.8 x 1.8", ON), wall("A", ON, window), wall("B", ON))
    found = {f.side: bounds(f.outline) for f in setout(text).faces if f.kind == "reveal"}
    assert found == {"left": (0, 0, 128, 864), "bottom": (0, 0, 582, 128), "top": (0, 0, 582, 128)}


def test_a_reveal_at_the_left_end_begins_at_the_tiles_of_the_wall_there() -> None:
    window = "window 0.6 x 0.9; 0 from left, 1.15 up; reveal 0.12"
    text = spec(LARGE, floor("1.8 x 1.8", ON), wall("A", ON, window), wall("D", ON))
    bottom = face(text, "wall A/window 1 bottom")
    assert bounds(bottom.outline) == (0, 0, 582, 128)
    assert bottom.origin[0] is not None and mm(bottom.origin[0]) == 18


BOXED = spec(
    LARGE, floor("2.4 x 1.8", ON), "boxing in corner C D, 0.25 x 0.2; height 1.2", wall("C", ON), wall("D", ON),
)


def test_behind_a_boxing_the_wall_stops_a_joint_before_its_tiles() -> None:
    """C's right end is in the corner with D: the boxing takes 250 of it, D's left end 200."""
    gap = LARGE_OFF + CORNER
    assert [bounds(h) for h in face(BOXED, "wall C").holes] == [(2400 - 250 - gap, 0, 2400, 1200 + gap)]
    assert [bounds(h) for h in face(BOXED, "wall D").holes] == [(0, 0, 200 + gap, 1200 + gap)]


def test_the_faces_of_a_boxing() -> None:
    """From the joint at the wall's tiles (18 off the bare wall) out to the face of the tiles round the open corner (13 past it),
    and up to that of the tiles on top. The top lies between the joints at both walls and reaches both fronts' faces.
    """
    wide, deep, high = 250 - 18 + 13, 200 - 18 + 13, 1200 + 13 - EDGE
    assert bounds(face(BOXED, "wall C/boxing 1 front").outline) == (0, 0, wide, high)
    assert bounds(face(BOXED, "wall D/boxing 1 front").outline) == (0, 0, deep, high)
    assert bounds(face(BOXED, "wall C/boxing 1 top").outline) == (0, 0, wide, deep)


def test_a_boxing_in_the_middle_of_a_wall_up_to_the_ceiling() -> None:
    """Both sides open: 300 + 2 x 13 wide; its sides from the wall's tiles' joint to its front: 200 - 18 + 13; no top."""
    text = spec(LARGE, floor("2.4 x 1.8", ON), "boxing on wall A, 0.3 x 0.2; 0.9 from left", wall("A", ON))
    found = {f.side: bounds(f.outline) for f in setout(text).faces if f.kind == "boxing"}
    high = 2400 - CORNER - EDGE
    assert found == {"front": (0, 0, 326, high), "left": (0, 0, 195, high), "right": (0, 0, 195, high)}


def test_a_floor_stops_a_joint_before_what_stands_on_it() -> None:
    """A bath and a boxing: at their open sides a joint, as at a wall."""
    text = spec(SMALL, floor("2.4 x 1.7", "tile small; joint 2"), "bath in corner A B, 0.7 x 1.7; rim 0.56",
                "boxing in corner C D, 0.25 x 0.2; height 1.2")
    assert sorted(bounds(h) for h in face(text, "floor").holes) == [(0, 1495, 255, 1700), (1695, 0, 2400, 1700)]


def test_a_channel_is_left_out() -> None:
    """Slot of 70 mm (practice) along wall A, its middle where the spec says."""
    text = spec(SQUARE, floor("1.2 x 1.2", "tile square; joint 3", "fall 1:60 one plane",
                              "channel along wall A, 0.9 long, 0.1 from wall A, 0.15 from wall D"))
    left, _, right, _ = bounds(face(text, "floor").holes[0])
    assert (left, right) == (150, 1050)
    _, low, _, high = bounds(face(text, "floor").holes[0])
    assert high - low == 70


# ---------------------------------------------------------------- regions of one face

def test_movement_joints_part_the_field() -> None:
    """Wall C, 8 mm to its middle at 1200; floor 5 mm at 1200 from D."""
    text = spec(SMALL, floor("2.4 x 1.8", "tile small; joint 2", "movement joint 1.2 from wall D"),
                wall("C", "tile small; joint 2", "movement joint 1.2 from left; width 8"))
    c = layout(text, "wall C")
    assert [s.bounds for s in c.region] == [
        (F("0.005"), F("0.005"), F("1.196"), F("2.395")), (F("1.204"), F("0.005"), F("2.395"), F("2.395")),
    ]
    assert [(mm(s.bounds[0]), mm(s.bounds[2])) for s in layout(text, "floor").region] == [(5, 1197.5), (1202.5, 2395)]


def test_a_level_movement_joint() -> None:
    on = "tile small; joint 2"
    text = spec(SMALL, floor("2.4 x 1.8", on), wall("A", on, "movement joint 1.2 up; width 6"))
    assert [(mm(s.bounds[1]), mm(s.bounds[3])) for s in layout(text, "wall A").region] == [(5, 1197), (1203, 2395)]


def test_a_border_frames_the_field() -> None:
    """Frame of 150, then the field's joint of 3."""
    text = spec(SMALL, SQUARE, floor("2.4 x 1.8", "tile square; joint 3", "tile small; joint 2; border 0.15 wide"))
    field, frame = layout(text, "floor", "field"), layout(text, "floor", "border")
    assert [tuple(mm(v) for v in s.bounds) for s in field.region] == [(158, 158, 2242, 1642)]
    assert sum((s.area for s in frame.region), F(0)) == F("2.39") * F("1.79") - F("2.09") * F("1.49")


def test_a_band_and_a_panel_are_taken_out_with_a_joint_round_them() -> None:
    text = spec(LARGE, SMALL, floor("2.4 x 1.8", ON), wall(
        "A", ON, "tile small; joint 2; band 0.2 high, bottom 1.2 up",
        "tile small; joint 2; panel 0.6 x 0.6; 0.9 from left, 1.5 up",
    ))
    by_role = {x.role: x for x in layouts(text, "wall A")}
    assert [tuple(mm(v) for v in s.bounds) for s in by_role["band"].region] == [(5, 1200, 2395, 1400)]
    assert [tuple(mm(v) for v in s.bounds) for s in by_role["panel"].region] == [(900, 1500, 1500, 2100)]
    field = by_role["field"].region
    assert sum((s.area for s in field), F(0)) == F("2.39") * (F("2.39") - F("0.206")) - F("0.606") * F("0.606")


def test_a_wall_of_which_nothing_is_left_has_no_face() -> None:
    """Lower than the joints at its foot and its head (the language takes no wall so low: the plane has to stand by itself)."""
    low = replace(surface("A", 1, "0.01", laid(tile())), height=m("0.01"))
    assert plane.faces(wall_job(low), en()) == ()


def test_a_sheet_that_is_sold_with_its_joint() -> None:
    """Six chips of 48 mm with joints of 2 mm are 300 mm with the joint to the next sheet: 298 mm of sheet, and 900 take three."""
    chip = m("0.048")
    sheet = replace(mosaic(), width=m("0.3"), height=m("0.3"), chip_width=chip, chip_height=chip, chip_joint=m("0.002"))
    covering = replace(laid(sheet, joint=2), start=Start("from left", "full tile at floor"))
    # 898 mm of tile plane: three sheets and two joints.
    (x,) = lay(wall_job(surface("A", "0.908", "2.4", covering)), en()).layouts
    assert x.width.value == F("0.298") and {r.count for r in x.runs} == {3}
    odd = replace(covering, tile=replace(sheet, width=m("0.305")))
    (y,) = lay(wall_job(surface("A", "0.908", "2.4", odd)), en()).layouts
    assert y.width.value == F("0.305")
