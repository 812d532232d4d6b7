"""Slanted set-outs against shapely and against areas clipped without a library: within 1e-6 m² for a surface."""

from __future__ import annotations

import math
from fractions import Fraction as F

import pytest
import shapely
from hypothesis import example, given, settings

from tests.setout.rooms import Case, slanted_cases
from tests.setout.slanted import WHOLE, clipped, compare_slanted, drawn, lay, polygon
from tests.setout.test_brute import QUIET, box, straight
from tilespec.job.types import Pattern
from tilespec.setout.engine import fill
from tilespec.setout.types import Hole, Shape

RAGGED = Shape(drawn([
    (0.04, 0.024), (0.236, 0.1416), (0.0008, 0.5336), (0.1968, 0.6512), (0.0792, 0.8472), (-0.1168, 0.7296), (-0.2344, 0.9256),
    (-0.4304, 0.808), (-0.3128, 0.612), (-0.3528, 0.588), (-0.2352, 0.392), (-0.1952, 0.416),
]))


# A corner of the room that just reaches the far side of a tile: two pieces.
@example(Case((RAGGED,), straight("0.098", "0.098", 0, "-0.4304", "0.024", Pattern("herringbone")), ()))
@settings(max_examples=80, deadline=None, derandomize=True, suppress_health_check=QUIET)
@given(slanted_cases())
def test_slanted(case: Case) -> None:
    compare_slanted(*case, fill(*case))


@pytest.mark.slow
@settings(max_examples=150, deadline=None, derandomize=True, suppress_health_check=QUIET)
@given(slanted_cases())
def test_hundreds_of_slanted_rooms(case: Case) -> None:
    compare_slanted(*case, fill(*case))


def test_the_long_ways_agree() -> None:
    """Clipping by hand against shapely: an L with a window, under a tile at 30 degrees."""
    outer = [(0.0, 0.0), (2.0, 0.1), (1.9, 1.1), (1.0, 1.0), (1.1, 2.0), (0.1, 1.9)]
    window = [(0.4, 0.5), (0.4, 0.9), (0.9, 0.8), (0.8, 0.4)]
    room = shapely.Polygon(outer, [window])
    for n in range(40):
        x, y = 0.11 * n % 2 - 0.2, 0.17 * n % 2 - 0.2
        u, v = (0.5 * math.cos(n), 0.5 * math.sin(n)), (-0.3 * math.sin(n), 0.3 * math.cos(n))
        quad = [(x, y), (x + u[0], y + u[1]), (x + u[0] + v[0], y + u[1] + v[1]), (x + v[0], y + v[1])]
        area, mx, my = clipped([outer, window], quad)
        common = room.intersection(shapely.Polygon(quad))
        assert abs(area - common.area) < 1e-12
        if common.area > 1e-3:
            assert abs(mx / area - common.centroid.x) < 1e-9 and abs(my / area - common.centroid.y) < 1e-9


def test_a_square_room_on_its_diagonal() -> None:
    """Four tiles of 0.5 m, no joint, in a square of 1 m turned by 45 degrees: nothing is cut. (By hand.)"""
    half = math.sqrt(0.5)
    nano = F(round(half * 10**9), 10**9)
    room = Shape(((F(0), F(0)), (nano, nano), (F(0), 2 * nano), (-nano, nano)))
    filled = fill((room,), straight("0.5", "0.5", 0, 0, 0, Pattern("diagonal")))
    assert (filled.full, filled.pieces) == (4, ())


def test_diagonal_tiles_in_a_straight_room() -> None:
    """2 × 2 m, tiles whose diagonal is 1 m, a corner in the room's corner: by hand 4 full, 8 halves, no other.

    Middles at (m/2, n/2) with m + n odd, m and n from 0 to 4: twelve; the eight on a wall are halves, the four inside full.
    """
    side = F(round(math.sqrt(0.5) * 10**9), 10**9)
    filled = fill((box(0, 0, 2, 2),), straight(side, side, 0, 0, 0, Pattern("diagonal")))
    halves = [p for p in filled.pieces if abs(float(p.shape.area) - 0.25) < 1e-6]
    whole = filled.full + sum(abs(float(p.shape.area) - 0.5) < 1e-6 for p in filled.pieces)
    rest = [p for p in filled.pieces if p not in halves and float(p.shape.area) > 1e-6 and abs(float(p.shape.area) - 0.5) > 1e-6]
    assert (len(halves), whole, rest) == (8, 4, [])


