"""Joints that run on from one surface to another, bands and panels, levels that all walls of a room share; by hand in mm."""

from __future__ import annotations

import pytest

from tests.setout.spec import (
    EDGE,
    LARGE,
    LARGE_OFF,
    SMALL,
    SQUARE,
    floor,
    layout,
    mm,
    ring,
    setout,
    shapes,
    spec,
    wall,
)
from tilespec.setout.types import Alignment, Layout


def alignments(text: str) -> dict[tuple[str, str], Alignment]:
    return {(a.first.split("/")[1], a.second.split("/")[1]): a for a in setout(text).alignments}


def edges(x: Layout, axis: int) -> set[float]:
    """Where whole tiles would begin, to a module."""
    size, joint = (mm(x.width), mm(x.height))[axis], mm(x.joint)
    rings = [t for r in x.runs for t in r.tiles()] + [p.tile for p in x.pieces]
    return {round((mm(min(p[axis] for p in r))) % (size + joint), 3) for r in rings}


# ---------------------------------------------------------------- floor and wall

@pytest.mark.parametrize(("letter", "line"), [
    # Left end of the wall in plan along its axis, and which way it runs: A to the right, B down, C to the left, D up the page.
    ("A", (0, 0, 1)), ("B", (1, 0, 1)), ("C", (0, 2400, -1)), ("D", (1, 1800, -1)),
])
def test_joints_of_a_wall_stand_on_those_of_the_floor(letter: str, line: tuple[int, int, int]) -> None:
    on = "tile square; joint 3"
    text = spec(SQUARE, floor("2.4 x 1.8", f"{on}; joint on centre across; tile on centre up"),
                wall(letter, f"{on}; joints follow floor; full tile at datum"))
    axis, left, sign = line
    ground, w = layout(text, "floor"), layout(text, f"wall {letter}")
    starts = edges(w, 0)
    assert len(starts) == 1
    (at,) = starts
    # Facing a wall that runs against the plan, a tile's left side is its far side there.
    place = left + at if sign > 0 else left - at - 300
    assert {round(place % 303, 3)} == edges(ground, axis)
    found = alignments(text)[f"wall {letter}", "floor"]
    assert found.asked and found.kind == "floor-wall" and found.off.value == 0


def test_a_floor_that_follows_a_wall() -> None:
    """Wall C: its tile starts at 500 from its left end, which lies at 2400 in plan: it ends there at 1900, and begins at 1600."""
    on = "tile square; joint 3"
    text = spec(SQUARE, floor("2.4 x 1.8", f"{on}; joints follow wall C; tile on centre up"),
                wall("C", f"{on}; start at 0.5 from left, 0.1 up"))
    assert edges(layout(text, "floor"), 0) == {1600 % 303}
    assert alignments(text)["wall C", "floor"].off.value == 0


def test_different_modules_miss_by_what_they_differ() -> None:
    """300 + 3 on the floor, 200 + 2 on the wall: each further joint is 101 mm off, and that is said where it is asked for."""
    text = spec(SQUARE, SMALL, floor("2.4 x 1.8", "tile square; joint 3; joint on centre"),
                wall("A", "tile small; joint 2; joints follow floor"))
    found = alignments(text)["wall A", "floor"]
    assert found.asked and mm(found.off) == 101
    silent = spec(SQUARE, SMALL, floor("2.4 x 1.8", "tile square; joint 3; joint on centre"), wall("A", "tile small; joint 2"))
    assert ("wall A", "floor") not in alignments(silent)


def test_by_how_much_joints_miss() -> None:
    """Floor: joint on centre, a tile begins at 1201.5, so at 1201.5 - 3 x 303 = 292.5. Wall A: full tile at 17, one at 320."""
    on = "tile square; joint 3"
    text = spec(SQUARE, floor("2.4 x 1.8", f"{on}; joint on centre"), wall("A", f"{on}; start at 0.017 from left, 0.1 up"))
    found = alignments(text)["wall A", "floor"]
    assert not found.asked and mm(found.off) == 27.5


# ---------------------------------------------------------------- round a corner

def _end(x: Layout, at_end: bool) -> float:
    """Width of the last (or first) tile of the course at the datum."""
    course = [s.bounds for s in shapes(x) if s.bounds[1] == 1]
    near = max(course, key=lambda b: b[2]) if at_end else min(course, key=lambda b: b[0])
    return mm(near[2] - near[0])


