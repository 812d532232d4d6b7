"""What cannot lie where it is said, and what can. All numbers by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.job.spec import TILE, said, surface
from tilespec.job import plan as plans
from tilespec.job.context import Context
from tilespec.job.types import Rect, WallLine
from tilespec.practice.lookup import practice
from tilespec.quantity import UNITS, Given, Kind, Quantity
from tilespec.source import Source, Span
from tilespec.syntax.parse import parse

HEAD = TILE + "tile blue 100x100x9 porcelain; weight 20 kg/m2\n"
HEAD += 'room "Bathroom" height 2.4\nfloor 2.4 x 1.8\n  tile white; joint 3\n'
U_SHAPE = "floor walk A 3.0, B 2.0, C 1.0, D 0.5, corner external, E 1.0, corner external, F 0.5, G 1.0, H 2.0\n"


def wall(*lines: str) -> list[str]:
    return said(HEAD + "wall A\n  tile white; joint 3\n" + "".join(f"  {line}\n" for line in lines))


WINDOW = "window 0.6 x 0.9; 0.6 from left, 1.2 up"


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("niche 0.3 x 0.3; 1.2 from left, 1.2 up; 0.09 deep", []),                        # beside it, touching
        ("niche 0.3 x 0.3; 0.6 from left, 0.9 up; 0.09 deep", []),                        # below it, touching
        ("niche 0.3 x 0.3; 1.19 from left, 1.2 up; 0.09 deep", ["openings-overlap"]),
        ("niche 0.3 x 0.3; 0.7 from left, 1.3 up; 0.09 deep", ["openings-overlap"]),      # inside it
        ("opening 0.3 x 0.3; 1.1 from left, 1.2 up", ["openings-overlap"]),
        ("pipe 0.9 from left, 1.5 up", ["openings-overlap"]),
        ("socket 1.1 from left, 2.0 up", ["openings-overlap"]),
        ("pipe 0.6 from left, 1.5 up", []),                                                # on its edge
        ("pipe 0.9 from left, 1.1 up", []),
        ("mirror 0.6 x 0.8; 0.6 from left, 1.2 up", []),                                   # may hang before it
    ],
)
def test_beside_a_window(line: str, names: list[str]) -> None:
    assert wall(WINDOW, line) == names
    assert wall(line, WINDOW) == names


def test_a_valve_may_be_in_a_niche() -> None:
    assert wall("niche 0.6 x 0.3; 0.9 from left, 1.2 up; 0.09 deep", "valve 1.2 from left, 1.3 up; diameter 60") == []


def test_a_valve_of_a_shower_is_not_in_the_window() -> None:
    text = HEAD + "wall A\n  tile white; joint 3\n  window 0.4 x 0.9; 0.3 from left, 1.2 up\nwall D\n  tile white; joint 3\n"
    shower = "shower in corner D A, 0.9 x 0.9; tray; valve on wall A {} from left, 1.4 up\n"
    assert said(text + shower.format("0.8")) == []
    assert said(text + shower.format("0.5")) == ["openings-overlap"]


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("pipe 0.055 from left, 0.5 up; diameter 110", []),
        ("pipe 0.04 from left, 0.5 up; diameter 110", ["outside-surface"]),
        ("pipe 0.04 from right, 0.5 up; diameter 110", ["outside-surface"]),
        ("pipe 0.5 from left, 0.04 up; diameter 110", []),   # the wall goes on below the finished floor
        ("pipe 0.5 from left, 0.04 from top; diameter 110", ["outside-surface"]),
        ("window 2.4 x 0.9; 0 from left, 1.2 up", []),
        ("window 2.5 x 0.9; 0 from left, 1.2 up", ["outside-surface"]),
        ("window 2.5 x 1.5; 0 from left, 1.2 up", ["outside-surface"]),
    ],
)
def test_the_edges_of_a_wall(line: str, names: list[str]) -> None:
    assert wall(line) == names


@pytest.mark.parametrize(
    ("heights", "left", "up", "fits"),
    [
        # From 2.4 on the left to 2.0 on the right, over 2.4: at 1.2 + 0.6 = 1.8 the wall is 2.4 - 0.4 x 1.8 / 2.4 = 2.1 high.
        ("heights left 2.4, right 2.0", "1.2", "1.2", True),
        ("heights left 2.4, right 2.0", "1.2", "1.23", False),
        ("heights left 2.0, right 2.4", "1.2", "1.2", True),
        ("heights left 2.0, right 2.4", "0.6", "1.2", True),     # at 0.6: 2.0 + 0.4 x 0.6 / 2.4 = 2.1
        ("heights left 2.0, right 2.4", "0.5", "1.24", False),
        # What a tape gives is no slope.
        ("heights left 2.41, right 2.39", "1.7", "1.5", True),
    ],
)
def test_under_a_sloping_top(heights: str, left: str, up: str, fits: bool) -> None:
    text = f"wall A 2.4 x 2.4\n  {heights}\n  tile white; joint 3\n  window 0.6 x 0.9; {left} from left, {up} up\n"
    assert said(HEAD + text) == ([] if fits else ["outside-surface"])


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("tile blue; joint 3; band 0.2 high, bottom 1.0 up", []),
        ("tile blue; joint 3; band 0.2 high, bottom 1.1 up", ["outside-surface"]),
        ("tile blue; joint 3; panel 0.6 x 0.2; 0.6 from left, 1.0 up", []),
        ("tile blue; joint 3; panel 0.6 x 0.6; 0.6 from left, 1.0 up", ["outside-surface"]),
        ("niche 0.3 x 0.3; 0.6 from left, 0.9 up; 0.09 deep", []),
        ("niche 0.3 x 0.3; 0.6 from left, 1.0 up; 0.09 deep", ["outside-surface"]),
        ("movement joint 1.1 up", []),
        ("movement joint 1.2 up", ["outside-surface"]),
        ("window 0.6 x 0.9; 0.6 from left, 1.2 up", []),
        ("socket 0.6 from left, 1.6 up", []),
    ],
)
def test_above_what_is_tiled(line: str, names: list[str]) -> None:
    assert wall("tiled to 1.2", line) == names


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("drain 0.055 from wall D, 0.4 from wall A; diameter 110", []),
        ("drain 0.04 from wall D, 0.4 from wall A; diameter 110", ["outside-surface"]),
        ("drain 0.4 from wall D, 0.04 from wall C; diameter 110", ["outside-surface"]),
        ("channel along wall A, 2.4 long, 0.05 from wall A, 0 from wall D", []),
        ("channel along wall A, 2.4 long, 0.05 from wall A, 0.1 from wall D", ["outside-surface"]),
        ("channel along wall B, 1.7 long, 0.05 from wall B, 0.05 from wall C", []),
        ("channel along wall B, 1.8 long, 0.05 from wall B, 0.05 from wall C", ["outside-surface"]),
    ],
)
def test_the_edges_of_a_floor(line: str, names: list[str]) -> None:
    assert said(TILE + f"floor 2.4 x 1.8\n  tile white; joint 3\n  {line}\n") == names


@pytest.mark.parametrize(
    ("line", "names"),
    [
        # A projection comes 0.5 into the room from wall C, between 1.0 and 2.0 from wall H.
        ("untiled 2.8 x 1.3; 0.1 from wall H, 0.1 from wall A", []),
        ("untiled 2.8 x 1.8; 0.1 from wall H, 0.1 from wall A", ["outside-surface"]),
        ('fixture "bench" 0.8 x 0.4; 0.1 from wall H, 0.05 from wall G', []),
        ('fixture "bench" 2.8 x 0.4; 0.1 from wall H, 0.05 from wall G', ["outside-surface"]),
        ("drain 1.5 from wall H, 1.5 from wall A", []),
        ("drain 1.5 from wall H, 1.46 from wall A; diameter 110", ["outside-surface"]),
    ],
)
def test_a_floor_with_a_projection(line: str, names: list[str]) -> None:
    assert said(TILE + U_SHAPE + f"  tile white; joint 3\n  {line}\n") == names


@pytest.mark.parametrize(("deep", "names"), [("1.9", []), ("2.0", ["walk-crosses"]), ("2.5", ["walk-crosses"])])
def test_a_walk_that_crosses_itself(deep: str, names: list[str]) -> None:
    """A projection as deep as the room reaches the wall across."""
    walk = U_SHAPE.replace("D 0.5", f"D {deep}").replace("F 0.5", f"F {deep}")
    assert said(TILE + walk + "  tile white; joint 3\n") == names


def _plan(text: str) -> plans.Plan:
    st = parse(Source("job.tilespec", text)).value.statements[0]
    found = plans.walk(st, st.lines[0].attributes[0], (), "Bathroom", Context(practice("EN")))
    assert found is not None
    return found


def _q(value: F) -> Quantity:
    return Quantity(value, Kind.LENGTH, UNITS["m"], Given(Span("job.tilespec", 0, 0)))


def test_a_rectangle_in_a_room_against_all_its_points() -> None:
    """Brute force: a rectangle lies in the room when a grid of its points does."""
    room = _plan(U_SHAPE)
    step, found = F(1, 4), set()
    for n in range(12 * 8):
        x, y = step * (n % 12), step * (n // 12)
        for w in (step, 3 * step, 6 * step, 12 * step):
            for h in (step, 2 * step, 5 * step):
                grid = ((x + w * i / 12, y + h * k / 12) for i in range(1, 12) for k in range(1, 12))
                inside = all(plans.inside(room, *p) for p in grid) and x + w <= 3 and y + h <= 2
                assert plans.rect_inside(room, Rect(_q(x), _q(y), _q(w), _q(h))) == inside, (x, y, w, h)
                found.add(inside)
    assert found == {True, False}


def test_how_narrow_a_room_is() -> None:
    # Between A and the projection's E: 1.5; beside it, H to D and F to B: 1.0.
    assert plans.narrowest(_plan(U_SHAPE)) == 1
    assert plans.narrowest(_plan("floor walk A 2.4, B 1.8, C 2.4, D 1.8\n")) == F("1.8")


def test_walls_that_only_touch_at_their_corner_do_not_cross() -> None:
    assert plans.crossing(_plan(U_SHAPE).walls) is None
    o, one = F(0), F(1)
    walls = tuple(
        WallLine(letter, a, b, _q(one), False)
        for letter, a, b in (
            ("A", (o, o), (one, o)), ("B", (one, o), (one, one)), ("C", (one, one), (o, one)), ("D", (o, one), (o, o)),
        )
    )
    assert plans.crossing(walls) is None


def test_a_floor_that_cannot_be_read_hides_nothing_else() -> None:
    text = TILE + 'room "Bathroom" height 2400\nfloor 2.4 x 1800\n  base bamboo\n  tile white; joint 3\nwall A\n  tile wihte\n'
    assert sorted(said(text)) == ["implausible-value", "implausible-value", "unknown-substrate", "unknown-tile"]
    # What hangs on the size of the floor is not judged.
    text = TILE + "floor 2.4 x 1800\n  tile white; joint 3\n  drain 0.4 from wall E, 0.4 from wall A\n"
    text += "wall A\n  door 9 x 2; 59 from left\n"
    assert said(text) == ["implausible-value"]


@pytest.mark.parametrize("words", ["tile backer board", "tile-backer board", "cement backer board", "foam board"])
def test_a_backer_board_is_no_product(words: str) -> None:
    base = surface(f"{TILE}wall A 2.4 x 2.4\n  base {words}; thickness 12\n  tile white; joint 3\n", "A").base
    assert base.kind == ("cement-board" if words.startswith("cement") else "tile-backer-board")
    assert base.thickness is not None and base.words is not None and base.words.text == words
