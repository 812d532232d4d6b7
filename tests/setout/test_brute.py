"""Straight set-outs, exactly: every tile, every piece, every hole against counting cells of whole numbers."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tests.setout.brute import Grid, compare_straight, lay, scale_of, second, tiles, whole_ring
from tests.setout.rooms import FORMS, STRAIGHT, Case, lattices, outlines, straight_cases
from tilespec.job.types import Pattern
from tilespec.setout.engine import Filled, Lattice, fill
from tilespec.setout.types import Hole, Shape

QUIET = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]


def box(left: object, low: object, right: object, high: object) -> Shape:
    a, b, c, d = (F(str(v)) for v in (left, low, right, high))
    return Shape(((a, b), (c, b), (c, d), (a, d)))


GRID = Pattern("straight")


def straight(width: object, height: object, joint: object, x: object = 0, y: object = 0, pattern: Pattern = GRID) -> Lattice:
    return Lattice(*(F(str(v)) for v in (width, height, joint)), pattern, F(str(x)), F(str(y)))


def hold(case: Case) -> None:
    """Held against the long way; the areas of the engine's own shapes, by their corners, add up as well."""
    filled = fill(*case)
    laid = compare_straight(*case, filled)
    region = sum((s.area for s in case.region), F(0))
    tile = sum((s.area for s in shapes_of(filled)), F(0))
    assert region * laid.scale**2 == laid.region
    assert tile * laid.scale**2 == laid.tile_area


def shapes_of(filled: Filled) -> list[Shape]:
    return [Shape(t) for run in filled.runs for t in run.tiles()] + [p.shape for p in filled.pieces]


# A drain's grate beside a leg of an L, and a run broken by a pipe.
@example(Case((Shape(box(0, 0, "0.1", "0.3").outer, (box("0.098", "0.098", "0.099", "0.209").outer[::-1],)),),
              straight("0.098", "0.098", 0), (Hole("drain", "", F(7, 128), F(1229, 8000), F(87, 1000)),)))
@example(Case((box(0, 0, 2, "0.2"),), straight("0.1", "0.1", 0), (Hole("pipe", "", F(1), F(1, 10), F(1, 100)),)))
@settings(max_examples=400, deadline=None, derandomize=True, suppress_health_check=QUIET)
@given(straight_cases())
def test_straight(case: Case) -> None:
    hold(case)


@pytest.mark.slow
@settings(max_examples=1000, deadline=None, derandomize=True, suppress_health_check=QUIET)
@given(straight_cases())
def test_thousands_of_straight_rooms(case: Case) -> None:
    hold(case)


