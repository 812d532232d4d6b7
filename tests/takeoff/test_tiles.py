"""Tiles: allowances (reference section M, trade practice), whole pieces and boxes (worked example K2), weights (J4)."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.takeoff.building import HERE, en, floor_job, laid, mosaic, q, rect, surface, tile, wall_job
from tilespec.job.types import Opening, Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, Worked
from tilespec.takeoff import measure
from tilespec.takeoff.types import Line


def tile_line(
    t: Tile, width: object = "2.4", height: object = "2.4", pattern: str = "straight", p: Practice | None = None, **more: object
) -> Line:
    s = surface("A", width, height, laid(t, pattern=pattern), **more)
    return next(line for line in measure(wall_job(s), p or en()).lines_of("tile") if not line.role)


@pytest.mark.parametrize(("waste", "pieces", "boxes"), [(0, 29, 5), (5, 31, 6), (10, 32, 6), (15, 34, 6)])
def test_whole_tiles_and_boxes(waste: int, pieces: int, boxes: int) -> None:
    """Worked example K2: net 5.22 m², tile 600 × 300, boxes of 6."""
    t = tile("wall", 600, 300, box=q(6, "count"))
    hole = (Opening("window", rect("0.9", "0.9", "0.6", "0.9"), None, HERE),)
    line = tile_line(t, p=en(("tile-allowance-straight", q(waste, "%"))), openings=hole)
    assert line.net.value == F("5.22")
    assert line.pieces is not None and line.pieces.value == pieces
    assert line.packs is not None and line.packs.value == boxes


@pytest.mark.parametrize(
    ("size", "pattern", "percent"),
    [
        ((300, 300), "straight", 7),  # M-01
        ((600, 300), "straight", 10),  # M-02
        ((600, 300), "half", 10),
        ((600, 300), "third", 10),
        ((300, 300), "quarter", 10),  # M-03
        ((300, 300), "diagonal", 15),  # M-04
        ((300, 100), "herringbone", 15),
        ((300, 100), "basket", 15),  # M-05
        ((1200, 600), "straight", 13),
        ((601, 300), "third", 13),  # M-06: 3 points more
    ],
)
def test_allowance_by_pattern(size: tuple[int, int], pattern: str, percent: int) -> None:
    """Reference rows M-01 to M-06 (trade practice): 5.76 m², so no small-area allowance."""
    line = tile_line(tile("t", *size), pattern=pattern)
    assert line.allowance is not None and line.allowance.value == F(percent, 100)


def test_allowance_for_stone_mosaic_and_small_areas() -> None:
    """Reference rows M-07 (3 points under 5 m²), M-08 (stone 5 points), M-09 (mosaic 7 %)."""
    small = tile_line(tile(), 2, 2)
    assert small.allowance is not None and small.allowance.value == F("0.10")
    stone = tile_line(tile(stone=True, body="stone"))
    assert stone.allowance is not None and stone.allowance.value == F("0.12")
    sheets = tile_line(mosaic())
    assert sheets.allowance is not None and sheets.allowance.value == F("0.07")


def test_a_window_makes_a_plain_wall_an_ordinary_one() -> None:
    hole = (Opening("window", rect("0.1", "0.1", "0.5", "0.5"), None, HERE),)
    line = tile_line(tile(), openings=hole)
    assert line.allowance is not None and line.allowance.value == F("0.10")


def test_one_tile_in_two_patterns_is_one_order() -> None:
    """4 m² straight at 10 % and 4 m² diagonal at 15 %: 4.4 + 4.6 = 9.0 m² of 0.18 m² each, 50 tiles."""
    t = tile("t", 600, 300)
    from tests.takeoff.building import box_room, job

    room = box_room(2, 2, 2, None, (surface("A", 2, 2, laid(t)), surface("B", 2, 2, laid(t, pattern="diagonal"))))
    line = next(x for x in measure(job(room), en()).lines_of("tile") if not x.role)
    assert line.gross.value == 9
    assert line.pieces is not None and line.pieces.value == 50
    assert line.allowance is not None and line.allowance.value == F("0.125")


def test_upright_and_landscape_come_out_of_the_same_boxes() -> None:
    from tests.takeoff.building import box_room, job

    upright = tile("t", 300, 600)
    room = box_room(2, 2, 2, None, (surface("A", 2, 2, laid(tile("t", 600, 300))), surface("B", 2, 2, laid(upright))))
    assert [line.role for line in measure(job(room), en()).lines_of("tile")] == ["", "spare"]


def test_spares_are_a_line_of_their_own() -> None:
    """Reference row M-10: one box, or 3 % where the box is not known."""
    boxed = measure(wall_job(surface("A", "2.4", "2.4", laid(tile()))), en()).lines_of("tile")[1]
    assert boxed.role == "spare" and boxed.packs is not None and boxed.packs.value == 1
    assert boxed.pieces is not None and boxed.pieces.value == 10
    loose = measure(wall_job(surface("A", "2.4", "2.4", laid(tile(box=None)))), en()).lines_of("tile")
    assert loose[0].pieces is not None and loose[0].pieces.value == 69  # 5.76 × 1.07 ÷ 0.09 = 68.48
    assert loose[1].pieces is not None and loose[1].pieces.value == 3  # 69 × 0.03 = 2.07


@pytest.mark.parametrize(
    ("size", "density", "kg"),
    [
        ((600, 600, 10), 2250, "8.10"),
        ((1200, 600, 10), 2300, "16.56"),
        ((600, 300, 9), 2300, "3.726"),
        ((2400, 1200, 6), 2400, "41.472"),
        ((2400, 1200, 12), 2400, "82.944"),
    ],
)
def test_weight_of_one_tile(size: tuple[int, int, int], density: int, kg: str) -> None:
    """Worked example J4: length × width × thickness × density."""
    line = tile_line(tile("t", *size, weight=None), 6, 3, p=en(("tile-density-porcelain", q(density, "kg/m3"))))
    assert line.piece_weight is not None and line.piece_weight.value == F(kg)


def test_weight_of_the_order() -> None:
    """5.76 m² at 7 %: 68.48, so 69 tiles, 7 boxes of 10 of 0.09 m² at 20 kg/m²: 126 kg."""
    line = tile_line(tile())
    assert line.pack_weight is not None and line.pack_weight.value == 18
    assert line.weight is not None and line.weight.value == 126


def test_weight_that_is_not_given_is_marked_as_a_default() -> None:
    line = tile_line(tile(weight=None))
    assert line.piece_weight is not None and isinstance(line.piece_weight.why, Worked)
    weight = dict(line.piece_weight.why.inputs)["weight"]
    assert weight.value == F("21.15") and isinstance(weight.why, Worked) and "default" in weight.why.source


SIDES = st.integers(5, 60)


@settings(max_examples=60, deadline=None)
@given(SIDES, SIDES, st.integers(1, 30), st.sampled_from(["straight", "diagonal", "half"]), st.booleans())
def test_more_area_never_takes_fewer_tiles(width: int, height: int, more: int, pattern: str, is_stone: bool) -> None:
    """Small-area allowance included: it fades out above 5 m²."""
    t = tile("t", 300, 300, stone=is_stone)
    a = tile_line(t, F(width, 10), F(height, 10), pattern)
    b = tile_line(t, F(width, 10) + F(more, 100), F(height, 10), pattern)
    assert b.gross.value >= a.gross.value
    assert b.pieces is not None and a.pieces is not None and b.pieces.value >= a.pieces.value


@pytest.mark.parametrize(
    ("width", "gross"),
    [
        ("2.499", F("4.998") * F("1.13")),
        ("2.5", 5 * F("1.13")),
        ("2.55", F("5.1") * F("1.10") + F("0.05")),
        ("2.6", F("5.2") * F("1.10")),
    ],
)
def test_small_area_allowance_fades_out(width: str, gross: F) -> None:
    """Around 5 m² (2 m high): 13 % below; 10 % and the rest of 0.15 m² above; plain 10 % from 5.15 m²."""
    assert tile_line(tile("t", 600, 300), width, 2).gross.value == gross


@settings(max_examples=40, deadline=None)
@given(SIDES, SIDES, st.integers(0, 40), st.integers(0, 40))
def test_more_waste_never_takes_fewer_tiles(width: int, height: int, waste: int, more: int) -> None:
    def taken(percent: int) -> Quantity:
        line = tile_line(tile("t", 600, 300), F(width, 10), F(height, 10), p=en(("tile-allowance-straight", q(percent, "%"))))
        assert line.pieces is not None and line.packs is not None and line.pack is not None
        assert line.packs.value * line.pack.value >= line.pieces.value > (line.packs.value - 1) * line.pack.value
        return line.pieces

    assert taken(waste + more).value >= taken(waste).value


def test_joint_width_changes_no_tiles() -> None:
    """Ordered by the face of the tile: the joint is on the safe side."""
    s = surface("A", "2.4", "2.4", laid(tile(), joint=10))
    line = measure(wall_job(s), en()).lines_of("tile")[0]
    assert line.pieces == tile_line(tile()).pieces


def test_floor_and_wall_tiles_stay_apart() -> None:
    s = surface("floor", 2, 2, laid(tile("floor-tile")), kind="floor")
    lines = measure(floor_job(s), en()).lines_of("tile")
    assert [line.name for line in lines] == ["floor-tile", "floor-tile"]