def test_a_tile_wraps_round_an_inside_corner() -> None:
    """A from D's side: 600s and joints of 3 from 5 in 2400 - 18 - 5 = 2377: 3 x 603 = 1809, left 568. B goes on with 32."""
    on = "tile large; joint 3"
    text = spec(LARGE, floor("2.4 x 1.8", on), wall("A", f"{on}; full tile at left; full tile at datum"),
                wall("B", f"{on}; joints follow wall A"))
    a, b = layout(text, "wall A"), layout(text, "wall B")
    assert (_end(a, True), _end(b, False)) == (568, 32)
    assert edges(a, 1) == edges(b, 1)
    found = alignments(text)["wall A", "wall B"]
    assert found.asked and found.off.value == 0


def test_a_tile_wraps_the_other_way() -> None:
    """D follows A: A's first tile at its left is 568 (full tile at its right), D's last one 32."""
    on = "tile large; joint 3"
    text = spec(LARGE, floor("2.4 x 1.8", on), wall("A", f"{on}; full tile at right; full tile at datum"),
                wall("D", f"{on}; joints follow wall A"))
    assert (_end(layout(text, "wall A"), False), _end(layout(text, "wall D"), True)) == (568, 32)


def test_a_tile_wraps_round_an_outside_corner() -> None:
    """C runs to the face of D's tiles at 1700 + 13; from 5: 1708 less 2 x 603 leaves 502. D goes on with 98 from its arris."""
    on = "tile large; joint 3"
    walked = "walk A 3.2, B 2.6, C 1.7, corner external, D 0.7, E 1.5, F 3.3"
    text = spec(LARGE, floor(walked, on), wall("C", f"{on}; full tile at left; full tile at datum"),
                wall("D", f"{on}; joints follow wall C"))
    c, d = layout(text, "wall C"), layout(text, "wall D")
    assert (_end(c, True), _end(d, False)) == (502, 98)
    assert mm(min(s.bounds[0] for s in shapes(d))) == -LARGE_OFF


def test_the_line_to_snap_lies_on_the_follower_itself() -> None:
    """Round a corner joints count from the far wall's line; whole tiles of 603 mm bring it onto the wall where they are set."""
    on = "tile large; joint 3"
    text = spec(LARGE, floor("2.4 x 1.8", on), wall("A", f"{on}; joint on centre; full tile at floor"),
                wall("B", f"{on}; joints follow wall A"))
    line = mm(layout(text, "wall B").begin.across)
    # The plane runs from 18 to 1795: the least of the joints that lie on it.
    assert 18 <= line < 18 + 603
    assert line % 603 in edges(layout(text, "wall B"), 0)


def test_a_chain_of_followers() -> None:
    """C follows B, which follows A. B is 1800 - 2 x 18 = 1764: 32 + 3 + 2 x 603 = 1241, left 523; C goes on with 77."""
    on = "tile large; joint 3"
    text = spec(LARGE, floor("2.4 x 1.8", on), wall("A", f"{on}; full tile at left; full tile at datum"),
                wall("B", f"{on}; joints follow wall A"), wall("C", f"{on}; joints follow wall B"))
    assert _end(layout(text, "wall B"), True) == 523
    assert _end(layout(text, "wall C"), False) == 77


def test_round_a_corner_into_another_tile() -> None:
    """Courses of 303 and of 202 cannot meet: they come apart by 101 mm a course."""
    text = spec(LARGE, SMALL, floor("2.4 x 1.8", "tile small; joint 2"), wall("A", "tile large; joint 3; full tile at datum"),
                wall("B", "tile small; joint 2; joints follow wall A"))
    found = alignments(text)["wall A", "wall B"]
    assert found.asked and mm(found.off) == 101


def test_a_herringbone_cannot_follow() -> None:
    text = spec("tile plank 400x100x9 porcelain; weight 20 kg/m2; barefoot class B", LARGE,
                floor("2.4 x 1.8", "tile plank; joint 3; herringbone"),
                wall("A", "tile large; joint 3; joints follow floor; full tile at datum"))
    found = alignments(text)["wall A", "floor"]
    assert found.asked and found.off.value > 0


# ---------------------------------------------------------------- levels of a room

def test_walls_without_a_level_take_that_of_a_wall_that_has_one() -> None:
    on = "tile large; joint 3"
    text = spec(LARGE, floor("2.4 x 1.8", on), wall("A", on), wall("B", f"{on}; full tile at floor"), wall("C", on))
    levels = {w: edges(layout(text, f"wall {w}"), 1) for w in "ABC"}
    assert levels == {w: {EDGE} for w in "ABC"}
    assert all(mm(a.off) == 0 for a in alignments(text).values() if a.kind == "corner")
    assert layout(text, "wall A").begin.words[1].words == "on the level of wall B"


