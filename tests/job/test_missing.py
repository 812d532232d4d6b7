"""What can only be missed when the whole room is known is asked once, and not where the spec says it or nothing hangs on it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.job.spec import TILE, job
from tilespec.job import missing
from tilespec.job.types import Question
from tilespec.quantity.typed import typed
from tilespec.resources import data_text

ROOM = 'room "Bath" height 2.4\n'
FLOOR = "floor 2.4 x 1.8\n  tile white; joint 3\n"
LARGE = TILE + "tile large 1200x600x10 porcelain landscape; weight 24 kg/m2; box of 2\n"
WALL = "wall A 2.4 x 2.4\n  base gypsum plaster; laid 2025-01-02\n  tile white; joint 3\n"
SHOWER = "shower in corner D A, 0.9 x 0.9; tray; head at height 2.1{}\nwall A\nwall D\n"
LEVEL = (
    "  drain 0.45 from wall A, 0.45 from wall D{}\nshower in corner D A, 0.9 x 0.9; head at height 2.1{}\nwall A\nwall D\n"
)
MOSAIC = "tile chip 300x300x6 mosaic porcelain; weight 14 kg/m2; box of 11; chips 23 x 23{}\n" + "floor 2.4 x 1.8\n  tile chip\n"
BASIN = "basin on wall A, 0.5 x 0.4; 1.2 from left; rim 0.85\n"


def asked(text: str, topic: str) -> list[Question]:
    return [q for q in job(text).questions if q.topic == topic]


@pytest.mark.parametrize(
    ("topic", "lacks", "says"),
    [
        ("diagonals", TILE + FLOOR, TILE + FLOOR + "  diagonals 3.0, 3.0\n"),
        ("door", TILE + FLOOR, TILE + FLOOR + "wall C\n  door 0.8 x 2.0; 0.9 from left\n"),
        ("wall-true", TILE + WALL, TILE + WALL + "  heights left 2.4, right 2.4\n"),
        ("wall-true", TILE + WALL, TILE + WALL + "  out of plumb 0\n"),
        ("base-age", TILE + WALL.replace("; laid 2025-01-02", ""), TILE + WALL),
        ("occupied", TILE + FLOOR, 'job "B"\n  empty\n' + TILE + FLOOR),
        ("valve", TILE + FLOOR + SHOWER.format(""),
         TILE + FLOOR + SHOWER.format("; valve on wall A 0.4 from left, 1.1 up")),
        ("basin-pipes", TILE + FLOOR + BASIN + WALL, TILE + FLOOR + BASIN + WALL + "  pipe 1.4 from left, 0.6 up\n"),
        ("tile-slip", TILE + FLOOR + "  drain 0.4 from wall A, 0.4 from wall D\n",
         TILE.strip() + "; barefoot class B\n" + FLOOR + "  drain 0.4 from wall A, 0.4 from wall D\n"),
        ("timber-deck", TILE + FLOOR + "  base timber; joists 400; boards 22\n",
         TILE + FLOOR + "  base timber; joists 400; boards 22; span 3.2\n"),
        ("deflection", TILE + FLOOR + "  base timber; joists 400; boards 22; span 3.2\n",
         TILE + FLOOR + "  base timber; joists 400; boards 22; span 3.2; deflection 6\n"),
        ("wall-load", TILE + WALL.replace("gypsum plaster; laid 2025-01-02", "old tiles"),
         TILE + WALL.replace("gypsum plaster; laid 2025-01-02", "old tiles; carries 40 kg/m2")),
        ("rcd", TILE + FLOOR + WALL + "  socket 1.4 from left, 0.6 up\n",
         TILE + FLOOR + "  rcd 30 mA\n" + WALL + "  socket 1.4 from left, 0.6 up\n"),
        ("valve-depth", TILE + FLOOR + WALL + "  valve 1.4 from left, 0.6 up\n",
         TILE + FLOOR + WALL + "  valve 1.4 from left, 0.6 up; covers 10 to 35\n"),
        ("flow", TILE + FLOOR + LEVEL.format("", "; flow 15 L/min"),
         TILE + FLOOR + LEVEL.format("; flow 24 L/min", "; flow 15 L/min")),
        ("heating-cycle", TILE + FLOOR + "  heating pipes\n",
         TILE + FLOOR + '  heating pipes\nrecord heating-cycle on floor 2026-03-06 by "J. Rook"\n'),
        ("mosaic-joint", MOSAIC.format(""), MOSAIC.format("; joint 1.5")),
        ("moisture", TILE + FLOOR + "  base concrete\n",
         TILE + FLOOR + '  base concrete\nrecord substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 70 %RH\n'),
        ("flat-floor", LARGE + FLOOR.replace("white", "large") + "  base concrete\n",
         LARGE + FLOOR.replace("white", "large") + '  base concrete\nrecord substrate on floor 2026-03-06 by "J. Rook"\n'),
        ("flat-floor", LARGE + FLOOR.replace("white", "large") + "  base concrete\n",
         LARGE + FLOOR.replace("white", "large")
         + '  base concrete\nrecord substrate-flatness on floor 2026-03-06 by "J. Rook"; reading 2 mm; over 2 m\n'),
    ],
)  # fmt: skip
def test_what_is_said_is_not_asked(topic: str, lacks: str, says: str) -> None:
    assert len(asked(lacks, topic)) == 1
    assert not asked(says, topic)


@pytest.mark.parametrize(
    ("topic", "text"),
    [
        ("flat-floor", TILE.replace("600x300", "300x300") + FLOOR + "  base concrete\n"),  # small tiles
        ("moisture", TILE + FLOOR + "  base timber; joists 400; boards 22; span 3.2\n"),
        ("base-age", TILE + "wall A 2.4 x 2.4\n  base brickwork\n  tile white; joint 3\n"),
        ("base-age", TILE + "wall A 2.4 x 2.4\n  base gypsum plaster existing\n  tile white; joint 3\n"),
        ("tile-slip", TILE + FLOOR),  # dry
        ("tile-slip", TILE + FLOOR + SHOWER.format("")),  # nobody stands under a tray
        ("door", TILE + WALL),  # no floor to end there
        ("diagonals", TILE + WALL),
    ],
)  # fmt: skip
def test_what_decides_nothing_is_not_asked(topic: str, text: str) -> None:
    assert not asked(text, topic)


def test_moisture_is_asked_by_the_method_of_the_family_with_its_limit() -> None:
    text = 'job "B"\n  practice {}\n' + TILE + "floor 2.4 x 1.8{}\n  base cement screed\n  tile white; joint 3\n"
    found = {(family, heated): [typed(q) for q in asked(text.format(family, heated), "moisture")[0].limits]
             for family in ("EN", "DE", "UK", "US") for heated in ("", " heated")}
    assert found["EN", ""] == ["2 CM%"] and found["EN", " heated"] == ["1.8 CM%"]  # E-20, E-21
    assert found["UK", ""] == ["75 %RH"]  # E-24
    assert found["US", ""][0].endswith("%RH")  # E-26


def test_walls_are_asked_together_and_answered_one_by_one() -> None:
    text = TILE + ROOM + FLOOR + "".join(f"wall {w}\n  base cement board\n  tile white; joint 3\n" for w in "ABC")
    (q,) = asked(text, "wall-true")
    assert q.text == "How high left and right, and how far out of plumb, are walls A, B and C in Bath?"
    assert q.each == ("wall A", "wall B", "wall C")


def test_only_the_flow_that_is_not_known_is_asked() -> None:
    (q,) = asked(TILE + FLOOR + LEVEL.format("", "; flow 15 L/min"), "flow")
    assert q.each == ("drain",)
    assert not asked(TILE + FLOOR + SHOWER.format(""), "flow")  # a tray has a waste of its own


def test_the_joints_between_chips_are_those_that_the_mosaic_says() -> None:
    (room,) = job(MOSAIC.format("; joint 1.5")).rooms
    assert room.floor is not None and room.floor.field is not None
    field = room.floor.field
    assert field.tile.chip_joint is not None and field.tile.chip_joint.mm == field.joint.mm == 1.5


def topics() -> set[str]:
    """Every topic that the stage can ask, as its code names them."""
    found: set[str] = set()
    for path in Path(missing.__file__).parent.glob("*.py"):
        text = path.read_text(encoding="utf-8")
        found |= set(re.findall(r'(?:\bask\(|Question\()\s*f?"([a-z{}-]+)"', text))
        found |= set(re.findall(r'assume\(\s*(?:key|"[a-z-]+"),\s*"([a-z-]+)"', text))
    return {t for topic in found for t in ((topic.replace("{kind}", k) for k in ("floor", "wall")) if "{" in topic else (topic,))}


def test_every_question_says_what_it_decides_and_how_it_is_written() -> None:
    have = set(re.findall(r"macro (\w+)\(q", data_text("templates/wording/questions.md.j2")))
    known = {t.replace("-", "_") for t in topics()}
    assert len(known) > 40
    for part in ("decides", "write"):
        assert known == {name.removesuffix(f"_{part}") for name in have if name.endswith(f"_{part}")}
