"""The nearest known word."""

import pytest

from tilespec.diagnostics.suggest import distance, nearest


@pytest.mark.parametrize(("a", "b", "edits"), [
    # Worked by hand; kitten/sitting is the textbook example of the Levenshtein distance.
    ("kitten", "sitting", 3), ("", "abc", 3), ("tile", "tile", 0), ("tlie", "tile", 1), ("grout", "grouts", 1),
])
def test_distance(a: str, b: str, edits: int) -> None:
    assert distance(a, b) == edits == distance(b, a)


def test_nearest_known_word() -> None:
    known = ("joint-too-narrow", "low-window-cut", "unprimed-gypsum")
    assert nearest("low-windw-cut", known) == "low-window-cut"
    assert nearest("Low window cut", known) == "low-window-cut"
    assert nearest("membrane", known) is None
    assert nearest("", known) is None
    assert nearest("wall", ("walk", "well")) == "walk"
