"""How tiles are cut: what the words of the spec come to."""

from __future__ import annotations

import pytest

from tests.job.spec import job, said
from tilespec.job.types import PLANNED, Cutter

REST = "tile white 300x300x9 porcelain\nfloor 2.4 x 1.8; tile white; joint 3\n"


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("snap, wet saw", (Cutter("snap"), Cutter("wet-saw"))),
        ("score and snap", (Cutter("snap"),)),
        ("wet saw outdoors, grinder with extraction", (Cutter("wet-saw", True), Cutter("extraction-grinder"))),
        ("Wet Hand Saw, saw with extraction outdoors", (Cutter("wet-hand-saw"), Cutter("extraction-saw", True))),
        ("dry saw, dry grinder", (Cutter("dry-saw"), Cutter("dry-grinder"))),
        # Said twice is said once.
        ("snap, score and snap", (Cutter("snap"),)),
    ],
)
def test_ways_of_cutting(words: str, found: tuple[Cutter, ...]) -> None:
    assert job(f'job "Bath"\n  cutting {words}\n{REST}').cutting == found


def test_silent_means_what_makes_least_dust_and_is_not_asked() -> None:
    found = job(REST)
    assert found.cutting == PLANNED
    assert not [q for q in found.questions if "cut" in q.topic]


def test_unknown_ways_are_told_once_each() -> None:
    assert [n for n in said(f'job "Bath"\n  cutting laser beam, wet saw\n{REST}') if n == "unknown-choice"] == ["unknown-choice"]
