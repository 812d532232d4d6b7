"""Patterns, starts, borders and movement joints: what a spec says of the set-out, in the job. Numbers by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.job.spec import job, said
from tilespec.job.types import Covering, Pattern, Start, Surface
from tilespec.quantity import Default, Given

HEAD = """\
tile big 300x300x9 porcelain; weight 20 kg/m2
tile small 100x100x9 porcelain; weight 20 kg/m2
tile brick 198x98x9 porcelain; weight 20 kg/m2
tile plank 600x100x9 porcelain; weight 20 kg/m2
room "Bathroom" height 2.4
datum 1.0 above finished floor
"""
ROOM = """\
floor 2.4 x 1.8
  tile big; joint 3{floor}
  drain 0.45 from wall D, 0.45 from wall A
wall A
  tile plank; joint 3{wall}
  window 0.6 x 0.9; 0.6 from left, 1.2 up
wall B
  tile plank; joint 3
wall C
  tile plank; joint 3{door}
  door 0.8 x 2.0; 0.9 from left
"""


def surface(text: str, letter: str) -> Surface:
    found = job(HEAD + text).rooms[0].surface(letter)
    assert found is not None
    return found


def field(text: str, letter: str = "") -> Covering:
    found = surface(text, letter).field
    assert found is not None
    return found


def pattern(words: str) -> Pattern:
    return field(f"floor 2.4 x 1.8\n  tile {words}; joint 2\n").pattern


def on_floor(start: str) -> Start:
    return field(ROOM.format(floor=f"; {start}", wall="", door=""), "").start


def on_wall(start: str) -> Start:
    return field(ROOM.format(floor="", wall=f"; {start}", door=""), "A").start


def mm(start: Start) -> tuple[F, F]:
    assert start.x is not None and start.y is not None
    return start.x.mm, start.y.mm


# ---------------------------------------------------------------- patterns


@pytest.mark.parametrize(
    ("words", "name", "features"),
    [
        ("big; straight", "straight", set()),
        ("big; diagonal", "diagonal", {"turned"}),
        ("brick; half bond", "half", set()),
        ("brick; vertical half bond", "half", {"upright"}),
        ("brick; vertical third bond stepped", "third", {"upright", "stepped"}),
        ("brick; vertical; run 50", "run", {"upright"}),
        ("brick; diagonal half bond", "half", {"turned"}),
        ("brick; stack offset", "half", set()),
        # In the trade the plain word means slantwise to the walls. From memory.
        ("brick; herringbone", "herringbone", {"turned"}),
        ("brick; diagonal herringbone", "herringbone", {"turned"}),
        ("brick; straight herringbone", "herringbone", set()),
        ("plank; double herringbone", "herringbone", {"turned", "double"}),
        ("plank; double straight herringbone", "herringbone", {"double"}),
        ("brick; basket weave", "basket", set()),
        ("brick; diagonal basket weave", "basket", {"turned"}),
        ("big; modular with small", "modular", set()),
    ],
)
def test_patterns(words: str, name: str, features: set[str]) -> None:
    found = pattern(words)
    assert found.name == name and found.given and found.span is not None
    assert {f for f in ("stepped", "upright", "double", "turned") if getattr(found, f)} == features


def test_the_second_tile_of_two_sizes() -> None:
    found = job(HEAD + "floor 2.4 x 1.8\n  tile big; joint 2; modular with small\n")
    covering = found.surfaces[0].coverings[0]
    assert covering.tile.name == "big" and covering.pattern.second is not None and covering.pattern.second.name == "small"
    assert [t.name for t in found.tiles] == ["big", "small"]


def _covered(long: int, short: int, pairs: int) -> set[int]:
    """How often each cell of a square of unit cells is covered by a herringbone of tiles of whole sides, by counting.

    Rows of lying tiles, each one width (of a pair) further on and up; a standing tile on the left end of each.
    """
    unit, size = short * pairs, 40
    count: dict[tuple[int, int], int] = {}
    for i in range(-40, 41):
        for k in range(-40, 41):
            for p in range(pairs):
                x, y = i * unit + k * long, i * unit - k * long
                boxes = ((x, y + p * short, long, short), (x + p * short, y + unit, short, long))
                for left, low, wide, high in boxes:
                    for a in range(max(left, 0), min(left + wide, size)):
                        for b in range(max(low, 0), min(low + high, size)):
                            count[a, b] = count.get((a, b), 0) + 1
    return {count.get((a, b), 0) for a in range(size) for b in range(size)}


@pytest.mark.parametrize(("long", "short"), [(2, 1), (3, 1), (3, 2), (5, 2), (7, 3), (5, 4)])
def test_a_herringbone_closes_with_any_length(long: int, short: int) -> None:
    """Why no ratio is asked for: every cell is covered once, by counting, whole multiple of the width or not."""
    assert _covered(long, short, 1) == {1}
    assert said(f"tile t {long * 60}x{short * 60}x9 porcelain\nfloor 2.4 x 1.8\n  tile t; joint 2; herringbone\n") == []


@pytest.mark.parametrize(("long", "short", "fits"), [(3, 1, True), (5, 2, True), (7, 2, True), (2, 1, False), (3, 2, False)])
def test_a_double_herringbone_needs_a_tile_longer_than_two_widths(long: int, short: int, fits: bool) -> None:
    """Two widths or less make a pair that is square, or lies across its tiles. With joints: 2 x (98 + 2) = 198 + 2."""
    if fits:
        assert _covered(long, short, 2) == {1}
    sides = f"{long * 100 - 2}x{short * 100 - 2}"
    found = said(f"tile t {sides}x9 porcelain\nfloor 2.4 x 1.8\n  tile t; joint 2; double herringbone\n")
    assert found == ([] if fits else ["pattern-impossible"])


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("big; herringbone", "pattern-impossible"),
        ("small; modular with big", "pattern-impossible"),
        ("big; modular with big", "pattern-impossible"),
        ("plank; modular with small", "pattern-impossible"),
        ("big; modular with plank", "pattern-impossible"),
        ("big; modular with medium", "unknown-tile"),
        ("big; modular with small; half bond", "said-twice"),
        ("brick; half third", "said-twice"),
        ("brick; half; run 50", "said-twice"),
        ("brick; straight diagonal herringbone", "said-twice"),
        ("brick; stepped", "missing-detail"),
        ("brick; double half bond", "unknown-description"),
        ("brick; vertical basket weave", "unknown-description"),
    ],
)
def test_patterns_that_cannot_be(words: str, name: str) -> None:
    assert said(HEAD + f"floor 2.4 x 1.8\n  tile {words}; joint 2\n") == [name]


def test_a_pattern_at_the_margin_is_judged_too() -> None:
    assert said(HEAD + "tile big; joint 2; herringbone\nfloor 2.4 x 1.8\n") == ["pattern-impossible"]


def test_two_sizes_belong_to_their_tile() -> None:
    """Another tile in the same room does not take the small one over."""
    text = "tile big; joint 2; modular with small\nfloor 2.4 x 1.8\nwall A\n  tile plank; joint 2\n"
    assert field(text).pattern.name == "modular" and field(text, "A").pattern.name == "straight"


def test_the_measured_size_turns_with_the_tile() -> None:
    text = "tile slab 300x600x9 porcelain{}; work size 297 x 597\nfloor 2.4 x 1.8\n  tile slab; joint 3{}\n"
    for words in ((" landscape", ""), ("", "; landscape")):
        tile = field(text.format(*words)).tile
        assert (tile.width.mm, tile.height.mm) == (600, 300)
        assert tile.work_width is not None and tile.work_height is not None
        assert (tile.work_width.mm, tile.work_height.mm) == (597, 297)


# ---------------------------------------------------------------- starts


@pytest.mark.parametrize(
    ("start", "across", "up"),
    [
        ("joint on centre", "joint on centre", "found"),
        ("tile on centre up", "found", "tile on centre"),
        ("joint on center both ways", "joint on centre", "joint on centre"),
        ("joint on centre; tile on centre up", "joint on centre", "tile on centre"),
        ("tile on window", "tile on window", "found"),
        ("joint on window up; full tile at left", "from left", "joint on window"),
        ("full tile at window; full tile at datum", "full tile at window", "full tile at datum"),
        ("full tile at wall D", "from left", "found"),
        ("start from wall B; start from floor", "from right", "full tile at floor"),
        ("start from right; start from ceiling", "from right", "from top"),
        ("full tile at top", "found", "full tile at top"),
    ],
)
def test_starts_on_a_wall(start: str, across: str, up: str) -> None:
    found = on_wall(start)
    assert (found.across, found.up) == (across, up)


@pytest.mark.parametrize(
    ("start", "across", "up"),
    [
        ("tile on drain", "tile on drain", "tile on drain"),
        ("full tile at drain", "tile on drain", "tile on drain"),
        ("joint on drain across; joint on centre up", "joint on drain", "joint on centre"),
        # The door is in wall C, along x: away from it is y, along it x.
        ("full tile at door", "found", "full tile at door"),
        ("full tile at door; joint on centre", "joint on centre", "full tile at door"),
        ("tile on door", "tile on door", "found"),
        ("tile on centre", "tile on centre", "tile on centre"),
        ("tile on centre across", "tile on centre", "found"),
        ("joint on centre; full tile at wall A", "joint on centre", "full tile at floor"),
        ("tile on centre up; full tile at wall B", "from right", "tile on centre"),
        ("full tile at wall C; full tile at wall D", "from left", "full tile at top"),
    ],
)
def test_starts_on_a_floor(start: str, across: str, up: str) -> None:
    found = on_floor(start)
    assert (found.across, found.up) == (across, up)


def test_a_door_in_a_side_wall() -> None:
    text = "floor 2.4 x 1.8\n  tile big; joint 3; {}\nwall B\n  tile plank; joint 3\n  door 0.8 x 2.0; 0.5 from left\n"
    at, on = (field(text.format(start)).start for start in ("full tile at door", "joint on door"))
    assert (at.across, at.up, on.across, on.up) == ("full tile at door", "found", "found", "joint on door")


def test_an_opening_down_to_the_floor_is_a_door_where_there_is_no_other() -> None:
    text = "floor 2.4 x 1.8\n  tile big; joint 3; full tile at door\nwall C\n  tile plank; joint 3\n  opening 0.8 x 2.0; {}\n"
    assert field(text.format("0.5 from left, 0 up")).start.up == "full tile at door"
    assert said(HEAD + text.format("0.5 from left, 0.3 up")) == ["start-nowhere"]


def test_each_direction_has_its_place_in_the_text() -> None:
    text = HEAD + ROOM.format(floor="", wall="; full tile at datum; joint on centre", door="")
    start = field(text.removeprefix(HEAD), "A").start
    assert start.span is not None and start.up_span is not None
    assert text[start.span.start : start.span.end] == "joint on centre"
    assert text[start.up_span.start : start.up_span.end] == "full tile at datum"
    assert on_floor("tile on drain").up_span is None


@pytest.mark.parametrize(
    ("place", "x", "y"),
    [
        ("0.6 from left, 1.2 up", 600, 1200),
        ("1.2 up, 0.6 from left", 600, 1200),
        # To its nearest edges: 2400 - 600 - 600 (the plank is 600 wide), 2400 - 300 - 100.
        ("0.6 from right, 0.3 from top", 1200, 2000),
        ("0.6 from wall B, 0.2 above datum", 1200, 1200),
    ],
)
def test_a_point_on_a_wall(place: str, x: int, y: int) -> None:
    found = on_wall(f"start at {place}")
    assert (found.across, found.up) == ("point", "point") and mm(found) == (x, y)


def test_a_point_on_a_floor() -> None:
    assert mm(on_floor("start at 0.6 from wall D, 0.3 from wall A")) == (600, 300)
    # 2400 - 600 - 300 and 1800 - 300 - 300: the tile is 300 square.
    assert mm(on_floor("start at 0.6 from wall B, 0.3 from wall C")) == (1500, 1200)
    # Laid slantwise there is no nearest edge: the corner itself.
    assert mm(on_floor("diagonal; start at 0.6 from wall B, 0.3 from wall C")) == (1800, 1500)


def test_a_panel_with_a_start_of_its_own() -> None:
    text = "wall A 2.4 x 2.4\n  tile big; joint 3\n  tile small; joint 3; {}\n"
    for words in (
        "panel 0.6 x 0.6; 1.5 from left, 1.6 up; start at 1.7 from left, 1.8 up",
        "start at 1.7 from left, 1.8 up; panel 0.6 x 0.6; 1.5 from left, 1.6 up",
    ):
        panel = surface(text.format(words), "A").coverings[1]
        assert panel.region is not None and (panel.region.x.mm, panel.region.y.mm) == (1500, 1600)
        assert mm(panel.start) == (1700, 1800)


@pytest.mark.parametrize(
    ("start", "name"),
    [
        ("joint on centre; tile on centre", "said-twice"),
        ("joint on centre both ways; full tile at datum", "said-twice"),
        ("start at 0.6 from left, 1.2 up; joint on centre", "said-twice"),
        ("tile on door", "start-nowhere"),
        ("tile on drain", "start-nowhere"),
        ("joint on windw", "unknown-choice"),
        ("joint on centre sideways", "unknown-choice"),
        ("full tile at wall C", "unknown-wall"),
        ("start at 2.5 from left, 1.2 up", "outside-surface"),
        ("start at 0.6 from left, 2.5 up", "outside-surface"),
        ("start at 1.2 up", "missing-detail"),
        ("start at 1.2 up, 0.6 up", "missing-detail"),
    ],
)
def test_starts_that_cannot_be_on_a_wall(start: str, name: str) -> None:
    assert said(HEAD + ROOM.format(floor="", wall=f"; {start}", door="")) == [name]


@pytest.mark.parametrize(
    ("start", "name"),
    [
        ("full tile at window", "start-nowhere"),
        ("full tile at datum", "start-nowhere"),
        ("tile on door up", "start-nowhere"),
        ("tile on drain; joint on centre", "said-twice"),
        ("full tile at wall E", "unknown-wall"),
        ("start at 2.5 from wall D, 0.3 from wall A", "outside-surface"),
        ("start at 0.6 from wall D, 0.3 from wall B", "missing-detail"),
    ],
)
def test_starts_that_cannot_be_on_a_floor(start: str, name: str) -> None:
    assert said(HEAD + ROOM.format(floor=f"; {start}", wall="", door="")) == [name]


def test_courses_do_not_start_on_the_middle_of_a_door() -> None:
    assert said(HEAD + ROOM.format(floor="", wall="", door="; tile on door up")) == ["start-nowhere"]


def test_what_could_not_be_read_is_not_missed() -> None:
    """The window, the door and the drain are the mistakes, not the starts at them."""
    wall = "wall A 2.4 x 2.4\n  tile plank; joint 3; tile on window\n  window 0.6 x 0.9; 2.1 from left, 1.2 up\n"
    floor = "floor 2.4 x 1.8\n  tile big; joint 3; {}\n  drain 9 from wall D, 0.4 from wall A\n"
    floor += "wall A\n  tile big; joint 3\n  door 0.8 x 2.0; 9 from left\n"
    assert said(HEAD + wall) == ["outside-surface"]
    for start in ("tile on drain", "full tile at door"):
        assert said(HEAD + floor.format(start)) == ["outside-surface", "outside-surface"]


def test_a_start_at_the_margin_holds_where_it_can() -> None:
    text = "tile big; joint 3; tile on window; full tile at datum; joints follow floor\n"
    text += ROOM.replace("tile plank; joint 3", "")
    text = text.replace("  {wall}\n", "").replace("  {door}\n", "").replace("wall B\n  \n", "wall B\n")
    starts = {s.letter: s.field.start for s in job(HEAD + text.format(floor="")).surfaces if s.field}
    assert (starts["A"].across, starts["A"].up) == ("tile on window", "full tile at datum")
    assert (starts["B"].across, starts["B"].up) == ("found", "full tile at datum")
    assert (starts[""].across, starts[""].up) == ("found", "found")
    assert [starts[x].follows for x in ("", "A", "B", "C")] == [(), ("floor",), ("floor",), ("floor",)]


def test_a_surface_says_one_direction_anew() -> None:
    text = "tile plank; joint 3; joint on centre; full tile at datum\nwall A 2.4 x 2.4\n  tile plank; {}\n"
    both = field(text.format("tile on centre"), "A").start
    assert (both.across, both.up) == ("tile on centre", "full tile at datum")
    both = field(text.format("full tile at floor"), "A").start
    assert (both.across, both.up) == ("joint on centre", "full tile at floor")
    point = field(text.format("start at 0.6 from left, 1.2 up"), "A").start
    assert (point.across, point.up) == ("point", "point")


# ---------------------------------------------------------------- joints that run on


def test_what_joints_follow() -> None:
    assert on_wall("joints follow floor").follows == ("floor",)
    assert on_wall("joints follow wall B; joints follow floor").follows == ("wall B", "floor")
    assert on_floor("joints follow wall C").follows == ("wall C",)
    text = "wall A 2.4 x 2.4\n  tile big; joint 3\n  niche 0.6 x 0.3; 0.9 from left, 1.2 up; 0.09 deep; joints follow field\n"
    assert surface(text, "A").niches[0].start.follows == ("field",)
    text = "wall A 2.4 x 2.4\n  tile big; joint 3\n  tile small; panel 0.6 x 0.6; 1.5 from left, 1.6 up; joints follow field\n"
    assert surface(text, "A").coverings[1].start.follows == ("field",)


@pytest.mark.parametrize(
    ("floor", "wall", "names"),
    [
        ("", "joints follow wall C", ["follow-impossible"]),
        ("", "joints follow wall A", ["follow-impossible"]),
        ("", "joints follow wall D", ["follow-impossible"]),            # not tiled
        ("", "joints follow wall E", ["unknown-wall"]),
        ("", "joints follow field", ["follow-impossible"]),
        ("", "joints follow ceiling", ["unknown-choice"]),
        ("joints follow floor", "", ["follow-impossible"]),
        ("joints follow wall A", "joints follow floor", ["follow-impossible"]),
    ],
)
def test_what_joints_cannot_follow(floor: str, wall: str, names: list[str]) -> None:
    assert said(HEAD + ROOM.format(floor=f"; {floor}", wall=f"; {wall}", door="")) == names


# ---------------------------------------------------------------- borders and movement joints


def test_a_border() -> None:
    text = "floor 2.4 x 1.8\n  tile small; joint 3; border 0.15 wide\n  tile big; joint 3\n"
    one, other = surface(text, "").coverings
    assert (one.role, one.border, other.role, other.region) == ("field", None, "border", None)
    assert other.border is not None and other.border.mm == 150


L_SHAPE = "floor walk A 3.2, B 2.6, C 1.7, corner external, D 0.7, E 1.5, F 3.3\n"


@pytest.mark.parametrize(
    ("room", "wide", "fits"),
    [
        ("floor 2.4 x 1.8\n", "0.89", True),
        ("floor 2.4 x 1.8\n", "0.9", False),
        # The arm between walls F and D is 1.5 wide.
        (L_SHAPE, "0.74", True),
        (L_SHAPE, "0.75", False),
        ("wall A 2.4 x 1.2\n", "0.59", True),
        ("wall A 2.4 x 1.2\n", "0.6", False),
    ],
)
def test_a_border_leaves_a_field(room: str, wide: str, fits: bool) -> None:
    assert said(HEAD + room + f"  tile big; joint 3\n  tile small; joint 3; border {wide} wide\n") == (
        [] if fits else ["border-too-wide"]
    )


@pytest.mark.parametrize(
    ("letter", "line", "x", "y"),
    [
        ("A", "movement joint 1.2 from left", 1200, None),
        ("A", "movement joint 1.0 from right", 1400, None),
        ("A", "movement joint 1.2 up", None, 1200),
        ("A", "movement joint 0.2 above datum", None, 1200),
        ("", "movement joint 1.0 from wall D", 1000, None),
        ("", "movement joint 1.0 from wall B", 1400, None),
        ("", "movement joint 0.5 from wall C", None, 1300),
    ],
)
def test_movement_joints(letter: str, line: str, x: int | None, y: int | None) -> None:
    room = ROOM.format(floor="", wall="", door="").replace("floor 2.4 x 1.8\n", "floor 2.4 x 1.8\n  {floor}\n")
    room = room.replace("\nwall A\n", "\nwall A\n  {wall}\n").format(
        floor=line if not letter else "# none", wall=line if letter else "# none"
    )
    (found,) = surface(room, letter).movement_joints
    assert (found.x and found.x.mm, found.y and found.y.mm) == (x, y)


def test_the_width_of_a_movement_joint() -> None:
    """Said, or the practice's for that place: marked and asked. EN: corner of walls 5 mm, floor 5 mm, heated floor 10 mm."""
    text = "floor 4.8 x 3.6{}\n  tile big; joint 3\n  movement joint 2.4 from wall D{}\n"
    text += "wall A\n  tile big\n  movement joint 2.4 from left\n"
    for words, width, kind in ((("", "; width 8"), 8, Given), (("", ""), 5, Default), ((" heated", ""), 10, Default)):
        found = job(HEAD + text.format(*words))
        joint = found.rooms[0].surfaces[0].movement_joints[0]
        assert joint.width.mm == width and isinstance(joint.width.why, kind)
        asked = {q.about for q in found.questions if q.topic == "movement-joint"}
        assert asked == {"Bathroom/wall A"} | ({"Bathroom/floor"} if kind is Default else set())


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("movement joint 0 from left", "outside-surface"),
        ("movement joint 2.4 from left", "outside-surface"),
        ("movement joint 2.4 up", "outside-surface"),
        ("movement joint 1.2 from wall C", "unknown-wall"),
        ("movement joint", "missing-detail"),
        ("movement joint 1.2 from left, 1.2 up", "missing-detail"),
        ("movement joint 1.2 from left\n  movement joint 1.2 from right", "said-twice"),
        ("movement joint 1.2 from left; width 0.008", "implausible-value"),
    ],
)
def test_movement_joints_that_cannot_be(line: str, name: str) -> None:
    assert said(HEAD + f"wall A 2.4 x 2.4\n  tile big; joint 3\n  {line}\n") == [name]
