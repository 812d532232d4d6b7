"""The bottom course stands on the finished floor, which falls along a wall: each bottom piece has its own height left and right,
worked out here from 1:60 by hand.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.setout.spec import EDGE, SQUARE, SQUARE_OFF, face, floor, layout, mm, ring, spec, wall
from tilespec.setout.types import Layout, Piece

# The channel's middle is 100 from A: from the wall C the floor falls for 1100, at 1:60, and is level behind the channel.
FALL = ("fall 1:60 one plane", "channel along wall A, 0.9 long, 0.1 from wall A, 0.15 from wall D")
ON = "tile square; joint 3; full tile at datum"
LOW = F(1100, 60)
ROOM = spec(
    SQUARE, floor("1.2 x 1.2", "tile square; joint 3", *FALL), wall("A", ON), wall("B", ON), wall("C", ON), wall("D", ON),
)


def sunk(y: float) -> float:
    """How far the finished floor lies down at a distance from A, in millimetres."""
    return (1200 - max(y, 100)) / 60


def foot(x: Layout) -> list[Piece]:
    """The pieces below the first joint above the floor, at 88, from left to right."""
    return sorted((p for p in x.pieces if p.shape.bounds[1] < F("0.088")), key=lambda p: p.shape.bounds[0])


def height_at(p: Piece, x: float) -> float:
    """Of a piece along an upright line at x (mm)."""
    ys = [y for px, y in ring(p.shape.outer) if abs(px - x) < 1e-3]
    return max(ys) - min(ys)


def test_the_foot_of_walls_square_to_the_fall() -> None:
    """A stands where the floor lies 18.3 mm down, C on its level edge."""
    a, c = (ring(face(ROOM, f"wall {w}").outline) for w in "AC")
    assert round(min(y for _, y in a), 3) == round(EDGE - float(LOW), 3)
    assert min(y for _, y in c) == EDGE


def test_each_bottom_piece_has_its_heights() -> None:
    """Facing B, its left is at A. Courses at the datum of 1000: joints at 1000 - 303 n, the bottom course's top is at 88."""
    b = layout(ROOM, "wall B")
    pieces = foot(b)
    assert 4 <= len(pieces) <= 5
    assert mm(pieces[0].shape.bounds[0]) == SQUARE_OFF + EDGE and mm(pieces[-1].shape.bounds[2]) == 1200 - SQUARE_OFF - EDGE
    for p in pieces:
        left, right = mm(p.shape.bounds[0]), mm(p.shape.bounds[2])
        assert height_at(p, left) == pytest.approx(88 - EDGE + sunk(left), abs=1e-3)
        assert height_at(p, right) == pytest.approx(88 - EDGE + sunk(right), abs=1e-3)


def test_the_other_side_is_its_mirror() -> None:
    """Facing D, A is on the right."""
    for p in foot(layout(ROOM, "wall D")):
        for x in (mm(p.shape.bounds[0]), mm(p.shape.bounds[2])):
            assert height_at(p, x) == pytest.approx(88 - EDGE + sunk(1200 - x), abs=1e-3)


def test_the_cut_list_says_both_ends() -> None:
    """To a tenth of a millimetre. The piece over the line of the channel has a corner in its lower edge and no two ends."""
    b = layout(ROOM, "wall B")
    rows = {r.number: r for r in b.rows}
    seen = 0
    for p in foot(b):
        left, right = mm(p.shape.bounds[0]), mm(p.shape.bounds[2])
        row = rows[p.number]
        assert row.kind == "slant" and int(row.count.value) == 1
        if left >= 100:
            ends = sorted(mm(q) for q in row.ends)
            assert ends == pytest.approx(sorted(88 - EDGE + sunk(x) for x in (left, right)), abs=0.11)
            seen += 1
        else:
            assert row.ends == ()
    assert seen >= 3


def test_tops_of_the_bottom_course_are_level_all_round() -> None:
    tops = {mm(p.shape.bounds[3]) for w in "ABCD" for p in foot(layout(ROOM, f"wall {w}"))}
    assert tops == {88}


def test_in_the_shower_only() -> None:
    """Level shower of 900 in the corner D A, four planes: its edge is level, and so the foot of every wall is."""
    on = "tile square; joint 3; full tile at datum"
    fall = "fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A"
    text = spec(SQUARE, floor("2.4 x 1.8", "tile square; joint 3", fall),
                "shower in corner D A, 0.9 x 0.9; head at 2.1", wall("A", on), wall("D", on))
    for w in "AD":
        ys = [y for _, y in ring(face(text, f"wall {w}").outline)]
        assert sorted(set(ys)) == [5, 2395]


def test_a_step_where_a_one_plane_fall_begins_beside_level_floor() -> None:
    """Shower over the whole length of A, 1000 deep: along B the floor falls from 1000 to the channel's middle at 100; past 1000
    it is level. The foot of B has its corners there.
    """
    text = spec(SQUARE, floor("1.2 x 2.0", "tile square; joint 3", *FALL), "shower in corner A B, 1.2 x 1.0; head at 2.1",
                wall("A", ON), wall("B", ON), wall("D", ON))
    line = ring(face(text, "wall B").outline)
    low = [(x, y) for x, y in line if y < 100]
    drop = 900 / 60
    assert low == [
        pytest.approx((SQUARE_OFF + EDGE, EDGE - drop)), pytest.approx((100, EDGE - drop)), pytest.approx((1000, EDGE)),
        pytest.approx((1995, EDGE)),
    ]


def test_the_lowest_edge_knows_why() -> None:
    """The place that courses are cut from is the floor's height with the joint, not a bare number."""
    x = layout(ROOM, "wall A")
    low = face(ROOM, "wall A").up.at(min(y for _, y in face(ROOM, "wall A").outline))
    assert getattr(low.why, "formula", "") == "floor + joint"
    assert mm(low) == pytest.approx(EDGE - float(LOW), abs=1e-6)
    assert x.begin.up.value == 1


def test_a_door_stands_on_the_floor_that_has_fallen() -> None:
    """No strip of tile under a door in the wall that the floor falls to."""
    on = "tile square; joint 3; full tile at datum"
    text = spec(SQUARE, floor("1.2 x 1.2", "tile square; joint 3", *FALL), wall("A", on, "door 0.8 x 2.0; 0.2 from left"))
    x = layout(text, "wall A")
    assert {(mm(p.shape.bounds[0]), mm(p.shape.bounds[2])) for p in foot(x)} == {(5, 200), (1000, 1195)}
