"""What can be taken out of a line, or written in it in few ways, is offered so."""

from __future__ import annotations

import pytest

from tests.checks.specs import PATH
from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic
from tilespec.workspace.host import MemoryHost

SPEC = """job "Bath"
  practice EN
tile wall-tile 600x300x9 porcelain; weight 20 kg/m2
room "Bath"
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-01-10
  fall 1:60 four planes
  drain 0.45 from wall D, 0.45 from wall A
  tile wall-tile; joint 3
wall A
  base gypsum plasterboard unskimmed
  tile wall-tile; joint 3
step "Clean" by glazier; after sealing
"""


def told(spec: str) -> list[Diagnostic]:
    return [d for d in pipeline.compile(PATH, MemoryHost({PATH: spec})).diagnostics if d.severity.value == "error"]


def fixed(spec: str, found: Diagnostic, which: int) -> str:
    for edit in sorted(found.fixes[which].edits, key=lambda e: -e.span.start):
        spec = spec[: edit.span.start] + edit.text + spec[edit.span.end :]
    return spec


@pytest.mark.parametrize(
    ("line", "wrong", "mended"),
    [
        ("fall 1:60 four planes", "fall 1:60 four planes; fall 1:80", "fall 1:60 four planes\n"),
        ("fall 1:60 four planes", "fall 1:60 four planes\n  fall 1:80 # steeper", "fall 1:60 four planes\n   # steeper\n"),
        ("plasterboard unskimmed", "plasterboard unskimmed; colour white", "plasterboard unskimmed\n"),
        ("thickness 65 mm", "thickness 65 mm; thickness 70 mm", "screed; thickness 65 mm; laid"),
    ],
)
def test_taken_out(line: str, wrong: str, mended: str) -> None:
    spec = SPEC.replace(line, wrong, 1)
    (found,) = told(spec)
    assert [f.title for f in found.fixes] == ["take it out"]
    after = fixed(spec, found, 0)
    assert mended in after and [d for d in told(after) if d.stage != "checks"] == []


def test_each_family_is_offered() -> None:
    (found,) = told(SPEC.replace("practice EN", "practice EU"))
    assert [f.title for f in found.fixes] == [f"write {f}" for f in ("EN", "DE", "UK", "US", "AU")]


def test_a_unit_over_another_is_one_word() -> None:
    spec = SPEC.replace("kg/m2", "kgs/m2")
    (found,) = told(spec)
    assert found.message.startswith("`kgs/m2`") and fixed(spec, found, 0) == SPEC


@pytest.mark.parametrize(
    ("reading", "titles"), [("1.6 %", ["1.6 CM%"]), ("15 %", ["15 CM%", "15 %RH"]), ("72 %", ["72 %RH"])]
)
def test_a_reading_of_either_method(reading: str, titles: list[str]) -> None:
    """Only what a method can read is offered."""
    spec = SPEC + f'record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading {reading}; depth 30 mm\n'
    (found,) = [d for d in told(spec) if d.name == "record-unit"]
    assert [f.title for f in found.fixes] == [f"write {t}" for t in titles]


def test_the_stage_by_its_name_on_site() -> None:
    (found,) = [d for d in told(SPEC.replace("after sealing", "after siliconing")) if d.name == "unknown-stage"]
    assert [f.title for f in found.fixes] == ["write sealing"]


def test_the_stage_is_told_beside_other_mistakes() -> None:
    spec = SPEC.replace("after sealing", "after siliconing").replace("practice EN", "practice EU")
    assert [d.name for d in told(spec)] == ["unknown-family", "unknown-stage"]