def test_a_level_that_is_found_is_one_for_all_walls_of_the_same_tile() -> None:
    on, other = "tile large; joint 3", "tile small; joint 2"
    text = spec(LARGE, SMALL, floor("2.4 x 1.8", on), wall("A", on, "window 0.6 x 0.9; 0.6 from left, 1.15 up"), wall("B", on),
                wall("C", other), wall("D", on, "door 0.8 x 2.0; 0.4 from left"))
    levels = {w: edges(layout(text, f"wall {w}"), 1) for w in "ABD"}
    assert len({frozenset(v) for v in levels.values()}) == 1
    for w in "ABD":
        begin = layout(text, f"wall {w}").begin
        assert "up" in begin.found and begin.chosen is not None and begin.runner_up is not None
        assert begin.chosen.score != begin.runner_up.score or begin.chosen.up != begin.runner_up.up


def test_levels_of_two_rooms_have_nothing_to_do_with_each_other() -> None:
    on = "tile large; joint 3"
    text = spec(LARGE, 'room "one"', floor("2.4 x 1.8", on), wall("A", f"{on}; full tile at floor"),
                'room "two"', floor("2.4 x 1.8", on), wall("A", f"{on}; full tile at top"))
    one, two = (x for x in setout(text).layouts if x.face.endswith("wall A"))
    assert edges(one, 1) == {5} and edges(two, 1) == {round((2395 - 300) % 303, 3)}
    assert not [a for a in setout(text).alignments if a.kind == "corner"]


# ---------------------------------------------------------------- bands, panels, niches

BANDED = spec(
    LARGE, floor("2.4 x 1.8", "tile large; joint 3"),
    wall("A", "tile large; joint 3; joint on centre; full tile at datum", "tile large; joint 3; band 0.3 high, bottom 1.303 up",
         "tile large; joint 3; panel 0.6 x 0.6; 0.9 from left, 1.7 up"),
)


def test_a_band_of_the_fields_module_runs_on_from_it_and_stands_on_its_own_foot() -> None:
    band, field = layout(BANDED, "wall A", "band"), layout(BANDED, "wall A", "field")
    assert edges(band, 0) == edges(field, 0)
    assert {mm(s.bounds[1]) for s in shapes(band)} == {1303} and {mm(s.bounds[3]) for s in shapes(band)} == {1603}


def test_a_panel_begins_at_its_foot() -> None:
    panel = layout(BANDED, "wall A", "panel")
    assert min(mm(s.bounds[1]) for s in shapes(panel)) == 1700
    assert edges(panel, 1) == {1700 % 303}


def test_a_panel_told_to_follow_the_field() -> None:
    text = spec(LARGE, SMALL, floor("2.4 x 1.8", "tile large; joint 3"), wall(
        "A", "tile small; joint 2; full tile at left; full tile at datum",
        "tile small; joint 2; panel 0.6 x 0.6; 0.9 from left, 1.7 up; joints follow field",
    ))
    panel, field = layout(text, "wall A", "panel"), layout(text, "wall A", "field")
    assert edges(panel, 0) == edges(field, 0) == {5}


def test_a_niche_takes_the_courses_of_the_wall_around_it() -> None:
    """Back of the niche from 905, 1205, its sides from 1215: joints lie where the wall's do; full tiles show at the front."""
    text = spec(SMALL, floor("2.4 x 1.8", "tile small; joint 2"), wall(
        "A", "tile small; joint 2; full tile at left; full tile at floor",
        "niche 0.6 x 0.3; 0.9 from left, 1.2 up; 0.25 deep; joints follow field",
    ))
    back = layout(text, "wall A/niche 1 back")
    assert edges(back, 0) == {round((5 - 905) % 202, 3)} and edges(back, 1) == {round((5 - 1205) % 202, 3)}
    left, right, bottom = (layout(text, f"wall A/niche 1 {side}") for side in ("left", "right", "bottom"))
    # 245 deep: the front of the left side is at its right (it is seen from inside), that of the right side at its left.
    fronts = {x.face.rsplit(" ", 1)[1]: x for x in (left, right, bottom)}
    assert all(edges(x, 1) == {round((5 - 1215) % 202, 3)} for x in (left, right))
    assert max(mm(s.bounds[2]) for s in shapes(fronts["left"])) == 245
    for x in (left, right):
        assert {mm(p.shape.bounds[2] - p.shape.bounds[0]) for p in x.pieces} == {43, 200}
    assert edges(bottom, 0) == edges(back, 0)


