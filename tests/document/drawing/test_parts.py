"""The parts that drawings are made of, each against something outside or worked by hand."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import combinations
from math import hypot
from pathlib import Path

import pytest
import shapely
from shapely.geometry import LineString, Polygon, box

from tests.document.drawing import rooms
from tests.document.drawing.reading import printed_width
from tilespec.document.drawing import place
from tilespec.document.drawing.dimension import Stop, assumed, lay, standard
from tilespec.document.drawing.gauge import gauge
from tilespec.document.drawing.lettering import SMALL, shorten, width, wrap
from tilespec.document.drawing.scale import SCALES, Made, bar, largest, on_paper, paper, roomy
from tilespec.document.drawing.shape import Box, apart, clip, hatch, inner_outline, inside, union_outline
from tilespec.document.drawing.sheet import Taken
from tilespec.document.drawing.svg import Picture, escape, number, plain
from tilespec.practice.lookup import practice
from tilespec.quantity import UNITS, Worked, given, work
from tilespec.setout import lay as lay_out

ROUND = random.Random(17)


# ---------------------------------------------------------------- numbers as text


@pytest.mark.parametrize(
    "value, unit, text",
    [
        ("2.4", "m", "2400"),
        ("0.3005", "m", "301"),
        ("1200.4", "mm", "1200"),
        ("3", "mm", "3"),
        ("1.5", "mm", "1.5"),
        ("0", "mm", "0"),
        ("-12", "mm", "−12"),
        ("-0.2", "mm", "−0.2"),
        ("94.5", "in", "2400"),
        ("10", "mm", "10"),
    ],
)
def test_metric_is_whole_millimetres(value: str, unit: str, text: str) -> None:
    assert standard("EN")(given(value, unit, rooms.SPAN)) == text


@pytest.mark.parametrize(
    "value, unit, text",
    [
        # 1 in = 25.4 mm exactly (NIST SP 811, B.8); a tape shows sixteenths.
        ("94.5", "in", "7′ 10 1/2″ (2400)"),
        ("96", "in", "8′ 0″ (2438)"),
        ("0.125", "in", "1/8″ (3.2)"),
        ("11.5", "in", "11 1/2″ (292)"),
        ("1", "m", "3′ 3 3/8″ (1000)"),
        ("305", "mm", "1′ 0″ (305)"),
        ("0", "in", "0″ (0)"),
        ("-1", "in", "−1″ (−25)"),
    ],
)
def test_us_is_feet_and_inches_beside_millimetres(value: str, unit: str, text: str) -> None:
    assert standard("US")(given(value, unit, rooms.SPAN)) == text


def test_other_kinds() -> None:
    assert standard("EN")(given(Fraction(1, 60), "slope", rooms.SPAN)) == "1:60"
    assert standard("EN")(given(12, "kg", rooms.SPAN)) == "12 kg"


def test_assumed_is_seen_through_workings() -> None:
    known, guessed = rooms.m("2"), rooms.guess("1")
    assert not assumed(known) and assumed(guessed)
    half = work("length / 2", "m", source="t", length=guessed)
    assert isinstance(half.why, Worked) and assumed(work("a + b", "m", source="t", a=known, b=half))
    assert not assumed(work("a + a", "m", source="t", a=known))


# ---------------------------------------------------------------- lettering


@pytest.mark.parametrize(
    "text",
    [
        "2400 wall B",
        "7′ 10 1/2″ (2400)",
        "ø 110 × 3 · “thermostat” − …",
        "The quick brown fox",
        "Größe, bâti, Świnoujście",
        "Щит ЉЊ",
    ],
)
@pytest.mark.parametrize("weight", ["", "bold"])
def test_lettering_is_never_wider_than_reckoned(text: str, weight: str) -> None:
    printed, reckoned = printed_width(text, SMALL, weight), width(text, SMALL, weight == "bold")
    assert printed <= reckoned + 1e-9
    if not weight and text.isascii():
        assert reckoned == pytest.approx(printed, rel=1e-3)


def test_long_text_is_shortened_and_wrapped_within_its_width() -> None:
    text = "a mirror with a light that is in the client's store"
    assert width(shorten(text, 20, SMALL), SMALL) <= 20 and shorten(text, 20, SMALL).endswith("…")
    assert shorten("rail", 20, SMALL) == "rail"
    for limit in (9.0, 20.0, 60.0):
        lines = wrap(text, limit, SMALL, 20)
        assert all(width(line, SMALL) <= limit for line in lines)
        assert " ".join(lines).replace(" ", "") == text.replace(" ", "")
    assert len(wrap(text, 9, SMALL, 2)) == 2 and wrap(text, 9, SMALL, 2)[-1].endswith("…")
    assert (
        wrap("Donaudampfschifffahrtsgesellschaft", 12, SMALL, 9)
        and "".join(wrap("Donaudampfschiff", 9, SMALL, 9)) == "Donaudampfschiff"
    )
    assert wrap("", 10, SMALL, 3) == ()


# ---------------------------------------------------------------- scale


def test_scales() -> None:
    # ISO 5455 lists 1:10, 1:20, 1:50, 1:100, 1:200 and 1:500 (from memory); the others are on a builder's scale rule.
    assert {10, 20, 50, 100, 200, 500} <= set(SCALES)
    assert on_paper(Fraction("2.4"), 20) == 120
    assert (paper("A4").width, paper("A4").height, paper("Letter").width, paper("Letter").height) == (180, 230, 190, 215)
    with pytest.raises(KeyError):
        paper("foolscap")


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("feet", [False, True])
def test_the_bar_measures_what_it_says(scale: int, feet: bool) -> None:
    b = bar(scale, feet)
    size, unit = b.words.split()
    metres = float(Fraction(size) * UNITS[unit].factor)
    assert b.parts * b.part == pytest.approx(metres * 1000 / scale)
    assert 30 <= b.parts * b.part <= 70


def test_the_largest_scale_with_the_most_detail() -> None:
    assert largest(lambda scale, detail: (scale, detail) if scale >= 25 and detail >= 1 else None) == (25, 1)
    with pytest.raises(ValueError):
        largest(lambda scale, detail: None)


def test_a_smaller_scale_for_the_table_unless_it_tells_less() -> None:
    def attempt(heights: dict[int, float], missing: dict[int, int]) -> int:
        return roomy(lambda s, d: Made(s, heights[s], missing.get(s, 0)) if s in heights else None, 140)

    assert attempt({15: 200, 20: 170, 25: 139, 30: 120}, {}) == 25
    # Nothing gets under 140: what comes near it, and else the largest.
    assert attempt({20: 200, 25: 180, 30: 160}, {}) == 30
    assert attempt({20: 200, 25: 190, 30: 180, 40: 100}, {}) == 20
    assert attempt({20: 200, 25: 139, 30: 120}, {25: 1, 30: 1}) == 20
    assert attempt({20: 130, 25: 100}, {}) == 20


def test_what_is_taken_is_found_again() -> None:
    taken, all_ = Taken(), []
    for _ in range(200):
        x, y = ROUND.uniform(-20, 180), ROUND.uniform(-20, 230)
        b = Box(x, y, x + ROUND.uniform(0.5, 30), y + ROUND.uniform(0.5, 12))
        assert taken.meets(b) == any(b.meets(o) for o in all_)
        taken.append(b)
        all_.append(b)


# ---------------------------------------------------------------- the gauge rod


@pytest.mark.parametrize(
    "across, up, marks, words",
    [
        # 600 x 300 tiles, joint 3, wall 2400 x 2400 between untiled neighbours (corner joints of 5), datum at 1000; by hand.
        ("joint on centre", "full tile at datum", ((603, 603), (303, 606, 909, 303, 606, 909, 1212)), "the middle of the joints"),
        # Full tiles under 2395: lower edges at 2095 and each 303 below.
        ("tile on centre", "full tile at top", ((301.5, 904.5) * 2, (1095, 792, 489, 186, 117, 420, 723)),
         "the middle of the joints"),
        # The plumb line stands at the right side of the first full tile, 5 + 600 from the left.
        ("from left", "full tile at datum", ((603, 1206), (303, 606, 909, 303, 606, 909, 1212)), "the tiles' right side"),
        # First course on the joint of 5 at the floor: 5 + n * 303 against 1000.
        ("joint on centre", "full tile at floor", ((603, 603), (692, 389, 86, 217, 520, 823, 1126)), "the middle of the joints"),
    ],
)
def test_marks_of_a_gauge_rod(across: str, up: str, marks: tuple[tuple[float, ...], ...], words: str) -> None:
    s = rooms.wall("A", "2.4", coverings=(rooms.laid(rooms.WALL_TILE, "straight", across, up),))
    room = rooms.around(s)
    setout = lay_out(rooms.job(room), practice("EN"))
    layout, face = setout.layouts[0], setout.face(s.id)
    for axis, line in ((0, layout.begin.across), (1, room.levels.datum)):
        rod = gauge(layout, face, axis, line, 20)
        assert sorted(float(m.away.mm) for m in rod.marks) == pytest.approx(sorted(marks[axis]))
        assert all(abs(m.place.value - line.value) == m.away.value for m in rod.marks)
        if axis == 0:
            assert rod.words == f" to {words}"


# ---------------------------------------------------------------- geometry: against shapely

L_SHAPE = ((0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (3.0, 2.0), (3.0, 5.0), (0.0, 5.0))
SLANTED = ((0.0, 0.0), (6.0, 0.3), (5.5, 4.0), (0.4, 3.8))


@pytest.mark.parametrize("outline", [L_SHAPE, SLANTED])
def test_clipping_against_shapely(outline: tuple[tuple[float, float], ...]) -> None:
    hole = ((1.0, 1.0), (2.0, 1.0), (2.0, 1.7), (1.0, 1.7))
    region = Polygon(outline).difference(Polygon(hole))
    for _ in range(300):
        line = tuple(ROUND.uniform(-2, 8) for _ in range(4))
        parts = clip(line, (outline,), (hole,))  # type: ignore[arg-type]
        length = sum(hypot(c - a, d - b) for a, b, c, d in parts)
        assert length == pytest.approx(LineString([line[:2], line[2:]]).intersection(region).length, abs=1e-6)
        for a, b, c, d in parts:
            assert region.buffer(1e-6).covers(LineString([(a, b), (c, d)]))


def test_inside_against_shapely() -> None:
    for _ in range(300):
        spot = (ROUND.uniform(-1, 7), ROUND.uniform(-1, 6))
        assert inside(spot, L_SHAPE) == Polygon(L_SHAPE).contains(shapely.Point(spot))


def test_the_outline_of_several_boxes_against_shapely() -> None:
    for _ in range(60):
        boxes = []
        for _ in range(ROUND.randint(1, 5)):
            x, y = ROUND.randint(0, 8), ROUND.randint(0, 8)
            boxes.append(Box(x, y, x + ROUND.randint(1, 5), y + ROUND.randint(1, 5)))
        lines = union_outline(boxes)
        whole = shapely.unary_union([box(b.left, b.top, b.right, b.bottom) for b in boxes])
        assert sum(abs(c - a) + abs(d - b) for a, b, c, d in lines) == pytest.approx(whole.boundary.length)
        assert all(whole.boundary.buffer(1e-9).covers(LineString([line[:2], line[2:]])) for line in lines)
    assert union_outline([]) == ()


def test_the_outline_moved_inwards_against_shapely() -> None:
    lines = inner_outline(L_SHAPE, 0.2)
    ring = Polygon([line[:2] for line in lines])
    assert ring.symmetric_difference(Polygon(L_SHAPE).buffer(-0.2, join_style="mitre")).area == pytest.approx(0, abs=1e-9)
    # The same walked the other way round.
    assert Polygon([line[:2] for line in inner_outline(L_SHAPE[::-1], 0.2)]).symmetric_difference(ring).area == pytest.approx(
        0, abs=1e-9
    )


def test_hatching_covers_the_shape_evenly() -> None:
    lines = hatch(L_SHAPE, 0.1)
    length = sum(hypot(c - a, d - b) for a, b, c, d in lines)
    # Lines at 45 degrees whose ends are 0.1 apart along the edge lie 0.1 / sqrt 2 apart: area over distance is their length.
    assert length == pytest.approx(Polygon(L_SHAPE).area / (0.1 / 2**0.5), rel=0.01)


def test_things_moved_apart() -> None:
    assert apart([0, 10, 20], [3, 3, 3]) == pytest.approx((0, 10, 20))
    # Three on one spot: the middle one stays.
    assert apart([5, 5, 5], [2, 2, 2]) == pytest.approx((3, 5, 7))
    assert apart([], []) == ()
    for _ in range(100):
        places = sorted(ROUND.uniform(0, 30) for _ in range(ROUND.randint(1, 12)))
        sizes = [ROUND.uniform(1, 4) for _ in places]
        moved = apart(places, sizes)
        for i, (a, b) in enumerate(zip(moved, moved[1:], strict=False)):
            assert b - a >= (sizes[i] + sizes[i + 1]) / 2 - 1e-9
        # No shift of all together would be better: the moves cancel out.
        assert sum(moved) == pytest.approx(sum(places))


def test_a_box_and_a_line() -> None:
    b = Box(0, 0, 10, 5)
    assert (
        b.crossed((-1, 2, 11, 3)) and b.crossed((5, 1, 5, 2)) and not b.crossed((0, 5, 10, 5)) and not b.crossed((11, 0, 20, 5))
    )
    for _ in range(300):
        line = tuple(ROUND.uniform(-5, 15) for _ in range(4))
        assert b.crossed(line) == (LineString([line[:2], line[2:]]).intersection(box(0, 0, 10, 5)).length > 0)  # type: ignore[arg-type]


# ---------------------------------------------------------------- running dimensions


def _stops(*pairs: tuple[float, str]) -> tuple[Stop, ...]:
    return tuple(Stop(at, text) for at, text in pairs)


def test_numbers_with_room_stand_in_one_row() -> None:
    row = lay("below", _stops((20, "400"), (60, "1200"), (100, "2000")), 0, "from the left edge")
    numbers = row.texts[:3]
    assert len({t.away for t in numbers}) == 1 and all(t.turn == 0 for t in numbers) and row.leaders == ()
    assert [t.along for t in numbers] == [20, 60, 100]


def test_numbers_too_close_are_staggered() -> None:
    row = lay("below", _stops((20, "1400 niche"), (28, "1560 window")), 0, "t")
    assert len({t.away for t in row.texts[:2]}) == 2 and row.texts[0].turn == 0 and len(row.leaders) == 1


def test_numbers_closer_still_are_turned_and_led() -> None:
    row = lay("below", _stops(*((20 + 2.5 * n, f"{400 + 50 * n} pipe") for n in range(8))), 0, "t")
    numbers = row.texts[:8]
    assert all(t.turn == -90 for t in numbers) and len(row.leaders) == 8
    assert all(b.along - a.along >= SMALL for a, b in zip(numbers, numbers[1:], strict=False))


@pytest.mark.parametrize("side", ["below", "above", "left", "right"])
def test_numbers_never_meet(side: str) -> None:
    from tilespec.document.drawing.dimension import _box

    for _ in range(80):
        stops = _stops(
            *(
                (ROUND.uniform(0, 120), f"{ROUND.randint(1, 9999)} {'x' * ROUND.randint(0, 12)}")
                for _ in range(ROUND.randint(1, 25))
            )
        )
        row = lay(side, stops, 0, "from somewhere")
        boxes = [_box(side, t, SMALL) for t in row.texts]
        assert not any(a.meets(b) for a, b in combinations(boxes, 2))
        along = [(b.left, b.right) if side in ("below", "above") else (b.top, b.bottom) for b in boxes]
        assert row.low <= min(a for a, _ in along) and max(b for _, b in along) <= row.high


# ---------------------------------------------------------------- places

ROOM = rooms.shower_room()


def test_corners_of_a_walk_are_sums_of_walls() -> None:
    x, y = place.corners(rooms.l_room())
    assert {v: q.value for v, q in x.items()} == {Fraction("3.2"): Fraction("3.2"), Fraction("1.9"): Fraction("1.9")}
    assert sorted(y) == [Fraction("1.4"), Fraction("2.6")]
    why = x[Fraction("1.9")].why
    # 3200 along A less 1300 back along C.
    assert isinstance(why, Worked) and why.formula == "wall A − wall C"


def test_a_bath_seen_on_its_walls() -> None:
    room = rooms.l_room()
    rect = room.baths[0].rect
    left, right, wide, against = place.along(room, "A", rect) or pytest.fail("no place")
    assert (left and left.value, right.value, wide.value, against) == (Fraction("1.5"), Fraction("3.2"), Fraction("1.7"), True)
    # On B, which runs down from the corner, it begins at the left edge.
    left, right, wide, against = place.along(room, "B", rect) or pytest.fail("no place")
    assert (left, right.value, against) == (None, Fraction("0.75"), True)
    # Seen on E, from right to left, it stands far off.
    assert (place.along(room, "E", rect) or pytest.fail("no place"))[3] is False


def test_neighbours_clockwise() -> None:
    assert place.neighbours(ROOM, "A") == ("D", "B") and place.neighbours(ROOM, "D") == ("C", "A")
    assert place.neighbours(ROOM, "Z") == ("", "")


# ---------------------------------------------------------------- the writer


def test_text_is_escaped_and_cleaned() -> None:
    assert escape('<a href="x">&\'') == "&lt;a href=&quot;x&quot;&gt;&amp;&#39;"
    assert escape("a\x00b\ufffec\x1b") == "a b c "
    assert plain("  two\n lines \x07") == "two lines" and len(plain("x" * 200)) == 60


@pytest.mark.parametrize("value, text", [(1.0, "1"), (-0.001, "0"), (0.126, "0.13"), (12.5, "12.5"), (100.0, "100")])
def test_numbers_are_short(value: float, text: str) -> None:
    assert number(value) == text


def test_the_writer_refuses_small_letters_and_unknown_lines() -> None:
    p = Picture()
    with pytest.raises(ValueError):
        p.text(0, 0, "too small", 2.0)
    with pytest.raises(KeyError):
        p.line("red", (0, 0, 1, 1))


def test_one_path_for_each_line_style() -> None:
    p = Picture()
    for n in range(500):
        p.line("grid", (n, 0, n, 10))
    assert p.render(600, 20, "t").count("<path") == 1


def test_no_number_is_written_in_the_code() -> None:
    """Drawings write numbers only through `say`: no f-string or text of ours holds a digit that is printed."""
    import ast

    folder = Path(place.__file__).parent
    for name in ("elevation.py", "plan.py", "gauge.py", "fall.py", "tiles.py", "sheet.py"):
        tree = ast.parse((folder / name).read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and getattr(node.func, "attr", "") in ("say", "explain"):
                for arg in node.args:
                    if isinstance(arg, ast.Constant) and isinstance(arg.value, str):
                        assert not any(c.isdigit() for c in arg.value), (name, arg.value)
