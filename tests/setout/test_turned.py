"""Starts of tiles that are turned by half a right angle: what the spec says of an edge, a line or the drain, by hand in mm."""

from __future__ import annotations

import pytest

from tests.setout.spec import SQUARE, bounds, face, floor, layout, mm, spec, wall
from tilespec.setout.types import Layout

ON = "tile square; joint 3; diagonal"
NEAR = 1e-4


def whole(x: Layout) -> list[tuple[float, float, float, float]]:
    """The full tiles: their left, lower, right and upper corner."""
    return [bounds(t) for run in x.runs for t in run.tiles()]


@pytest.mark.parametrize(("words", "side"), [
    ("full tile at left", 0), ("full tile at floor", 1), ("full tile at right", 2), ("full tile at top", 3),
    ("start from top", 3),
])
def test_a_corner_of_a_tile_stands_at_the_edge_of_a_wall(words: str, side: int) -> None:
    text = spec(SQUARE, floor("2.4 x 1.8"), wall("A", f"{ON}; {words}"))
    edge = bounds(face(text, "wall A").outline)[side]
    corners = [b[side] for b in whole(layout(text, "wall A"))]
    assert abs((min if side < 2 else max)(corners) - edge) < NEAR


@pytest.mark.parametrize(("words", "side"), [
    ("full tile at wall D", 0), ("full tile at wall A", 1), ("full tile at wall B", 2), ("full tile at wall C", 3),
    ("full tile at door", 3),
])
def test_a_corner_of_a_tile_stands_at_the_edge_of_a_floor(words: str, side: int) -> None:
    text = spec(SQUARE, floor("2.4 x 1.8", f"{ON}; {words}"), wall("C", "door 0.8 x 2.0; 0.5 from left"))
    edge = bounds(face(text, "floor").outline)[side]
    corners = [b[side] for b in whole(layout(text, "floor"))]
    assert abs((min if side < 2 else max)(corners) - edge) < NEAR


@pytest.mark.parametrize(("words", "x", "y"), [
    # The floor's tiles lie between 5 and 2395, and 5 and 1795; tiles of 300 are 424.26 from corner to corner.
    ("tile on centre", 1200, 900), ("tile on drain", 800, 700),
])
def test_the_middle_of_a_tile_lies_where_it_is_said(words: str, x: float, y: float) -> None:
    drain = "drain 0.8 from wall D, 0.7 from wall A; diameter 30"
    text = spec(SQUARE, floor("2.4 x 1.8", drain, "fall 1:80 one plane", f"{ON}; {words}"))
    found = layout(text, "floor")
    tiles = [*(t for run in found.runs for t in run.tiles()), *(p.tile for p in found.pieces)]
    middles = [(sum(mm(p[0]) for p in t) / 4, sum(mm(p[1]) for p in t) / 4) for t in tiles]
    assert min(abs(a - x) + abs(b - y) for a, b in middles) < NEAR


def test_a_corner_on_the_centre() -> None:
    """Said as a joint: where four tiles meet there is no tile, so the lower corner of one stands there."""
    text = spec(SQUARE, floor("2.4 x 1.8", f"{ON}; joint on centre"))
    assert min(abs(b[1] - 900) for b in whole(layout(text, "floor"))) < NEAR
    assert layout(text, "floor").begin.words[0].words == "corner of a tile on centre"


def test_a_full_tile_beside_a_door() -> None:
    """A door from 500 to 1300: the right corner of a tile stands at its left edge."""
    on = f"{ON}; full tile at door; full tile at floor"
    found = layout(spec(SQUARE, floor("2.4 x 1.8"), wall("A", "door 0.8 x 2.0; 0.5 from left", on)), "wall A")
    tiles = [*(t for run in found.runs for t in run.tiles()), *(p.tile for p in found.pieces)]
    assert min(abs(bounds(t)[2] - 500) for t in tiles) < NEAR


def test_the_inside_of_a_niche_begins_at_its_front() -> None:
    """Its left side is seen from the room with the front on its right or left: there stands the corner of a tile, whatever start
    the wall has."""
    text = spec(SQUARE, floor("2.4 x 1.8"), wall("A", f"{ON}; full tile at right; full tile at top",
                                                   "niche 0.8 x 0.8; 0.8 from left, 0.9 up; 0.6 deep"))
    left, right = (layout(text, f"wall A/niche 1 {side}") for side in ("left", "right"))
    assert abs(min(bounds(t)[0] for run in left.runs for t in run.tiles()) - bounds(left.region[0].outer)[0]) < NEAR
    assert abs(max(bounds(t)[2] for run in right.runs for t in run.tiles()) - bounds(right.region[0].outer)[2]) < NEAR
