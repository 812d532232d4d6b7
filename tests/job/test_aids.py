"""Aids for lifting: what the words of the spec come to."""

from __future__ import annotations

import pytest

from tests.job.spec import job, said

REST = "tile white 300x300x9 porcelain\nfloor 2.4 x 1.8; tile white; joint 3\n"


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("suction lifters", ("suction-lifters",)),
        ("Suction Cups, lifting frame", ("suction-lifters", "lifting-frame")),
        ("suction lifters, suction cups", ("suction-lifters",)),
    ],
)
def test_aids(words: str, found: tuple[str, ...]) -> None:
    assert job(f'job "Bath"\n  aids {words}\n{REST}').aids == found


def test_none_is_planned_where_none_is_said() -> None:
    assert job(REST).aids == ()


def test_an_unknown_aid_is_told_once() -> None:
    assert said(f'job "Bath"\n  aids strong arms, lifting frame\n{REST}').count("unknown-choice") == 1
