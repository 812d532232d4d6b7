"""What the spec does not say is asked, never silently guessed; what it says is not asked."""

from __future__ import annotations

import pytest

from tests.job.spec import TILE, job, mm, room
from tilespec.quantity import Default, Given

ONE_LINE = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"


def topics(text: str) -> set[str]:
    return {q.topic for q in job(text).questions}


def test_the_one_line_job() -> None:
    found = room(ONE_LINE)
    assert found.not_stated == ("B", "C", "D")
    assert [s.id for s in found.surfaces] == ["Room/floor", "Room/wall A"]
    wall = found.surface("A")
    assert wall is not None and found.floor is not None and wall.field is not None
    # A zone without a size is the whole surface, and so is what the membrane covers because of it.
    assert [(z.exposure, z.rect) for z in wall.zones] == [("shower", None)]
    assert [a.rect for a in wall.membrane_areas if a.reason == "said"] == [None]
    # No orientation said: width by height as written. The joint is the one that was said.
    tile = wall.field.tile
    assert (tile.width.mm, tile.height.mm, tile.orientation) == (300, 600, "as written")
    assert wall.field.joint.mm == 3 and isinstance(wall.field.joint.why, Given)
    # A thickness is assumed, and marked as assumed.
    assert isinstance(tile.thickness.why, Default)
    assert found.heating is not None and found.fall is None and not found.drains


def test_the_one_line_job_asks_for_the_survey() -> None:
    assert topics(ONE_LINE) == {
        "conditions", "humidity", "surface-temperature", "datum", "base", "drain", "hall-floor", "measured-to",
        "tile-orientation", "heating-kind", "hours", "crew", "crew-helpers", "notice", "begin", "practice", "built", "sensor",
        "tile-body", "tile-thickness", "tile-box", "tile-weight",
        "diagonals", "wall-true", "door", "occupied", "tile-slip", "products", "rcd",
    }


@pytest.mark.parametrize(
    ("topic", "before", "after"),
    [
        ("begin", "", "begin 2026-03-09"),
        ("hours", "", "hours mon-fri 07:30-16:00"),
        ("practice", "", "practice UK"),
        ("built", "", "built 1994"),
        ("notice", "", "notice 24 h"),
        ("crew", "", "crew tiler 1, helper 1"),
        ("measured-to", "", "rooms measured to bare wall"),
    ],
)
def test_what_the_job_says_is_not_asked(topic: str, before: str, after: str) -> None:
    text = 'job "Bathroom"\n  {}\n' + TILE + "floor 2.4 x 1.8\n  tile white; joint 3\n"
    assert topic in topics(text.format(before or "ref A"))
    assert topic not in topics(text.format(after))


@pytest.mark.parametrize(
    ("topic", "line"),
    [
        ("conditions", "conditions air 19 C"),
        ("humidity", "conditions humidity 60 %"),
        ("surface-temperature", "conditions surface 17 C"),
        ("datum", "datum 1.0 above finished floor"),
    ],
)
def test_what_a_line_says_is_not_asked(topic: str, line: str) -> None:
    text = TILE + "floor 2.4 x 1.8\n  tile white; joint 3\n"
    assert topic in topics(text) and topic not in topics(f"{line}\n{text}")


@pytest.mark.parametrize(
    ("topic", "tile"),
    [
        ("tile-thickness", "600x300 porcelain; weight 20 kg/m2; box of 6"),
        ("tile-body", "600x300x9; weight 20 kg/m2; box of 6"),
        ("tile-box", "600x300x9 porcelain; weight 20 kg/m2"),
        ("tile-weight", "600x300x9 porcelain; box of 6"),
        ("tile-orientation", "600x300x9 porcelain; weight 20 kg/m2; box of 6"),
    ],
)
def test_what_a_tile_leaves_out(topic: str, tile: str) -> None:
    rest = "\nfloor 2.4 x 1.8\n  tile white; joint 3\n"
    full = "600x300x9 porcelain landscape; weight 20 kg/m2; box of 6"
    assert topic in topics(f"tile white {tile}{rest}") and topic not in topics(f"tile white {full}{rest}")


@pytest.mark.parametrize(
    ("topic", "lacks", "says"),
    [
        ("base", "tile white; joint 3", "base concrete\n  tile white; joint 3"),
        ("screed-thickness", "base cement screed; laid 2025-12-08", "base cement screed; thickness 65 mm; laid 2025-12-08"),
        ("screed-age", "base cement screed; thickness 65 mm", "base cement screed; thickness 65 mm; laid 2025-12-08"),
        ("timber-deck", "base timber", "base timber; joists 400; boards 22; span 3.2"),
        ("hall-floor", "base concrete", "base concrete\n  hall floor +10"),
        ("joint", "tile white", "tile white; joint 3"),
        ("fall", "drain 0.4 from wall A, 0.4 from wall D", "drain 0.4 from wall A, 0.4 from wall D\n  fall 1:60"),
    ],
)
def test_what_a_floor_leaves_out(topic: str, lacks: str, says: str) -> None:
    head = TILE + "floor 2.4 x 1.8\n  "
    assert topic in topics(head + lacks + "\n")
    assert topic not in topics(head + says + "\n")


def test_the_skim_of_plasterboard_is_asked_and_taken() -> None:
    text = TILE + "wall A 2.4 x 2.4\n  base gypsum plasterboard{}\n  tile white; joint 3\n"
    assert "board-skim" in topics(text.format(""))
    for word, skim in (("; skimmed", True), ("; unskimmed", False)):
        assert "board-skim" not in topics(text.format(word))
        assert room(text.format(word)).wall_surfaces[0].base.skim is skim


def test_a_shower_without_drain_or_tray() -> None:
    text = TILE + "floor 2.4 x 1.8\n  tile white; joint 3\nwall A; wall D\nshower in corner D A, 0.9 x 0.9{}\n"
    assert "drain" in topics(text.format(""))
    assert not topics(text.format("; tray")) & {"drain", "fall"}


def test_a_wall_takes_its_size_from_floor_and_room() -> None:
    text = TILE + 'room "Bathroom" height 2.35\nfloor 2.4 x 1.8\nwall A\nwall B\n  tile white; joint 3\nwall D 1.8 x 1.2\n'
    sizes = [(s.letter, s.width.mm, s.height.mm) for s in room(text).wall_surfaces]
    assert sizes == [("A", 2400, 2350), ("B", 1800, 2350), ("D", 1800, 1200)]


def test_walls_alone_make_a_room() -> None:
    found = room(TILE + "wall A 2.4 x 2.4\nwall B 1.8 x 2.4\n")
    assert [(w.letter, w.length.mm) for w in found.walls] == [("A", 2400), ("B", 1800), ("C", 2400), ("D", 1800)]
    assert found.floor is None
    assert "floor-size" in {q.topic for q in job(TILE + "wall A 2.4 x 2.4\n").questions}


def test_a_zone_with_a_size() -> None:
    found = room(TILE + "wall A 2.4 x 2.4\n  splash area 0.7 x 1.2; 0.1 from left, 0.6 up\n")
    assert [(z.exposure, mm(z.rect)) for z in found.wall_surfaces[0].zones] == [("splash", (100, 600, 700, 1200))]
