"""Worked examples (K1 to K6: counted by hand, each checked with polygons) and the trade's rules on cuts, as plain numbers.

Millimetres or inches in, millimetres or inches out. Convention of the examples: a full tile in the lower left corner, its edge on
the wall line; pitch = tile + joint; a window is a plain hole.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction as F

import pytest

from tests.setout.brute import compare_straight
from tests.setout.test_brute import shapes_of
from tilespec.job.types import Pattern
from tilespec.setout.engine import Filled, Lattice, fill
from tilespec.setout.types import Shape

MM, INCH = F(1, 1000), F(254, 10_000)


def field(width: object, height: object, unit: F = MM) -> Shape:
    w, h = F(str(width)) * unit, F(str(height)) * unit
    return Shape(((F(0), F(0)), (w, F(0)), (w, h), (F(0), h)))


def with_window(wall: Shape, left: int, low: int, width: int, height: int) -> Shape:
    a, b, c, d = left * MM, low * MM, (left + width) * MM, (low + height) * MM
    return Shape(wall.outer, (((a, b), (c, b), (c, d), (a, d)),))


def laid(
    room: Shape, width: object, height: object, joint: object, x: object = 0, unit: F = MM, name: str = "straight",
) -> Filled:
    w, h, j, left = (F(str(v)) * unit for v in (width, height, joint, x))
    lattice = Lattice(w, h, j, Pattern(name), left, F(0))
    filled = fill((room,), lattice)
    compare_straight((room,), lattice, (), filled)
    return filled


def positions(filled: Filled) -> int:
    return filled.full + len({p.tile for p in filled.pieces})


def cuts(filled: Filled, unit: F = MM) -> dict[tuple[F, F], int]:
    """Width and height of the cut pieces that are rectangles, and how many of each."""
    sizes: Counter[tuple[F, F]] = Counter()
    for piece in filled.pieces:
        left, low, right, high = piece.shape.bounds
        if (right - left) * (high - low) == piece.shape.area:
            sizes[(right - left) / unit, (high - low) / unit] += 1
    return dict(sizes)


def odd_areas(filled: Filled) -> list[F]:
    """Areas of the pieces with notches, in square millimetres."""
    return sorted(
        p.shape.area / MM**2 for p in filled.pieces
        if (p.shape.bounds[2] - p.shape.bounds[0]) * (p.shape.bounds[3] - p.shape.bounds[1]) != p.shape.area
    )


def areas(room: Shape, filled: Filled) -> tuple[F, F]:
    """Of tiles, and of joints, in square metres."""
    tiles = sum((s.area for s in shapes_of(filled)), F(0))
    return tiles, room.area - tiles


WALL = field(2400, 2400)
HOLED = with_window(WALL, 900, 900, 600, 900)


def test_k1_wall() -> None:
    """K1: wall 2400 × 2400, tile 600 × 300, joint 2."""
    filled = laid(WALL, 600, 300, 2)
    assert (positions(filled), filled.full) == (32, 21)
    assert cuts(filled) == {(594, 300): 7, (600, 286): 3, (594, 286): 1}
    assert areas(WALL, filled) == (F("5.712084"), F("0.047916"))


def test_k1_without_joint() -> None:
    filled = laid(WALL, 600, 300, 0)
    assert (positions(filled), filled.full, filled.pieces) == (32, 32, ())


def test_k2_window() -> None:
    """K2: the same with a window 600 × 900 at 900, 900."""
    filled = laid(HOLED, 600, 300, 2)
    assert (positions(filled), filled.full) == (32, 13)
    assert cuts(filled) == {
        (594, 300): 7, (600, 286): 3, (594, 286): 1,        # at the edges, as K1
        (298, 300): 2, (304, 300): 2,                       # beside the window
    }
    # Under the sill (notches 302 × 4 and 296 × 4) and over the head (302 × 290 and 296 × 290).
    assert odd_areas(filled) == [92_420, 94_160, 178_792, 178_816]
    assert areas(HOLED, filled) == (F("5.177472"), F("0.042528"))


def test_k2_notches() -> None:
    """K2: where the notches are and how large."""
    notches = set()
    for piece in laid(HOLED, 600, 300, 2).pieces:
        left, low, right, high = piece.shape.bounds
        if len(piece.shape.outer) == 6:
            box = {(x, y) for x in (left, right) for y in (low, high)}
            (corner,) = box - set(piece.shape.outer)
            (inner,) = [p for p in piece.shape.outer if p[0] not in (left, right) and p[1] not in (low, high)]
            notches.add((abs(corner[0] - inner[0]) / MM, abs(corner[1] - inner[1]) / MM))
    assert notches == {(302, 4), (296, 4), (302, 290), (296, 290)}


def test_k2_without_joint() -> None:
    """K2: 26 full, 6 halves of 300 × 300; 29 tiles, as 5.22 m² over 0.18 m²."""
    filled = laid(HOLED, 600, 300, 0)
    assert (positions(filled), filled.full) == (32, 26)
    assert cuts(filled) == {(300, 300): 6} and not odd_areas(filled)
    assert areas(HOLED, filled) == (F("5.22"), 0)


def test_k3_portrait() -> None:
    """K3: the same wall, tiles standing."""
    filled = laid(WALL, 300, 600, 2)
    assert (positions(filled), filled.full) == (32, 21)
    assert cuts(filled) == {(300, 594): 7, (286, 600): 3, (286, 594): 1}


def test_k3_portrait_with_window() -> None:
    """K3 with the window of K2: a sliver of 4 mm over the head, and an L with legs of 8 and 4 mm."""
    filled = laid(HOLED, 300, 600, 2)
    assert (positions(filled), filled.full, len(filled.pieces)) == (32, 15, 17)
    assert cuts(filled) == {(300, 594): 7, (286, 600): 3, (286, 594): 1, (300, 4): 1, (300, 298): 1}
    assert odd_areas(filled) == [5_968, 91_816, 177_616, 178_792]
    assert areas(HOLED, filled) == (F("5.176876"), F("0.043124"))


def test_k4_joint_on_centre() -> None:
    """K4: a joint on the centre line: 597, 600, 600, 597."""
    filled = laid(WALL, 600, 300, 2, x=1201)
    assert (positions(filled), filled.full) == (32, 14)
    assert cuts(filled) == {(597, 300): 14, (600, 286): 2, (597, 286): 2}


def test_k4_tile_on_centre() -> None:
    """K4: a tile on the centre line: 296, 600, 600, 600, 296."""
    filled = laid(WALL, 600, 300, 2, x=900)
    assert (positions(filled), filled.full) == (40, 21)
    assert cuts(filled) == {(296, 300): 14, (600, 286): 3, (296, 286): 2}


def test_k5_half_bond() -> None:
    """K5: wall 2400 × 1200, half bond, odd rows 301 further on."""
    wall = field(2400, 1200)
    filled = laid(wall, 600, 300, 2, name="half")
    assert (positions(filled), filled.full) == (18, 9)
    assert cuts(filled) == {
        (594, 300): 2, (299, 300): 1, (293, 300): 1, (600, 294): 3, (299, 294): 1, (293, 294): 1,
    }
    assert areas(wall, filled) == (F("2.857248"), F("0.022752"))


@pytest.mark.parametrize(
    ("size", "tile", "joint", "unit", "count", "full", "expected", "joints"),
    [
        ((2000, 1500), (300, 300), 3, MM, 35, 24, {("300", "288"): 6, ("182", "300"): 4, ("182", "288"): 1}, "0.050784"),
        ((1990, 1490), (300, 300), 3, MM, 35, 24, {("300", "278"): 6, ("172", "300"): 4, ("172", "278"): 1}, None),
        ((2000, 1500), (600, 600), 3, MM, 12, 6, {("600", "294"): 3, ("191", "600"): 2, ("191", "294"): 1}, "0.025446"),
        ((120, 96), (12, 12), "3/16", INCH, 80, 63,
         {("12", "171/16"): 9, ("165/16", "12"): 7, ("165/16", "171/16"): 1}, None),    # 10 11/16 and 10 5/16 in
        ((120, 96), (12, 12), 0, INCH, 80, 80, {}, "0"),
    ],
    ids=["2000 x 1500", "5 mm gap all round", "600 x 600", "inches", "inches without joint"],
)
def test_k6_floors(
    size: tuple[int, int], tile: tuple[int, int], joint: object, unit: F, count: int, full: int,
    expected: dict[tuple[str, str], int], joints: str | None,
) -> None:
    room = field(*size, unit)
    filled = laid(room, *tile, joint, unit=unit)
    assert (positions(filled), filled.full) == (count, full)
    assert cuts(filled, unit) == {(F(w), F(h)): n for (w, h), n in expected.items()}
    if joints is not None:
        assert areas(room, filled)[1] == F(joints)


# ---------------------------------------------------------------- rules of the trade

def ends(filled: Filled, unit: F = MM) -> tuple[F, F]:
    """Widths of the first and the last piece of a single course."""
    pieces = sorted(filled.pieces, key=lambda p: p.shape.bounds[0])
    assert len(pieces) == 2
    first, last = (p.shape.bounds for p in pieces)
    return (first[2] - first[0]) / unit, (last[2] - last[0]) / unit


def test_n03_the_cure_of_a_sliver() -> None:
    """Practice N-03 (a trade magazine): cuts of 1.75 and 1.25 in beside tiles of 11.75 in become two of 7.375 in.

    (1.75 + 1.25 + 11.75) / 2.
    """
    tiles = 5
    room = field(F("1.75") + tiles * F("11.75") + F("1.25"), 6, INCH)
    before = laid(room, "11.75", 6, 0, x="1.75", unit=INCH)
    assert (before.full, ends(before, INCH)) == (tiles, (F("1.75"), F("1.25")))
    after = laid(room, "11.75", 6, 0, x="7.375", unit=INCH)
    assert (after.full, ends(after, INCH)) == (tiles - 1, (F("7.375"), F("7.375")))


@pytest.mark.parametrize(("width", "joint"), [(2400, 2), (2017, 3), (1871, 5), (2533, 0)])
def test_n03_with_joints(width: int, joint: int) -> None:
    """Computed: with joints too, the two cuts are (remainder + tile) / 2.

    From the left corner n full tiles and a remainder r: n·300 + n·j + r. Balanced: n − 1 full tiles between cuts of (r + 300) / 2
    and as many joints.
    """
    number, remainder = divmod(width, 300 + joint)
    assert 0 < remainder < 300
    room = field(width, 100)
    one_side = laid(room, 300, 100, joint)
    assert one_side.full == number and cuts(one_side) == {(remainder, 100): 1}
    cut = F(remainder + 300, 2)
    both = laid(room, 300, 100, joint, x=cut + joint)
    assert (both.full, ends(both)) == (number - 1, (cut, cut))
    assert cut >= 150                                       # N-02: not less than half a tile


# ---------------------------------------------------------------- patterns, counted by hand

def test_third_bond_stepped_and_back_and_forth() -> None:
    """By hand: 900 wide, tiles 300 × 100, no joint, six courses: moved by 0, 100, 200, 0 ... or by 0, 100, 0, 100 ..."""
    room = field(900, 600)
    stepped = fill((room,), Lattice(300 * MM, 100 * MM, F(0), Pattern("third", stepped=True), F(0), F(0)))
    assert stepped.full == 3 + 2 + 2 + 3 + 2 + 2
    assert cuts(stepped) == {(100, 100): 4, (200, 100): 4}
    bounds = [p.shape.bounds for p in stepped.pieces]
    firsts = sorted((low / MM, right / MM) for left, low, right, _ in bounds if left == 0)
    assert firsts == [(100, 100), (200, 200), (400, 100), (500, 200)]
    back = fill((room,), Lattice(300 * MM, 100 * MM, F(0), Pattern("third"), F(0), F(0)))
    assert back.full == 3 * 3 + 3 * 2 and cuts(back) == {(100, 100): 3, (200, 100): 3}


def test_upright_half_bond() -> None:
    """By hand: 300 wide, 900 high, standing tiles 100 × 300 without joint: the middle column begins with a half."""
    filled = fill((field(300, 900),), Lattice(100 * MM, 300 * MM, F(0), Pattern("half", upright=True), F(0), F(0)))
    assert filled.full == 3 + 2 + 3 and cuts(filled) == {(100, 150): 2}


def test_herringbone_in_its_own_square() -> None:
    """By hand: tiles 2 × 1 in a square of 4 × 4, the first in its corner: three lying, three standing, four cut to one square.

    Lying tiles have their left ends at (i + 2k, i − 2k), standing ones one above.
    """
    filled = fill((field(4, 4),), Lattice(2 * MM, MM, F(0), Pattern("herringbone"), F(0), F(0)))
    tiles = sorted((min(p[0] for p in t) / MM, min(p[1] for p in t) / MM) for r in filled.runs for t in r.tiles())
    assert tiles == [(0, 0), (0, 1), (1, 1), (1, 2), (2, 2), (3, 0)]
    assert sum(p.shape.area for p in filled.pieces) == 4 * MM**2
    assert sorted(p.shape.bounds[:2] for p in filled.pieces) == [(0, 3 * MM), (2 * MM, 0), (2 * MM, 3 * MM), (3 * MM, 3 * MM)]


def test_basket_weave() -> None:
    """By hand: pairs of 200 × 98 with a joint of 4 (2 · 102 = 204) in a field of 2 × 2 blocks less a joint: eight full."""
    filled = fill((field(404, 404),), Lattice(200 * MM, 98 * MM, 4 * MM, Pattern("basket"), F(0), F(0)))
    assert filled.full == 8 and not filled.pieces
    lying = [t for r in filled.runs for t in r.tiles() if t[1][0] - t[0][0] == 200 * MM]
    assert sorted(t[0] for t in lying) == [(0, 0), (0, 102 * MM), (204 * MM, 204 * MM), (204 * MM, 306 * MM)]


def test_two_sizes() -> None:
    """By hand: squares of 200 and 100 without joint. A cell of the lattice (200² + 100²) holds one of each.

    In a square whose side is a vector's square sum (500) the pattern comes round: 500² = 5 cells of 50,000 mm².
    """
    from dataclasses import replace

    from tests.takeoff.building import mm, tile

    second = replace(tile("small"), width=mm(100), height=mm(100))
    pattern = Pattern("modular", second=second)
    room = field(500, 500)
    filled = fill((room,), Lattice(200 * MM, 200 * MM, F(0), pattern, F(0), F(0)))
    assert areas(room, filled) == (F("0.25"), 0)
    large = small = F(0)
    for shape, ring in [(Shape(t), t) for r in filled.runs for t in r.tiles()] + [(p.shape, p.tile) for p in filled.pieces]:
        if max(x for x, _ in ring) - min(x for x, _ in ring) == 200 * MM:
            large += shape.area
        else:
            small += shape.area
    assert (large, small) == (5 * F("0.04"), 5 * F("0.01"))
