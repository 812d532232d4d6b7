"""Places and sizes on a wall as a tiler says them; facing the wall from inside the room. All numbers by hand."""

from __future__ import annotations

import pytest

from tests.job.spec import TILE, mm, said, surface

HEAD = TILE + 'room "Bathroom" height 2.4\ndatum 1.0 above finished floor\nfloor 2.4 x 1.8\n'


def window(place: str) -> tuple[object, ...]:
    return mm(surface(f"{HEAD}wall A\n  window 0.6 x 0.9; {place}\n", "A").openings[0].rect)


@pytest.mark.parametrize(
    ("place", "x", "y"),
    [
        ("0.5 from left, 1.2 up", 500, 1200),
        ("0.5 from right, 1.2 up", 1300, 1200),                      # 2400 - 500 - 600
        ("0.5 from wall D, 1.2 up", 500, 1200),                      # wall D is on the left of A
        ("0.5 from wall B, 1.2 up", 1300, 1200),
        ("0.5 from left, 0.1 from top", 500, 1400),                  # 2400 - 100 - 900
        ("0.5 from left, 0.1 from ceiling", 500, 1400),
        ("0.5 from left, bottom 1.2", 500, 1200),
        ("0.5 from left, bottom 1.2 up", 500, 1200),
        ("0.5 from left, 1.2 above finished floor", 500, 1200),
        ("0.5 from left, 0.2 above datum", 500, 1200),               # 1000 + 200
        ("0.5 from left, 0.2 below datum line", 500, 800),           # 1000 - 200
        ("500 mm from left, 120 cm up", 500, 1200),
    ],
)
def test_places(place: str, x: int, y: int) -> None:
    assert window(place) == (x, y, 600, 900)


def test_a_point_is_measured_to_its_middle() -> None:
    wall = surface(f"{HEAD}wall A\n  pipe 0.4 from right, 0.3 from top\n", "A")
    assert (wall.penetrations[0].x.mm, wall.penetrations[0].y.mm) == (2000, 2100)


def test_a_door_stands_on_the_floor() -> None:
    wall = surface(f"{HEAD}wall A\n  door 0.8 x 2.0; 0.9 from left\n", "A")
    assert mm(wall.openings[0].rect) == (900, 0, 800, 2000)


def test_a_band_runs_along_the_wall() -> None:
    ribbon = "tile ribbon 300x300x8 mosaic porcelain\n"
    text = ribbon + HEAD + "  tile white\nwall A\n  tile white\n  tile ribbon; band 0.3 high, bottom 1.2 up\n"
    band = next(c for c in surface(text, "A").coverings if c.role == "band")
    assert mm(band.region) == (0, 1200, 2400, 300)


@pytest.mark.parametrize(
    "size", ["600 x 900 mm", "600 mm x 900 mm", "60 x 90 cm", "0.6 m x 900 mm", "0.6 x 0.9", "0.6 x 0.9 m", "0.6 wide; 0.9 high"]
)
def test_a_unit_written_once_serves_both_sides(size: str) -> None:
    rect = surface(f"{HEAD}wall A\n  window {size}; 0.5 from left, 1.2 up\n", "A").openings[0].rect
    assert mm(rect) == (500, 1200, 600, 900)


def test_a_unit_serves_the_sides_before_it() -> None:
    """`24 in x 36` reads the second in inches too; `24 x 36 in` both."""
    for size in ("24 in x 36", "24 x 36 in", "24 in x 36 in", "2 ft x 3 ft"):
        rect = surface(f"{HEAD}wall A\n  window {size}; 0.5 from left, 1.2 up\n", "A").openings[0].rect
        assert (rect.width.mm * 10, rect.height.mm * 10) == (24 * 254, 36 * 254)


def test_sizes_in_millimetres_throughout() -> None:
    head = 'job "Bathroom"\n  sizes in mm\n' + TILE
    wall = surface(
        head + 'room "Bathroom" height 2400\ndatum 1000 above finished floor\nfloor 2400 x 1800\n'
        "wall A\n  window 600 x 900; 500 from left, 1200 up\n  tile white; joint 3\n", "A",
    )
    assert (wall.width.mm, wall.height.mm, mm(wall.openings[0].rect)) == (2400, 2400, (500, 1200, 600, 900))
    assert wall.field is not None and wall.field.joint.mm == 3


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("window 0.6 x 0.9; 1.9 from left, 1.2 up", "outside-surface"),
        ("window 0.6 x 0.9; 0.5 from left, 1.6 up", "outside-surface"),
        ("window 0.6 x 0.9; 0.5 from wall C, 1.2 up", "unknown-wall"),
        ("window 0.6 x 0.9; 1.2 up", "missing-detail"),
        ("window 0.6 x 0.9; 0.5 from left", "missing-detail"),
        ("window 0.5 from left, 1.2 up", "missing-detail"),
        ("pipe 2.5 from left, 0.3 up", "outside-surface"),
        ("window 0.6 x 0.9; 0.5 from left, 1.2 above sea level", "unknown-choice"),
    ],
)
def test_what_does_not_fit(line: str, name: str) -> None:
    assert said(f"{HEAD}wall A\n  {line}\n") == [name]


def test_touching_openings_do_not_overlap() -> None:
    text = HEAD + "wall A\n  window 0.6 x 0.9; 0.2 from left, 1.2 up\n  door 0.8 x 2.0; {} from left\n"
    assert said(text.format("0.8")) == []
    assert said(text.format("0.79")) == ["openings-overlap"]
