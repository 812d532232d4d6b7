"""How high the membrane goes at a bath with a shower over it, and how deep the drain lies, read from specs."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tilespec import pipeline
from tilespec.job.types import Job
from tilespec.workspace.host import MemoryHost

PATH = "/job.tilespec"
HEAD = 'job "Bathroom"\n  practice EN\ntile field 300x300x9 porcelain; weight 18 kg/m2\nroom "Bathroom" height 2.6\n'


def job(spec: str) -> Job:
    found = pipeline.compile(PATH, MemoryHost({PATH: spec}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    return found.plan.job


def bath(head: str) -> Job:
    return job(
        HEAD + f"floor 1.7 x 2.2\n  base concrete\n  tile field; joint 3\nbath along wall A, 1.7 x 0.7; rim 0.55{head}\n"
        "wall A\n  base cement render\n  tile field; joint 3\n"
    )


@pytest.mark.parametrize(("head", "top"), [("; head at height 1.9", "2.1"), ("; shower zone", "2.3")])
def test_membrane_above_the_head_of_a_shower_over_a_bath(head: str, top: str) -> None:
    """200 mm above the head that is said, or above the usual 2.1 m (figures of the practice data)."""
    room = bath(head).rooms[0]
    area = next(a for a in room.wall_surfaces[0].membrane_areas if a.reason == "bath")
    assert area.rect is not None and area.rect.height.value == Fraction(top)


def test_a_head_nobody_measured_is_asked() -> None:
    assert any("shower head" in q.text for q in bath("; shower zone").questions)
    assert not any("shower head" in q.text for q in bath("; head at height 1.9").questions)


@pytest.mark.parametrize(
    ("planes", "depth"),
    # By hand: a channel 50 mm off wall A in a room 2.6 m deep. One plane runs 2550 mm to it: 2550 / 80 = 31.875 mm.
    [("one plane", Fraction(31875, 1000)), ("two planes", Fraction(50, 80))],
)
def test_one_plane_falls_from_the_far_wall(planes: str, depth: Fraction) -> None:
    room = job(
        HEAD + "floor 1.4 x 2.6\n  base concrete\n  tile field; joint 3\n"
        f"  fall 1:80 {planes}; channel along wall A, 1.2 long, 0.05 from wall A, 0.1 from wall D\n"
    ).rooms[0]
    assert room.levels.drain_grate is not None and room.levels.drain_grate.mm == -depth


def test_the_fall_of_a_level_shower_begins_at_its_edge() -> None:
    """By hand: a channel 0.1 m off wall B in a shower 1.0 m wide: 900 mm to it at 1:60 are 15 mm, whatever the room is long."""
    room = job(
        HEAD + "floor 3.0 x 1.6\n  base concrete\n  tile field; joint 3\n"
        "  fall 1:60 one plane; channel along wall B, 0.9 long, 0.1 from wall B, 0.3 from wall A\n"
        "shower in corner A B, 1.0 x 1.6; head at 2.1\n"
        "wall A\n  base concrete\n  tile field; joint 3\nwall B\n  base concrete\n  tile field; joint 3\n"
        "wall C\n  base concrete\n  tile field; joint 3\n"
    ).rooms[0]
    assert room.levels.drain_grate is not None and room.levels.drain_grate.mm == -15
