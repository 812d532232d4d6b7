"""Exact geometry against shapely (a geometry library that the take-off does not use) and against plain arithmetic."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon
from shapely.geometry import box as shapely_box
from shapely.ops import unary_union

from tests.takeoff.building import rect
from tilespec.job.types import Rect
from tilespec.setout import geometry
from tilespec.setout.geometry import Box

WHOLE = st.integers(0, 40)
L_SHAPE = ((F(0), F(0)), (F(30), F(0)), (F(30), F(12)), (F(18), F(12)), (F(18), F(25)), (F(0), F(25)))
SLANTED = ((F(0), F(0)), (F(31), F(1)), (F(29), F(27)), (F(2), F(24)))


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    left, low = draw(WHOLE), draw(WHOLE)
    return Box(F(left), F(low), F(left + draw(st.integers(1, 15))), F(low + draw(st.integers(1, 15))))


def shape(b: Box) -> Polygon:
    return shapely_box(float(b.left), float(b.low), float(b.right), float(b.high))


@settings(max_examples=80, deadline=None)
@given(st.lists(boxes(), max_size=5), st.lists(boxes(), max_size=3), st.sampled_from([L_SHAPE, SLANTED]))
def test_union_less_union_within_an_outline(
    included: list[Box], excluded: list[Box], outline: tuple[geometry.Point, ...]
) -> None:
    """Outside reference: unary_union, difference and intersection of shapely."""
    pieces = geometry.cut(
        included + excluded,
        geometry.bounds(outline),
        lambda x, y: any(b.holds(x, y) for b in included) and not any(b.holds(x, y) for b in excluded),
    )
    assert all(not a.meets(b) for i, a in enumerate(pieces) for b in pieces[i + 1 :])
    ours = sum((geometry.polygon_area(geometry.clip(outline, p)) for p in pieces), F(0))
    wanted = unary_union([shape(b) for b in included]).difference(unary_union([shape(b) for b in excluded]))
    assert float(ours) == pytest.approx(wanted.intersection(Polygon([(float(x), float(y)) for x, y in outline])).area, abs=1e-9)


def test_shoelace_by_hand() -> None:
    """An L of 30 × 12 and 18 × 13 (plain arithmetic), whichever way round its corners are listed."""
    assert geometry.polygon_area(L_SHAPE) == 30 * 12 + 18 * 13
    assert geometry.polygon_area(tuple(reversed(L_SHAPE))) == 30 * 12 + 18 * 13


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([L_SHAPE, SLANTED]), st.integers(1, 4))
def test_set_back_against_a_mitred_buffer(outline: tuple[geometry.Point, ...], distance: int) -> None:
    """Outside reference: a negative buffer with mitred corners, by shapely."""
    wanted = Polygon([(float(x), float(y)) for x, y in outline]).buffer(-distance, join_style="mitre", mitre_limit=50)
    found = geometry.set_back(outline, [F(distance)] * len(outline))
    assert float(geometry.polygon_area(found)) == pytest.approx(wanted.area, rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([(0, 0, 30, 12), (2, 3, 17, 40)]), st.lists(st.integers(-3, 5), min_size=4, max_size=4))
def test_each_side_is_set_back_by_its_own(corners: tuple[int, int, int, int], by: list[int]) -> None:
    """A box, by plain arithmetic: low, right, high, left."""
    left, low, right, high = corners
    outline = ((F(left), F(low)), (F(right), F(low)), (F(right), F(high)), (F(left), F(high)))
    found = geometry.set_back(outline, [F(v) for v in by])
    assert geometry.bounds(found) == Box(F(left + by[3]), F(low + by[0]), F(right - by[1]), F(high - by[2]))


@pytest.mark.parametrize("distance", [1, 2, 5, 20])
def test_nothing_is_left_of_a_narrow_room(distance: int) -> None:
    """Also where it is set back by so much that it would come out turned over both ways."""
    with pytest.raises(ValueError, match="nothing is left"):
        geometry.set_back(((F(0), F(0)), (F(2), F(0)), (F(2), F(9)), (F(0), F(9))), [F(distance)] * 4)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([L_SHAPE, SLANTED]), WHOLE, WHOLE)
def test_points_in_an_outline(outline: tuple[geometry.Point, ...], x: int, y: int) -> None:
    """Outside reference: shapely's contains. Points lie off every edge."""
    point = (F(x) + F(1, 3), F(y) + F(1, 7))
    polygon = Polygon([(float(a), float(b)) for a, b in outline])
    assert geometry.holds(outline, *point) == polygon.contains(ShapelyPoint(float(point[0]), float(point[1])))


@pytest.mark.parametrize(
    ("piece", "wanted"),
    [
        (rect(1, 1, 1, 1), {("low", F(1), F(2)), ("high", F(1), F(2)), ("left", F(1), F(2)), ("right", F(1), F(2))}),
        (rect(1, 0, 1, 2), {("high", F(1), F(2)), ("left", F(0), F(2)), ("right", F(0), F(2))}),
        (rect(3, 1, 2, 1), {("left", F(1), F(2)), ("low", F(3), F(4)), ("high", F(3), F(4))}),
    ],
)
def test_edges_that_border_on_a_field(piece: Rect, wanted: set[tuple[str, F, F]]) -> None:
    """A window, a door on the floor, and an opening that reaches beyond a field of 4 × 3."""
    field = Box(F(0), F(0), F(4), F(3))
    assert set(geometry.rim(geometry.box(piece), field.holds, (field,))) == wanted


@pytest.mark.parametrize(
    ("frame", "wanted"),
    [
        (Box(F(0), F(0), F(2), F(3)), (F(0), F(1, 2))),
        (Box(F(1), F(0), F(9), F(3)), (F(1, 4), F(1))),
        (Box(F(4), F(0), F(9), F(3)), None),
        (Box(F(0), F(1), F(2), F(3)), None),
    ],
)
def test_reach_of_a_box_along_a_line(frame: Box, wanted: tuple[F, F] | None) -> None:
    assert geometry.reach((F(0), F(0)), (F(4), F(0)), frame) == wanted
