"""The cut list against the pieces that it counts and against hand-worked sizes; every printed formula evaluated a second time."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction as F

import pytest

from tests.setout.spec import LARGE, SMALL, SQUARE, floor, layout, mm, ring, setout, sizes, spec, wall
from tests.setout.test_foot import ROOM as FALLING
from tilespec.quantity import Quantity, Worked
from tilespec.setout.area import shapes
from tilespec.setout.types import Layout, Piece, Row

ON = "tile large; joint 3"
START = "joint on centre; full tile at floor"


def rows(x: Layout) -> dict[int, Row]:
    return {r.number: r for r in x.rows}


def pieces(x: Layout) -> dict[int, list[Piece]]:
    found: dict[int, list[Piece]] = {}
    for p in x.pieces:
        found.setdefault(p.number, []).append(p)
    return found


def a_wall(*more: str, tile: str = LARGE, on: str = ON, start: str = START) -> Layout:
    return layout(spec(tile, floor("2.4 x 1.8", on), wall("A", f"{on}; {start}", *more)), "wall A", "field")


# ---------------------------------------------------------------- sizes and settings

def test_rows_of_a_plain_wall() -> None:
    """2390 x 2390 (joint of 5 all round). Across 1195 - 1.5 - 603 = 590.5 at both ends; up 7 x 303 = 2121, left 269."""
    x = a_wall()
    assert sizes(x) == {(590.5, 300): 14, (600, 269): 2, (590.5, 269): 2}
    assert int(x.full.value) == 14
    assert [(r.kind, r.sides) for r in x.rows if r.kind == "height"] == [("height", ("high",))]


def test_one_size_is_one_row_whichever_side_is_cut() -> None:
    """The 14 pieces of 590.5 at the left and at the right come off the saw with one setting."""
    (row,) = (r for r in a_wall().rows if r.kind == "width")
    assert int(row.count.value) == 14 and sum(n for _, n in row.hands) == 14


def test_rows_come_in_the_order_of_the_saw() -> None:
    """Cuts of the width, of the height, of both, cut-outs, slants: within a kind the widest first. Numbers without a gap."""
    x = a_wall("window 0.6 x 0.9; 0.6 from left, 1.15 up", "heights left 2.4, right 2.38")
    order = ["width", "height", "both", "notch", "slant", "fold", "hole"]
    kinds = [order.index(r.kind) for r in x.rows]
    assert kinds == sorted(kinds)
    assert [r.number for r in x.rows] == list(range(1, len(x.rows) + 1))
    for kind in order:
        wide = [r.width.value for r in x.rows if r.kind == kind]
        assert wide == sorted(wide, reverse=True)


def test_added_faces_go_on_with_the_numbers_of_their_wall() -> None:
    text = spec(LARGE, floor("2.4 x 1.8", ON), wall("A", f"{ON}; {START}", "niche 0.6 x 0.3; 0.9 from left, 1.2 up; 0.09 deep"))
    numbers = [r.number for x in setout(text).layouts if x.surface.endswith("wall A") for r in x.rows]
    assert numbers == list(range(1, len(numbers) + 1)) and len(numbers) > 8


def test_a_window_by_hand() -> None:
    """Window 600-1200, 1150-2050. A column lies over 598.5-1198.5: of it 1.5 mm are left beside the window, in the two courses
    1217-1517 and 1520-1820. The course 914-1214 reaches 64 over the sill, 1823-2123 begins 227 under the head.
    """
    x = a_wall("window 0.6 x 0.9; 0.6 from left, 1.15 up")
    cut_out = [(mm(r.width), mm(r.height), at, mm(w), mm(h)) for r in x.rows for at, w, h in r.notches]
    assert sorted(cut_out) == [(600, 300, "lower right", 598.5, 227), (600, 300, "upper right", 598.5, 64)]
    assert sizes(x)[1.5, 300] == 2


def test_a_hole_is_measured_from_the_edges_of_the_piece() -> None:
    """Valve at 450, 1100; column 1.5 + 1200 - 2 x 603 = -4.5, so 598.5 - 603 = -4.5 to 595.5, cut at 5; course 914-1214."""
    x = a_wall("valve 0.45 from left, 1.1 up")
    (row,) = (r for r in x.rows if r.holes)
    name, across, up, wide = row.holes[0]
    assert name == "valve" and (mm(row.width), mm(row.height)) == (590.5, 300)
    assert (mm(across), mm(up), mm(wide)) == (445, 186, 32)


def test_a_pipe_through_a_full_tile_takes_it_out_of_the_full_ones() -> None:
    """Pipe of 15 and 4 to spare; at 900, 600 in the tile 598.5-1198.5, 308-608: from 608 up it is the next one's too."""
    plain, holed = a_wall(), a_wall("pipe 0.9 from left, 0.5 up; diameter 15")
    assert plain.full.value - holed.full.value == 1
    (row,) = (r for r in holed.rows if r.holes)
    assert row.kind == "hole" and [mm(q) for q in row.holes[0][1:]] == [301.5, 192, 19]
    both = a_wall("pipe 0.9 from left, 0.608 up; diameter 15")
    assert sorted(mm(r.holes[0][2]) for r in both.rows if r.holes) == [-3, 300]


