"""Part 2: what came and what was read stand in the print, and a wet place is called as its family calls it."""

from __future__ import annotations

import re

import pytest

from tests.document.test_deviations import document
from tilespec.document import Document, markdown
from tilespec.document.templates import Templates

SPEC = """\
job "Bathroom"
  practice {family}
tile floor-tile 100x100x8 porcelain; barefoot class B
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-01-10
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A
shower in corner D A, 0.9 x 0.9; head at 2.1
wall A
  base cement render
  tile wall-tile; joint 3
wall B
  base cement render
  tile wall-tile; joint 3
  splash area 0.5 x 1.2; 1.25 from left, 0 up
wall D
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-08; shade K12; caliber 4; measured width 597.2 to 598; measured height 297.4 to 297.9; warp 0.5
record substrate-flatness on floor 2026-03-09 by "J. Rook"; reading 2 mm; over 2 m
record ponding on floor 2026-03-12 by "J. Rook"; work by "T. Sand"; reading 50 mm; lasted 24 h; fell 1 mm
"""


def printed(d: Document) -> str:
    """Part 2 as Markdown, without marks and escapes."""
    text = re.sub(r"\^[A-Z]\w*\^", "", re.sub(r"\\(.)", r"\1", markdown.render(d, Templates(), ("scope",))))
    return re.sub(r"[\u00a0\u202f]", " ", text)


@pytest.mark.parametrize(
    ("family", "expected"),
    [
        # DIN 18534-1 as restated: level shower W2-I, its walls W1-I, a splashed wall W0-I; BS 5385-4:2015, 7.2.3 and 7.2.4.
        ("DE", {"floor": {"W2-I"}, "wall A": {"W1-I"}, "wall B": {"W0-I"}, "wall D": {"W1-I"}}),
        ("UK", {"floor": {"frequent wetting"}, "wall A": {"frequent wetting"}, "wall B": {"occasional wetting"}}),
        ("EN", {"floor": {""}, "wall A": {""}, "wall B": {""}}),
    ],
)
def test_a_wet_place_has_the_class_of_its_family(family: str, expected: dict[str, set[str]]) -> None:
    rows = document(SPEC.format(family=family)).scope.surfaces
    found = {s.place.text.split(",")[0]: {z.cls.text if z.cls else "" for z in s.zones} for s in rows}
    for place, classes in expected.items():
        assert found[place] == classes, place


def test_readings_stand_in_the_table_of_records() -> None:
    text = printed(document(SPEC.format(family="EN")))
    assert "| substrate-flatness | floor | Mon 2026-03-09 | J. Rook | 2 mm over 2.00 m |" in text
    assert "| J. Rook; work by T. Sand | 50 mm, lasted 24 h, fell 1 mm |" in text


def test_deliveries_stand_in_the_print() -> None:
    text = printed(document(SPEC.format(family="EN")))
    assert "| wall-tile | Sun 2026-03-08 | K12 | 4 | 597.2 mm to 598 mm | 297.4 mm to 297.9 mm | 0.5 mm |" in text