@pytest.mark.parametrize("name", STRAIGHT)
@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=QUIET)
@given(data=st.data())
def test_the_lattice_of_the_long_way_leaves_no_gap(name: str, data: st.DataObject) -> None:
    """Each tile with the joint to its right and above fills its place, and the places cover a field once."""
    lattice = data.draw(lattices((name,)))
    scale = scale_of((), lattice) * 2
    joint = (lattice.joint * scale).numerator
    side = max((lattice.width * scale).numerator, (lattice.height * scale).numerator, (second(lattice) * scale).numerator) + joint
    window = (-side, -side // 2, 2 * side, 2 * side)
    grid = Grid([((window[0], window[1]), (window[2], window[1]), (window[2], window[3]), (window[0], window[3]))])
    wide = (window[0] - joint, window[1] - joint, window[2], window[3])
    places = [(a, b, c + joint, d + joint) for a, b, c, d in tiles(lattice, wide, scale)]
    covered = sum(p.area for place in places for p in grid.parts(place))
    assert covered == grid.area
    for n, (a, b, c, d) in enumerate(places):
        assert not any(a < r and left < c and b < t and low < d for left, low, r, t in places[n + 1:])


@settings(max_examples=120, deadline=None, derandomize=True, suppress_health_check=QUIET)
@given(straight_cases())
def test_a_whole_step_of_the_pattern_changes_nothing(case: Case) -> None:
    """Begun one step of the pattern further on, the same tiles lie there."""
    p, lattice = case.lattice.pattern, case.lattice
    a, b = lattice.width + lattice.joint, lattice.height + lattice.joint
    long = max(a, b)
    if p.name == "herringbone":
        step = (long, -long)
    elif p.name == "basket":
        step = (long, long)
    elif p.name == "modular":
        step = (a, second(lattice) + lattice.joint)
    elif p.upright:
        step = (F(0), b)
    else:
        step = (a, F(0))
    moved = Lattice(lattice.width, lattice.height, lattice.joint, p, lattice.x + step[0], lattice.y + step[1])
    before, after = fill(*case), fill(case.region, moved, case.holes)

    def said(filled: Filled) -> tuple[object, object]:
        full = sorted(t for r in filled.runs for t in r.tiles())
        return full, sorted((p.tile, p.shape.outer, tuple(h.name for h in p.holes)) for p in filled.pieces)

    assert said(before) == said(after)


@pytest.mark.parametrize("form", sorted(FORMS))
@pytest.mark.parametrize("name", ["straight", "half", "herringbone", "basket"])
def test_each_form_of_room(form: str, name: str) -> None:
    """Rectangle, L, U, T, walks, windows, rooms in two parts: tiles of 295 × 145 mm, 5 mm joints, pipes everywhere."""
    cells = [[c == "1" for c in row] for row in FORMS[form]]
    xs = [F(k * 37, 100) for k in range(len(cells[0]) + 1)]
    ys = [F(k * 41, 100) for k in range(len(cells) + 1)]
    spots = [(x + F(1, 7), y + F(1, 9)) for x in xs for y in ys]
    holes = tuple(Hole("pipe", str(n), *spot, F(3, 100)) for n, spot in enumerate(spots))
    hold(Case(outlines(cells, xs, ys), straight("0.295", "0.145", "0.005", "0.1", "-0.03", Pattern(name)), holes))


# ---------------------------------------------------------------- single cases

def test_one_tile_larger_than_the_room() -> None:
    filled = fill((box(0, 0, "0.4", "0.3"),), straight(1, 1, "0.003", "-0.2", "-0.5"))
    assert not filled.runs
    assert [p.shape.area for p in filled.pieces] == [F(12, 100)]


def test_a_region_that_lies_in_a_joint_has_no_tile() -> None:
    filled = fill((box("0.301", 0, "0.302", "0.9"),), straight("0.3", "0.3", "0.003"))
    assert filled.runs == filled.pieces == ()


def test_tiles_that_just_fit_are_full() -> None:
    filled = fill((box(0, 0, "0.903", "0.603"),), straight("0.299", "0.3", "0.003"))
    assert filled.full == 6 and not filled.pieces


def test_a_tile_in_two_pieces() -> None:
    """A slot of 20 mm through a tile from side to side: two pieces of one tile."""
    corners = ((0, 0), (30, 0), (30, 30), (16, 30), (16, 5), (14, 5), (14, 30), (0, 30))
    room = Shape(tuple((F(x, 100), F(y, 100)) for x, y in corners))
    filled = fill((room,), straight("0.3", "0.15", 0, 0, 0))
    assert filled.full == 0
    top = [p for p in filled.pieces if p.tile[0] == (0, F(15, 100))]
    assert sorted(p.shape.area for p in top) == [F(14 * 15, 10_000)] * 2
    assert len(filled.pieces) == 3


def test_a_window_inside_one_tile() -> None:
    room = Shape(box(0, 0, 1, 1).outer, (box("0.4", "0.4", "0.6", "0.6").outer,))
    (piece,) = fill((room,), straight(1, 1, 0)).pieces
    assert len(piece.shape.inner) == 1 and piece.shape.area == F(96, 100)


def test_a_pipe_on_a_corner_takes_from_four_tiles_and_one_beside_an_edge_from_none() -> None:
    room, lattice = (box(0, 0, "0.6", "0.6"),), straight("0.3", "0.3", 0)
    on_corner = fill(room, lattice, (Hole("pipe", "", F(3, 10), F(3, 10), F(1, 50)),))
    assert on_corner.full == 0 and [len(p.holes) for p in on_corner.pieces] == [1] * 4
    # 10 mm radius, centre 10 mm from the joint line: touches, takes nothing.
    beside = fill(room, lattice, (Hole("pipe", "", F(29, 100), F(15, 100), F(1, 50)),))
    assert beside.full == 3 and len(beside.pieces) == 1
    # A square grate reaches where a round hole of the same size does not.
    near = (F(29, 100), F(29, 100))
    for kind, hit in (("pipe", 3), ("drain", 4)):
        filled = fill(room, lattice, (Hole(kind, "", *near, F(28, 1000)),))
        assert len(filled.pieces) == hit


def test_a_pipe_in_the_joint_only() -> None:
    pipe = Hole("pipe", "", F(305, 1000), F(15, 100), F(1, 100))
    filled = fill((box(0, 0, "0.61", "0.3"),), straight("0.3", "0.3", "0.01"), (pipe,))
    assert filled.full == 2 and not filled.pieces


@settings(max_examples=60, deadline=None, derandomize=True)
@given(lattices(STRAIGHT))
def test_nothing_to_tile(lattice: Lattice) -> None:
    filled = fill((), lattice)
    assert filled.runs == filled.pieces == ()


def test_the_long_way_tells_a_wrong_filling() -> None:
    """The check itself: a tile left out, a tile moved and a piece a tenth of a millimetre short are all seen."""
    from dataclasses import replace

    region, lattice = (box(0, 0, "2.4", "2.4"),), straight("0.6", "0.3", "0.002")
    filled = fill(region, lattice)
    compare_straight(region, lattice, (), filled)
    piece = filled.pieces[0]
    points = tuple((x - F(1, 10_000) if x == F("2.4") else x, y) for x, y in piece.shape.outer)
    wrong = [
        replace(filled, runs=filled.runs[1:]),
        replace(filled, runs=(replace(filled.runs[0], count=filled.runs[0].count - 1), *filled.runs[1:])),
        replace(filled, pieces=filled.pieces[1:]),
        replace(filled, pieces=(*filled.pieces, piece)),
        replace(filled, pieces=(replace(piece, shape=Shape(points)), *filled.pieces[1:])),
    ]
    for bad in wrong:
        if bad == filled:
            raise AssertionError("not wrong at all")
        with pytest.raises(AssertionError):
            compare_straight(region, lattice, (), bad)
    scale = scale_of(region, lattice)
    assert lay(region, lattice, scale).region == Grid([whole_ring(region[0].outer, scale)]).area