def test_a_hole_turned_half_round_is_said_as_it_lies() -> None:
    """The first piece of a wall cut at its left: its hole is as far from its left edge as on the drawing, not as turned."""
    for x, left in (("0.1", 95), ("2.3", 2300 - 1804.5)):
        (row,) = (r for r in a_wall(f"valve {x} from left, 0.2 up").rows if r.holes)
        assert (mm(row.holes[0][1]), mm(row.holes[0][2])) == (left, 195)


def test_cut_outs_are_said_as_they_lie() -> None:
    """A door in the middle of two tiles: the left piece is cut out at its lower right, the right one at its lower left."""
    door = wall("A", f"{ON}; joint on centre; full tile at floor", "door 0.9 x 2.0; 0.1 from left")
    x = layout(spec(LARGE, floor("1.1 x 1.8", ON), door), "wall A")
    found = {at: (mm(w), mm(h)) for r in x.rows for at, w, h in r.notches}
    # Pieces of 543.5 beside 95 of pier; the course 1823-2123 stands 177 over the door's foot line.
    assert found == {"lower right": (448.5, 177), "lower left": (448.5, 177)}


def test_on_a_floor_lower_is_towards_the_foot_of_the_plan() -> None:
    """Not tiled in the corner of walls A and D, the upper left of the plan: the piece there is cut out at its upper left."""
    on = "tile square; joint 3; start at 0.005 from wall D, 0.005 from wall A"
    x = layout(spec(SQUARE, floor("2.4 x 1.8", on, "untiled 0.1 x 0.05; 0 from wall D, 0 from wall A",
                                  "pipe 1.0 from wall D, 0.1 from wall A; diameter 100")), "floor")
    assert [(at, mm(w), mm(h)) for r in x.rows for at, w, h in r.notches] == [("upper left", 95, 45)]
    (hole,) = (h for r in x.rows for h in r.holes)
    # Tile 914-1214, 5-305: 86 from its left, 95 below its upper edge, so 205 over its lower one.
    assert [mm(q) for q in hole[1:]] == [86, 205, 104]


def test_sloping_ends() -> None:
    """Heights 2400 and 2380 over 2400 (planes end at 2395, 2375 over 2390): each tile's top falls 600 x 20 / 2390 = 5.02 mm."""
    x = a_wall("heights left 2.4, right 2.38")
    slants = [r for r in x.rows if r.kind == "slant"]
    assert len(slants) == 4
    fall = 20 / 2390
    for r in slants:
        (p,) = pieces(x)[r.number]
        left, _, right, _ = p.shape.bounds
        ends = [2395 - fall * (mm(v) - 5) - 2126 for v in (left, right)]
        assert sorted(mm(q) for q in r.ends) == pytest.approx(sorted(ends), abs=0.06)


# ---------------------------------------------------------------- turned half round

def test_a_tile_without_a_direction_may_be_turned_half_round() -> None:
    """A window in the middle of four tiles: their cut-outs are at four corners. Turned half round two and two are alike; a stone
    with veins keeps its hands apart.
    """
    window = "window 0.5 x 0.5; 0.95 from left, 1.25 up"
    for body, counts in (("porcelain", [2, 2]), ("marble", [1, 1, 1, 1])):
        x = layout(spec(f"tile s 300x300x9 {body}; weight 20 kg/m2", floor("2.4 x 1.8", "tile s"),
                        wall("A", "tile s; joint 3; joint on centre; joint on window up", window)), "wall A")
        notched = [r for r in x.rows if r.kind == "notch"]
        assert [int(r.count.value) for r in notched] == counts
        # Tiles 898.5-1198.5 and 1201.5-1501.5 both ways: 248.5 of them lie behind the window.
        assert all((mm(w), mm(h)) == (248.5, 248.5) for r in notched for _, w, h in r.notches)


# ---------------------------------------------------------------- formulas

_FUNCTIONS: dict[str, Callable[..., object]] = {
    "max": max, "min": min, "abs": abs, "ceil": math.ceil, "floor": math.floor, "round": round,
    "sqrt": lambda v: F(f"{math.sqrt(v):.12g}"), "sin": lambda v: F(f"{math.sin(math.radians(v)):.12g}"),
}


def again(q: Quantity) -> F | None:
    """The value of the printed formula, by other means than the code's own; None for a reason in words."""
    assert isinstance(q.why, Worked)
    text = q.why.formula.translate(str.maketrans({"×": "*", "÷": "/", "−": "-"})).replace("^", "**")
    names: dict[str, object] = dict(_FUNCTIONS)
    for n, (name, value) in enumerate(sorted(q.why.inputs, key=lambda i: -len(i[0]))):
        text = re.sub(rf"(?<![\w]){re.escape(name)}(?![\w])", f"q_{n}", text)
        names[f"q_{n}"] = value.value
    if set(re.findall(r"[A-Za-z_]\w*", text)) - set(names):
        return None
    text = re.sub(r"(?<![\w.])(\d+(?:\.\d+)?)", r"F('\1')", text)
    return F(eval(text, {"__builtins__": {}, "F": F, **names}))