def test_the_last_tile_of_a_long_run_is_in_its_place() -> None:
    """60 m of tiles at 45 degrees: the last corner within two nanometres of where arithmetic puts it."""
    room = Shape(drawn([(0, 0), (42.5, 42.5), (42, 43), (-0.5, 0.5)]))
    lattice = straight("0.1", "0.1", "0.0015", 0, 0, Pattern("diagonal"))
    filled = fill((room,), lattice)
    run = max(filled.runs, key=lambda r: r.count)
    assert run.count > 500
    for n, tile in enumerate(run.tiles()):
        if n in (0, run.count - 1):
            x, y = (float(v) for v in tile[0])
            for w in ((x + y) * math.sqrt(0.5), (y - x) * math.sqrt(0.5)):
                assert abs(w / 0.1015 - round(w / 0.1015)) * 0.1015 < 2e-9


def test_a_square_drain_among_diagonal_tiles() -> None:
    """A grate of 100 mm in the middle of a tile of 200 mm that stands on its corner meets that tile only. (By hand.)

    Middle to side 100 mm, middle to corner of the grate 70.7 mm. Its box reaches as far as the neighbours' boxes.
    """
    middle = F(round(math.sqrt(0.5) * 200 * 10**6), 10**9)  # tile with its corner at 0, 0: middle at (0, 141.4)
    grate = Hole("drain", "", F(0), middle, F(1, 10))
    filled = fill((box(-1, -1, 1, 1),), straight("0.2", "0.2", "0.002", 0, 0, Pattern("diagonal")), (grate,))
    met = [p for p in filled.pieces if p.holes]
    assert len(met) == 1
    wider = Hole("drain", "", F(0), middle, F(1, 5))        # corner of the grate at 141.4 mm, over the side at 100 mm: five tiles
    filled = fill((box(-1, -1, 1, 1),), straight("0.2", "0.2", "0.002", 0, 0, Pattern("diagonal")), (wider,))
    assert len([p for p in filled.pieces if p.holes]) == 5


@pytest.mark.parametrize("out", [0.001, 0.005, 0.02])
def test_a_wall_out_of_plumb(out: float) -> None:
    """2.4 m high, leaning by `out`: the last column is a wedge, row by row narrower, by the rule of three."""
    room = Shape(drawn([(0, 0), (2.4, 0), (2.4 - out, 2.4), (0, 2.4)]))
    filled = fill((room,), straight("0.6", "0.3", 0))
    compare_slanted((room,), straight("0.6", "0.3", 0), (), filled)
    assert filled.full == 24
    wedges = sorted(filled.pieces, key=lambda p: p.shape.bounds[1])
    assert len(wedges) == 8
    for row, piece in enumerate(wedges):
        lower, upper = 0.6 - out * row / 8, 0.6 - out * (row + 1) / 8
        assert float(piece.shape.area) == pytest.approx((lower + upper) / 2 * 0.3, abs=1e-8)


def test_the_checks_tell_a_wrong_filling() -> None:
    """The check itself: a tile left out, one twice, a piece moved by a tenth of a millimetre."""
    from dataclasses import replace

    region, lattice = (box(0, 0, 1, 1),), straight("0.2", "0.2", "0.002", 0, 0, Pattern("diagonal"))
    filled = fill(region, lattice)
    compare_slanted(region, lattice, (), filled)
    piece = filled.pieces[0]
    moved = Shape(tuple((x + F(1, 10_000), y) for x, y in piece.shape.outer))
    run = filled.runs[0]
    shifted = replace(run, first=tuple((x + F(1, 10_000), y) for x, y in run.first))
    for bad in (
        replace(filled, runs=filled.runs[1:]),
        replace(filled, runs=(*filled.runs, run)),
        replace(filled, runs=(shifted, *filled.runs[1:])),
        replace(filled, pieces=filled.pieces[1:]),
        replace(filled, pieces=(replace(piece, shape=moved), *filled.pieces[1:])),
    ):
        with pytest.raises(AssertionError):
            compare_slanted(region, lattice, (), bad)
    laid = lay(polygon(region[0]), lattice)
    mine = float(sum(p.shape.area for p in filled.pieces)) + filled.full * 0.04
    assert abs(float(sum(shapely.area(laid.common))) - mine) < WHOLE