def test_reveals_take_the_courses_of_the_wall() -> None:
    text = spec(SMALL, floor("2.4 x 1.8", "tile small; joint 2"), wall(
        "A", "tile small; joint 2; full tile at left; full tile at floor",
        "window 0.6 x 0.9; 0.6 from left, 1.15 up; reveal 0.12",
    ))
    assert edges(layout(text, "wall A/window 1 left"), 1) == {round((5 - 1165) % 202, 3)}
    assert edges(layout(text, "wall A/window 1 bottom"), 0) == {round((5 - 600) % 202, 3)}


# ---------------------------------------------------------------- starts that are said, from hand

@pytest.mark.parametrize(("start", "axis", "at"), [
    ("joint on centre", 0, 1200 + 1.5 - 303), ("tile on centre", 0, 1200 - 150), ("full tile at left", 0, 5),
    ("full tile at right", 0, 2395 - 300), ("full tile at datum", 1, 1000), ("full tile at floor", 1, 5),
    ("full tile at top", 1, 2395 - 300), ("joint on window", 0, 900 + 1.5), ("tile on window", 0, 900 - 150),
    ("full tile at window", 0, 600 - 300), ("start at 0.7 from left, 0.25 up", 0, 700),
    ("start at 0.7 from left, 0.25 up", 1, 250),
])
def test_where_a_wall_starts(start: str, axis: int, at: float) -> None:
    text = spec(SQUARE, floor("2.4 x 1.8", "tile square; joint 3"),
                wall("A", f"tile square; joint 3; {start}", "window 0.6 x 0.9; 0.6 from left, 1.15 up"))
    assert edges(layout(text, "wall A"), axis) == {round(at % 303, 3)}


@pytest.mark.parametrize(("start", "across", "up"), [
    ("joint on centre", 1201.5, 901.5), ("tile on centre", 1050, 750), ("joint on centre across; tile on centre up", 1201.5, 750),
    ("tile on drain", 450 - 150, 600 - 150), ("joint on drain", 451.5, 601.5), ("full tile at wall D", 5, None),
    ("full tile at wall B", 2095, None), ("full tile at wall A", None, 5), ("full tile at wall C", None, 1495),
    ("start at 0.6 from wall D, 0.3 from wall A", 600, 300),
])
def test_where_a_floor_starts(start: str, across: float | None, up: float | None) -> None:
    text = spec("tile square 300x300x9 porcelain; weight 20 kg/m2; barefoot class B", floor(
        "2.4 x 1.8", f"tile square; joint 3; {start}", "fall 1:60 four planes; drain 0.45 from wall D, 0.6 from wall A",
    ))
    for axis, at in enumerate((across, up)):
        if at is not None:
            assert edges(layout(text, "floor"), axis) == {round(at % 303, 3)}


@pytest.mark.parametrize(("letter", "axis", "at"), [("A", 1, 5), ("B", 0, 2095), ("C", 1, 1495), ("D", 0, 5)])
def test_a_full_tile_at_the_door(letter: str, axis: int, at: float) -> None:
    text = spec(SQUARE, floor("2.4 x 1.8", "tile square; joint 3; full tile at door"),
                wall(letter, "tile square; joint 3", "door 0.8 x 2.0; 0.4 from left"))
    x = layout(text, "floor")
    assert edges(x, axis) == {round(at % 303, 3)}
    assert x.begin.words[axis].words == f"full tile at the door in wall {letter}"


def test_the_first_tile_is_a_full_one_at_the_lines_to_snap() -> None:
    """Joint on centre of wall A, datum: the upright line at 1200, the level one at 1000, and a tile that touches both."""
    on = "tile square; joint 3"
    text = spec(SQUARE, floor("2.4 x 1.8", on), wall("A", f"{on}; joint on centre; full tile at datum"))
    begin = layout(text, "wall A").begin
    assert (mm(begin.across), mm(begin.up)) == (1200, 1000)
    assert ring(begin.first) == [(1201.5, 1000), (1501.5, 1000), (1501.5, 1300), (1201.5, 1300)]
    assert begin.found == () and begin.chosen is None


def test_a_measured_work_size_is_what_is_laid() -> None:
    """597 in place of 600, joint 3: joints on 600; from 5: 3 x 600 = 1800, left 590 of 2390."""
    own = "tile large 600x300x9 porcelain rectified; weight 20 kg/m2; work size 597 x 297"
    on = "tile large; joint 3"
    text = spec(own, floor("2.4 x 1.8", on), wall("A", f"{on}; full tile at left; full tile at floor"))
    x = layout(text, "wall A")
    assert (mm(x.width), mm(x.height)) == (597, 297)
    assert {mm(r.width) for r in x.rows} == {590, 597}
    # Upwards 2390 = 7 x 300 + 290.
    assert x.full.value == 3 * 7
