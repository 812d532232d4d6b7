"""Falls: worked examples (computed from plane geometry: 900 tray, linear drain, 1:48), planes held against triangles that are
interpolated without the code, and where tiles are cut across.
"""

from __future__ import annotations

import random
from fractions import Fraction as F

import pytest
import shapely

from tests.setout.spec import SQUARE, floor, layout, mm, plan, ring, setout, spec, wall
from tilespec.setout import falls
from tilespec.setout.types import Falls, Layout

TINY = "tile tiny 100x100x8 porcelain; weight 18 kg/m2; barefoot class B"
SHOWER = "shower in corner D A, 0.9 x 0.9; head at 2.1"
MIDDLE = "drain 0.45 from wall D, 0.45 from wall A"


def fallen(text: str) -> Falls:
    (found,) = setout(text).falls
    return found


def heights(f: Falls) -> dict[str, float]:
    return {h.name: mm(h.height) for h in f.heights}


def tray(fall: str, *more: str, tile: str = "tiny", size: str = "0.9 x 0.9", joint: int = 3) -> str:
    return spec(TINY, SQUARE, floor(size, f"tile {tile}; joint {joint}; tile on centre", f"fall {fall}", *more))


@pytest.mark.parametrize(("fall", "drop"), [("1:50", 9.0), ("1:80", 5.625)])
def test_a_tray_of_900(fall: str, drop: float) -> None:
    """Four planes that meet in hips: the corners are level with the middle of the walls (worked example)."""
    f = fallen(tray(f"{fall} four planes", MIDDLE))
    found = heights(f)
    assert found.pop("drain") == -drop
    assert len(found) == 4 and set(found.values()) == {0}
    assert {p.side for p in f.planes} == {"top of the plan", "right", "foot of the plan", "left"}
    assert all(mm(p.run) == 450 and p.fall.value == 1 / F(fall.removeprefix("1:")) for p in f.planes)
    # The hip runs 636.4 mm (half the diagonal), and so falls at 1:70.7 where the planes fall at 1:50.
    a, b = next((a, b) for a, b in f.lines if a == (0, 0))
    long = float((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    assert round(long * 1000, 1) == 636.4
    if fall == "1:50":
        assert round(long * 1000 / drop, 1) == 70.7


def test_a_linear_drain_at_one_edge() -> None:
    """900 run at 1:50: 18.0 mm (worked example)."""
    f = fallen(tray("1:50 one plane", "channel along wall A, 0.8 long, 0 from wall A, 0.05 from wall D"))
    assert heights(f) == {
        "corner, upper left on the plan": -18, "corner, upper right on the plan": -18, "corner, lower right on the plan": 0,
        "corner, lower left on the plan": 0, "drain": -18,
    }
    (plane,) = f.planes
    assert (plane.side, mm(plane.run), plane.fall.value) == ("foot of the plan", 900, F(1, 50))
    assert f.lines == ()


def test_twelve_hundred_at_one_in_48() -> None:
    """25.0 mm (worked example); the channel lies at wall B, so the floor falls from D."""
    f = fallen(tray("1:48 one plane", "channel along wall B, 0.8 long, 0 from wall B, 0.05 from wall A", size="1.2 x 0.9"))
    assert heights(f)["drain"] == -25
    assert [p.side for p in f.planes] == ["left"]


def test_two_planes_meet_in_the_line_of_the_channel() -> None:
    """Channel along A, 400 from it in a room of 1000: 400 at 1:50 is 8 mm; the longer plane, 600, falls 8 mm at 1:75."""
    f = fallen(tray("1:50 two planes", "channel along wall A, 0.8 long, 0.4 from wall A, 0.1 from wall D", size="1.0 x 1.0"))
    assert [(p.side, mm(p.run), p.fall.value) for p in f.planes] == [
        ("top of the plan", 400, F(1, 50)), ("foot of the plan", 600, F(1, 75)),
    ]
    assert heights(f)["drain"] == -8 and set(heights(f).values()) == {0, -8}
    assert f.lines == (((F(0), F("0.4")), (F(1), F("0.4"))),)


def test_a_drain_off_the_middle() -> None:
    """300 from A and 400 from D in 1200 x 900: the fall that is said is that of the nearest side; 300 / 60 = 5 mm."""
    f = fallen(tray("1:60 four planes", "drain 0.4 from wall D, 0.3 from wall A", size="1.2 x 0.9"))
    assert heights(f)["drain"] == -5
    assert {p.side: (mm(p.run), 1 / p.fall.value) for p in f.planes} == {
        "top of the plan": (300, 60), "right": (800, 160), "foot of the plan": (600, 120), "left": (400, 80),
    }


@pytest.mark.parametrize("seed", range(12))
def test_heights_against_triangles(seed: int) -> None:
    """Every plane hangs between two corners of the level edge and the drain: barycentric, with areas from shapely."""
    random_ = random.Random(seed)
    wide, deep = random_.randint(8, 24) * 100, random_.randint(8, 24) * 100
    x, y = random_.randint(300, wide - 300), random_.randint(300, deep - 300)
    drain = f"drain {x / 1000} from wall D, {y / 1000} from wall A"
    text = tray("1:60 four planes", drain, size=f"{wide / 1000} x {deep / 1000}")
    g = falls.ground(plan(text).job.rooms[0])
    assert g is not None
    drop = min(x, y, wide - x, deep - y) / 60
    corners = [(0, 0), (wide, 0), (wide, deep), (0, deep)]
    for _ in range(50):
        at = random_.uniform(0, wide), random_.uniform(0, deep)
        for a, b in zip(corners, corners[1:] + corners[:1]):
            triangle = shapely.Polygon([a, b, (x, y)])
            if triangle.intersects(shapely.Point(at)):
                share = shapely.Polygon([a, b, at]).area / triangle.area
                mine = float(g.height(F(at[0]) / 1000, F(at[1]) / 1000) * 1000)
                assert abs(mine + drop * share) < 1e-9
                break
        else:
            raise AssertionError(at)


def test_the_fall_is_that_of_the_shower_and_the_rest_is_level() -> None:
    """Level shower of 900 in the corner D A of a larger room: 450 / 60 = 7.5 mm."""
    text = spec(TINY, SQUARE, floor("2.4 x 1.8", "tile tiny; joint 3; joint on centre", f"fall 1:60 four planes; {MIDDLE}"),
                SHOWER, wall("A", "tile square; joint 3"), wall("D", "tile square; joint 3"))
    f = fallen(text)
    assert ring(f.area) == [(0, 0), (900, 0), (900, 900), (0, 900)]
    assert heights(f)["drain"] == -7.5
    g = falls.ground(plan(text).job.rooms[0])
    assert g is not None
    assert [g.height(F(x), F(y)) for x, y in (("1.5", "1.5"), ("0.9", "0.45"), ("2.4", "0"))] == [0, 0, 0]


def test_bed_at_the_door() -> None:
    """Door in B, its middle 600 from A in a room of 1200 that falls 1:60 to A: the floor is 600 / 60 = 10 mm down there, and of a
    bed of 20 mm there are 10 left."""
    text = spec(TINY, SQUARE, floor("1.2 x 1.2", "tile tiny; joint 3", "build-up bed 20", "fall 1:60 one plane",
                                    "channel along wall A, 0.9 long, 0.1 from wall A, 0.15 from wall D"),
                wall("B", "tile square; joint 3", "door 0.8 x 2.0; 0.2 from left"))
    f = fallen(text)
    assert heights(f)["door in wall B"] == -10
    assert f.threshold_bed is not None and mm(f.threshold_bed) == 10


def test_a_thin_bed_does_not_make_the_fall() -> None:
    """The same with a bed of 4 mm: the floor falls 18.3 mm to the channel, more than the bed is thick, so the base falls."""
    text = spec(TINY, SQUARE, floor("1.2 x 1.2", "tile tiny; joint 3", "build-up bed 4", "fall 1:60 one plane",
                                    "channel along wall A, 0.9 long, 0.1 from wall A, 0.15 from wall D"),
                wall("B", "tile square; joint 3", "door 0.8 x 2.0; 0.2 from left"))
    f = fallen(text)
    assert f.threshold_bed is not None and mm(f.threshold_bed) == 4


def test_without_a_drain_or_a_fall_nothing_falls() -> None:
    assert setout(spec(TINY, floor("0.9 x 0.9", "tile tiny; joint 3"))).falls == ()


# ---------------------------------------------------------------- tiles cut across

def folds(x: Layout) -> dict[tuple[float, float], list[tuple[tuple[float, float], tuple[float, float]]]]:
    """Lower left corner of each folded piece, and its cuts (mm)."""
    return {
        (mm(p.shape.bounds[0]), mm(p.shape.bounds[1])): sorted((ring((a,))[0], ring((b,))[0]) for a, b in p.folds)
        for p in x.pieces if p.folds
    }


def test_tiles_are_cut_along_the_hips() -> None:
    """900 x 900, tile 300 on centre, joint 3: columns 5-297, 300-600, 603-895. The middle tile is cut from each corner to the
    grate of 150 (practice) at its centre, the four corner tiles along their diagonals, and no other tile.
    """
    found = folds(layout(tray("1:60 four planes", MIDDLE, tile="square"), "floor"))
    assert set(found) == {(5, 5), (300, 300), (603, 5), (5, 603), (603, 603)}
    assert found[5, 5] == [((5, 5), (297, 297))]
    assert {frozenset(f) for f in found[603, 5]} == {frozenset({(895, 5), (603, 297)})}
    assert {frozenset(f) for f in found[300, 300]} == {
        frozenset({(x, y), (450 + (x - 450) / 2, 450 + (y - 450) / 2)}) for x in (300, 600) for y in (300, 600)
    }


@pytest.mark.parametrize(("side", "cut"), [(100, False), (150, False), (151, True), (200, True)])
def test_small_tiles_follow_the_fall_by_themselves(side: int, cut: bool) -> None:
    """EN: up to an edge of 150 mm no envelope cuts."""
    any_ = f"tile any {side}x{side}x8 porcelain; weight 18 kg/m2; barefoot class B"
    text = spec(any_, floor("0.9 x 0.9", "tile any; joint 3; tile on centre", f"fall 1:60 four planes; {MIDDLE}"))
    assert bool(folds(layout(text, "floor"))) is cut


def test_one_plane_needs_no_cuts_and_two_need_one_line() -> None:
    """Two planes that meet at 500: tile on centre in 1000 lies over 350-650, and is cut in its middle all along."""
    one = tray("1:50 one plane", "channel along wall A, 0.8 long, 0 from wall A, 0.05 from wall D", tile="square")
    assert not folds(layout(one, "floor"))
    # A fall to two sides of a gully line: the point drain in the middle of the room.
    two = tray("1:50 two planes", "drain 0.5 from wall D, 0.5 from wall A", tile="square", size="1.0 x 1.0")
    found = folds(layout(two, "floor"))
    assert found and all(y == 350 for _, y in found)
    # The middle tile on both sides of the grate, 425 to 575; the others from side to side.
    assert sorted(sorted(line) for line in found.pop((350, 350))) == [[(350, 500), (425, 500)], [(575, 500), (650, 500)]]
    for (x, _), (((x1, y1), (x2, y2)),) in found.items():
        assert y1 == y2 == 500 and min(x1, x2) == x and max(x1, x2) in (x + 300, 347, 995)


def test_folded_pieces_have_rows_of_their_own_with_the_ends_of_the_cut() -> None:
    x = layout(tray("1:60 four planes", MIDDLE, tile="square"), "floor")
    rows = {r.number: r for r in x.rows}
    (middle,) = (p for p in x.pieces if p.folds and p.shape.bounds[0] == F("0.3"))
    row = rows[middle.number]
    assert len(row.folds) == 4 and int(row.count.value) == 1
    ends = {tuple(mm(q) for q in f) for f in row.folds}
    assert {frozenset({f[:2], f[2:]}) for f in ends} == {
        frozenset({(x, y), (150 + (x - 150) / 2, 150 + (y - 150) / 2)}) for x in (0, 300) for y in (0, 300)
    }
    # Its drain: a grate of 150 (practice) is cut out of its middle.
    assert row.holes == () and [(at, mm(w), mm(h)) for at, w, h in row.notches] == [("inside", 150, 150)]


def test_the_edge_of_a_shower_moves_to_the_nearest_joint() -> None:
    """Shower of 900 in a room of 2400, joint on centre. A tile begins at 1201.5 - 303, the joint before it has its middle at 897.
    The edge at 900 would cut 1.5 mm off the tiles there: it is moved by 3 mm instead, and no tile is cut along it.
    """
    text = spec(SQUARE, floor("2.4 x 1.8", "tile square; joint 3; joint on centre", f"fall 1:60 four planes; {MIDDLE}"),
                SHOWER, wall("A", "tile square; joint 3"), wall("D", "tile square; joint 3"))
    lines = [tuple(ring(line)) for line in fallen(text).lines]
    assert any(a[0] == b[0] == 897 for a, b in lines)
    upright = [f for f in folds(layout(text, "floor")).values() for (x1, _), (x2, _) in f if x1 == x2]
    assert upright == []