def quantities(x: Layout) -> Iterator[Quantity]:
    yield from (x.area, x.begin.across, x.begin.up, x.full, x.width, x.height)
    for r in x.rows:
        yield from (r.width, r.height, r.count, *r.ends)
        for _, *sized in (*r.notches, *r.holes):
            yield from sized
        for fold in r.folds:
            yield from fold


def checked(q: Quantity, seen: set[int]) -> int:
    if id(q) in seen or not isinstance(q.why, Worked):
        return 0
    seen.add(id(q))
    value = again(q)
    if value is not None:
        assert value == q.value, (q.why.formula, [(n, v.value) for n, v in q.why.inputs], q.value)
    return (value is not None) + sum(checked(inner, seen) for _, inner in q.why.inputs)


MIXED = spec(
    LARGE, SMALL, SQUARE, floor("2.4 x 1.7", "tile square; joint 3", "movement joint 1.2 from wall D"),
    "bath in corner A B, 0.7 x 1.7; rim 0.56", "boxing in corner C D, 0.25 x 0.2; height 1.2",
    wall("A", "tile large; joint 3; third bond", "tile small; joint 2; band 0.2 high, bottom 1.6 up"),
    wall("B", "tile large; joint 3; half bond; joints follow wall A", "window 0.6 x 0.9; 0.6 from left, 1.15 up; reveal 0.12"),
    wall("C", "tile small; joint 2", "niche 0.3 x 0.3; 0.9 from left, 1.2 up; 0.09 deep"),
    wall("D", "tile small; joint 2", "heights left 2.4, right 2.38"),
)


@pytest.mark.parametrize("text", [MIXED, FALLING], ids=["mixed", "falling"])
def test_printed_formulas_give_the_printed_values(text: str) -> None:
    seen: set[int] = set()
    found = setout(text)
    count = sum(checked(q, seen) for x in found.layouts for q in quantities(x))
    count += sum(checked(q, seen) for f in found.faces for s in (f.across, f.up) for _, q in s.places)
    assert count > 60


def test_most_sizes_of_straight_pieces_can_be_followed() -> None:
    """Across straight courses a size is worked out from the edge and the course, not only said."""
    for x in setout(MIXED).layouts:
        for r in x.rows:
            if r.kind in ("width", "height", "both"):
                for q, whole in ((r.width, x.width), (r.height, x.height)):
                    assert q.value == whole.value or again(q) is not None, (x.face, r.number, q.why)


def test_every_place_on_a_scale_is_where_its_quantity_says() -> None:
    for f in setout(MIXED).faces:
        for scale in (f.across, f.up):
            assert all(at == q.value for at, q in scale.places), f.id


def test_numbers_match_pieces() -> None:
    for text in (MIXED, FALLING):
        for x in setout(text).layouts:
            counts = Counter(p.number for p in x.pieces)
            assert counts == {r.number: int(r.count.value) for r in x.rows}
            for r in x.rows:
                assert sum(n for _, n in r.hands) == int(r.count.value)


def test_outlines_are_the_pieces() -> None:
    """Each row's outline has the area and the size of every piece that carries its number."""
    for x in setout(MIXED).layouts:
        for number, same in pieces(x).items():
            row = rows(x)[number]
            left, low, right, high = row.outline.bounds
            assert (right - left, high - low) == (row.width.value, row.height.value)
            for p in same:
                assert abs(float(p.shape.area - row.outline.area)) < 1e-4 * max(float(row.width.value), 0.1)
                a, b, c, d = p.shape.bounds
                if row.kind != "slant":
                    assert (c - a, d - b) == (row.width.value, row.height.value)
                assert len(ring(p.shape.outer)) == len(row.outline.outer)


def test_a_piece_whose_tip_rounding_turns_over() -> None:
    """Beside a niche, diagonally: a corner drawn out to a few hundredths of a millimetre crosses itself at tenths.

    By hand: the piece takes 9630.6 mm2 (shoelace formula) of its box of 102.9 x 195 mm.
    """
    outline = tuple((F(x, 10_000), F(y, 10_000)) for x, y in ((2031, 902), (2083, 955), (3038, 0), (3060, 0), (3060, 1950)))
    box = tuple((F(x, 10_000), F(y, 10_000)) for x, y in ((2031, 0), (3060, 0), (3060, 1950), (2031, 1950)))
    left = shapes(box, None, (), (outline,))
    assert abs(float(sum(s.area for s in left)) * 1e6 - (20_065.5 - 9_630.6)) < 5
