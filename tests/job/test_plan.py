"""Rooms in plan: rectangles and walks, corners, misclosure. All numbers by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.job.spec import TILE, first, job, mm, outcome, room, said

L_SHAPE = "floor walk A 3.2, B 2.6, C 1.7, corner external, D 0.7, E 1.5, F 3.3\n"


def points(text: str) -> list[tuple[F, F]]:
    return [w.start for w in room(TILE + text).walls]


def test_a_rectangle_runs_clockwise_from_the_left_end_of_a() -> None:
    found = room(TILE + "floor 2.4 x 1.8\n")
    ends = [(w.letter, w.start, w.end) for w in found.walls]
    w, d, o = F("2.4"), F("1.8"), F(0)
    assert ends == [("A", (o, o), (w, o)), ("B", (w, o), (w, d)), ("C", (w, d), (o, d)), ("D", (o, d), (o, o))]
    assert [(c.before, c.after, c.internal) for c in found.corners] == [
        ("D", "A", True), ("A", "B", True), ("B", "C", True), ("C", "D", True),
    ]
    assert found.floor is not None and (found.floor.width.mm, found.floor.height.mm) == (2400, 1800)


def test_a_walk_of_four_walls_is_the_rectangle() -> None:
    assert points("floor walk A 2.4, B 1.8, C 2.4, D 1.8\n") == points("floor 2.4 x 1.8\n")


def test_an_l_shaped_room() -> None:
    """3.2 along A, down 2.6, back 1.7, at the external corner down again 0.7, back 1.5, up 3.3."""
    assert points(L_SHAPE) == [
        (F(0), F(0)), (F("3.2"), F(0)), (F("3.2"), F("2.6")), (F("1.5"), F("2.6")), (F("1.5"), F("3.3")), (F(0), F("3.3")),
    ]
    found = room(TILE + L_SHAPE)
    assert [(c.before, c.after) for c in found.corners if not c.internal] == [("C", "D")]
    assert found.floor is not None
    # Area by the shoelace formula: 3.2 x 2.6 + 1.5 x 0.7 = 9.37 m2.
    outline = found.floor.outline
    area = abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True))) / 2
    assert area == F("9.37")


def test_letters_may_be_any() -> None:
    assert [w.letter for w in room(TILE + "floor walk N 2.4, E 1.8, S 2.4, W 1.8\n").walls] == ["N", "E", "S", "W"]


@pytest.mark.parametrize(
    ("walk", "words"),
    [
        ("A 2.4, B 1.8, C 2.3, D 1.8", "100 mm along wall A"),
        ("A 2.4, B 1.8, C 2.4, D 1.75", "50 mm across it"),
        ("A 2.4, B 1.8, C 2.3, D 1.75", "100 mm along wall A and 50 mm across it"),
        ("A 2.4, B 1.8, C 2.4", "turns right 3 quarter turns"),
        ("A 3.2, B 2.6, C 1.7, D 0.7, E 1.5, F 3.3", "turns right 6 quarter turns"),
    ],
)
def test_a_walk_that_does_not_close(walk: str, words: str) -> None:
    found = first(TILE + f"floor walk {walk}\n")
    assert found.name == "walk-open" and words in found.message


def test_the_help_names_lengths_that_close_the_walk() -> None:
    assert "A 2.3 m or C 2.4 m" in first(TILE + "floor walk A 2.4, B 1.8, C 2.3, D 1.8\n").help


def test_what_a_tape_leaves_open_is_taken_up_and_asked() -> None:
    """10 mm of misclosure: common practice, no source (practice data)."""
    text = TILE + "floor walk A 2.4, B 1.8, C 2.394, D 1.796\n"
    found = room(text)
    assert found.walls[-1].end == found.walls[0].start == (0, 0)
    assert found.walls[0].length.mm == 2400 and found.walls[2].start[1] == found.walls[2].end[1]
    assert "walk-misclosure" in {q.topic for q in job(text).questions}
    assert said(TILE + "floor walk A 2.4, B 1.8, C 2.389, D 1.8\n") == ["walk-open"]
    two = TILE + "".join(f'room "{name}"\nfloor walk A 2.4, B 1.8, C 2.394, D 1.8\n' for name in ("Bath", "Shower"))
    assert [q.about for q in job(two).questions if q.topic == "walk-misclosure"] == ["Bath", "Shower"]


@given(
    a=st.integers(1200, 6000), b=st.integers(1200, 6000), c=st.integers(300, 1000), d=st.integers(300, 1000),
)
def test_any_l_shape_closes_and_has_its_area(a: int, b: int, c: int, d: int) -> None:
    walk = f"floor walk A {a} mm, B {b} mm, C {c} mm, corner external, D {d} mm, E {a - c} mm, F {b + d} mm\n"
    found = room(TILE + walk)
    outline = [w.start for w in found.walls]
    assert found.walls[-1].end == outline[0]
    area = abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True))) / 2
    assert area * 10**6 == a * b + (a - c) * d


@pytest.mark.parametrize(
    ("corner", "size", "rect"),
    [
        ("D A", "0.9 x 1.2", (0, 0, 1200, 900)),        # 0.9 along D (down), 1.2 along A
        ("A D", "0.9 x 1.2", (0, 0, 900, 1200)),
        ("A B", "0.9 x 1.2", (1500, 0, 900, 1200)),
        ("B C", "0.9 x 1.2", (1200, 900, 1200, 900)),
        ("C D", "0.9 x 1.2", (0, 600, 900, 1200)),
    ],
)
def test_a_shower_in_each_corner(corner: str, size: str, rect: tuple[int, ...]) -> None:
    walls = "".join(f"wall {w}\n" for w in "ABCD")
    found = room(TILE + f"floor 2.4 x 1.8\n{walls}shower in corner {corner}, {size}; tray\n")
    assert mm(found.showers[0].rect) == rect
    assert set(found.showers[0].walls) == set(corner.split())


def test_a_bath_between_two_walls_touches_three() -> None:
    found = room(TILE + "floor 1.7 x 2.2\nwall A; wall B; wall D\nbath along wall A, 1.7 x 0.7\n")
    assert (mm(found.baths[0].rect), found.baths[0].walls) == ((0, 0, 1700, 700), ("A", "B", "D"))


def test_places_on_the_floor_count_from_any_wall() -> None:
    for text in ("0.6 from wall D, 0.5 from wall A", "1.8 from wall B, 1.3 from wall C"):
        floor = room(TILE + f"floor 2.4 x 1.8\n  drain {text}\n").floor
        assert floor is not None
        assert [(p.x.mm, p.y.mm) for p in floor.penetrations] == [(600, 500)]


def test_walls_are_checked_against_the_floor() -> None:
    text = TILE + "floor 2.4 x 1.8\nwall A {} x 2.4\n"
    assert said(text.format("2.4")) == said(text.format("2.409")) == []
    assert said(text.format("2.42")) == ["wall-size-differs"]
    assert outcome(text.format("2.42")).value.rooms[0].wall_surfaces[0].width.mm == 2420


def test_a_fixture_inside_an_l_shape_only() -> None:
    text = TILE + L_SHAPE + '  fixture "cabinet" 0.5 x 0.5; {} from wall F, 2.7 from wall A\n'
    assert said(text.format("0.5")) == []
    assert said(text.format("2.0")) == ["outside-surface"]


def test_diagonals() -> None:
    text = TILE + "floor 2.4 x 1.8\n  diagonals {}\n"
    found = room(text.format("2.99, 3.01"))
    assert found.diagonals is not None and [q.mm for q in found.diagonals] == [2990, 3010]
    # No triangle: longer than both sides together, shorter than their difference.
    for wrong in ("3.0, 4.3", "0.5, 3.0"):
        assert said(text.format(wrong)) == ["diagonals-impossible"]
    # Each by itself could be, both together not: the walls cross, or the far one is no wall of 2.4 m.
    for wrong in ("1.2, 1.3", "2.6, 2.6", "3.3, 3.3"):
        assert said(text.format(wrong)) == ["diagonals-impossible"]
    # Ptolemy: of a trapezium with equal diagonals 2.6 x 2.6 = 2.4 c + 1.8 x 1.8, so c = 1.467; 2.92 x 2.92 gives 2.203.
    assert "wall C would be 1.47 m long" in outcome(text.format("2.6, 2.6")).diagnostics[0].message
    assert said(text.format("2.92, 2.92")) == []


def test_diagonals_that_miss_the_far_wall_are_asked() -> None:
    """Ptolemy, as above: equal diagonals of 2.92 make a far wall of (2.92 x 2.92 - 1.8 x 1.8) / 2.4 = 2.203, of 3.005 one
    of 2.413, of 3.003 one of 2.408. 10 mm and a tenth are common practice, no source (practice data)."""
    text = TILE + "floor 2.4 x 1.8\n  diagonals {0}, {0}\n"
    asked = {d: [q.text for q in job(text.format(d)).questions if q.topic == "diagonals-misclosure"]
             for d in ("2.92", "3.005", "3.003", "3")}
    assert asked["3"] == asked["3.003"] == []
    assert "wall C comes to 2.203 m, not 2.4 m" in asked["2.92"][0]
    assert "wall C comes to 2.413 m" in asked["3.005"][0]
