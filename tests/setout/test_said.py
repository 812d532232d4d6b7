"""Thin cuts that a stated start forces, with the start that cures them: by hand, and against the pieces that are really cut."""

from __future__ import annotations

import random
from fractions import Fraction as F

import pytest

from tests.setout.spec import LARGE, SMALL, SQUARE, floor, layout, mm, plan, spec, wall
from tilespec.setout import said
from tilespec.setout.said import Sliver


def slivers(text: str) -> list[Sliver]:
    made = plan(text)
    return [x for one in said.stated(made.job, made.practice) for x in said.slivers(one, made.practice)]


def told(text: str) -> list[tuple[str, str, float, float, str]]:
    """Surface, end, cut, least and cure in words, mm."""
    return [(x.stated.surface.title, x.where, mm(x.cut), mm(x.least), x.cure.words if x.cure else "") for x in slivers(text)]


def small(size: str, start: str) -> str:
    return spec(SMALL, floor(size, "tile small; joint 2"), wall("A", f"tile small; joint 2; {start}; full tile at top"))


def test_a_sliver_at_one_end() -> None:
    """Wall of 2260, planes at 5 and 2255: 11 modules of 202 are 2222, left 28 of 200; the least is 50. A joint on centre leaves
    1130 - 5 - 1 = 1124 = 5 x 202 + 114 at both ends; from the nearest tile of it to the one said it is 86 mm to the left."""
    (x,) = slivers(small("2.26 x 1.8", "full tile at left"))
    assert (x.where, mm(x.cut), mm(x.least)) == ("right", 28, 50)
    assert x.cure is not None and x.cure.words == "joint on centre"
    assert x.shift is not None and mm(x.shift) == -86


def test_no_sliver_is_no_word() -> None:
    """2330: 2320 - 11 x 202 = 98 at the right, more than 50; upwards 2390 = 11 x 202 + 168."""
    assert told(small("2.33 x 1.8", "full tile at left")) == []


def test_both_ends() -> None:
    """Tile on centre in 2050: 2040 / 2 = 1020 - 100 - 2 = 918 = 4 x 202 + 110, fine. In 1880: 935 - 102 = 833 = 4 x 202 + 25."""
    assert told(small("2.05 x 1.8", "tile on centre")) == []
    assert [(w, c) for _, w, c, _, _ in told(small("1.88 x 1.8", "tile on centre"))] == [("left", 25), ("right", 25)]


def test_at_the_foot_and_at_the_top() -> None:
    """Courses of 303 down from a datum of 1000 begin at 91; under their joint of 3 the bottom one has 88 - 5 = 83 left, more than
    a quarter of 300. From 985 they begin at 76, and 73 - 5 = 68 are left.
    """
    def at(height: str) -> str:
        return spec(LARGE, f"datum {height} above finished floor", floor("2.4 x 1.8", "tile large"),
                    wall("A", "tile large; joint 3; joint on centre; full tile at datum"))

    assert told(at("1.0")) == []
    (x,) = slivers(at("0.985"))
    assert (x.where, mm(x.cut), mm(x.least)) == ("foot", 68, 75)
    assert x.cure is not None and x.cure.words == "full tile at the foot"


def test_on_a_floor() -> None:
    """2390 by 1790, full tile at D: 2390 - 7 x 303 = 269. Full tile at A: 1790 - 5 x 303 = 275; in 1550 deep 1540 - 1515 = 25."""
    on = "tile square; joint 3; full tile at wall D; full tile at wall A"
    assert told(spec(SQUARE, floor("2.4 x 1.8", on))) == []
    assert [(w, c) for _, w, c, _, _ in told(spec(SQUARE, floor("2.4 x 1.55", on)))] == [("foot of the plan", 25)]


def test_under_a_sloping_ceiling_the_thinnest_counts() -> None:
    """Planes end at 2495 at the left, at 2455 at the right. Tiles of 600: 4 x 603 = 2412 and 5 are 2417: 78 to 38 are left."""
    text = spec("tile tall 300x600x9 porcelain; weight 20 kg/m2", floor("2.4 x 1.8", "tile tall"), wall(
        "A 2.4 x 2.5", "heights left 2.5, right 2.46; tile tall; joint 3; joint on centre; full tile at floor",
    ))
    (x,) = slivers(text)
    assert (x.where, mm(x.cut), mm(x.least)) == ("top", 38, 150)


def test_beside_a_wall_that_leans_the_thinnest_counts() -> None:
    """B leans in by 20. A is 2200 - 17 - 5 = 2178 = 7 x 303 + 57 long at its foot; at 2395 up 19.96 less: 37.04."""
    on = "tile square; joint 3; full tile at datum"
    leaning = wall("B", on, "out of plumb 20")
    text = spec(SQUARE, floor("2.2 x 1.8", "tile square"), wall("A", f"{on}; full tile at left"), leaning)
    thin = [x for x in slivers(text) if x.stated.surface.title == "wall A"]
    assert [(x.where, mm(x.cut)) for x in thin] == [("right", 37)]


def test_mosaic_sheets_and_patterns_out_of_course_are_not_judged() -> None:
    text = spec("tile m 300x300x6 mosaic porcelain; weight 14 kg/m2; barefoot class B",
                floor("2.4 x 1.55", "tile m; full tile at wall D; full tile at wall A"))
    assert told(text) == []
    assert told(spec(SQUARE, floor("2.4 x 1.55", "tile square; diagonal; tile on centre"))) == []


@pytest.mark.parametrize("seed", range(40))
def test_against_the_pieces_that_are_cut(seed: int) -> None:
    """A sliver is told where, and only where, the outermost column really is cut thinner than the least; the cure has none."""
    r = random.Random(seed)
    wide, joint = r.randint(150, 320), r.choice((2, 3))
    start = r.choice(("full tile at left", "full tile at right", "joint on centre", "tile on centre"))

    def text(said_: str) -> str:
        on = f"tile small; joint {joint}; {said_}; full tile at top"
        return spec(SMALL, floor(f"{wide / 100} x 1.8", "tile small"), wall("A", on))

    def thin(said_: str) -> dict[str, float]:
        x = layout(text(said_), "wall A")
        tall = [p.shape.bounds for p in x.pieces if p.shape.bounds[2] - p.shape.bounds[0] < F("0.05")]
        left = {mm(b[2] - b[0]) for b in tall if b[0] == F("0.005")}
        right = {mm(b[2] - b[0]) for b in tall if mm(b[2]) == wide * 10 - 5}
        return {name: min(v) for name, v in (("left", left), ("right", right)) if v}

    found = [x for x in slivers(text(start)) if x.stated.axis == 0]
    assert {x.where: mm(x.cut) for x in found} == thin(start)
    for x in found:
        if x.cure is not None and x.cure.cut is None:
            assert thin(x.cure.words.replace("at the", "at")) == {}
