"""A deviation is told in the register and at the steps where the work meets it."""

from __future__ import annotations

import re

import pytest

from tilespec import pipeline
from tilespec.checks import RULES, SUBJECTS
from tilespec.checks.register import STAGES
from tilespec.document import Document, compose, markdown
from tilespec.document.model import Step
from tilespec.document.templates import Templates
from tilespec.sequence.stages import STAGES as ALL_STAGES
from tilespec.workspace.host import MemoryHost

PATH = "/job.tilespec"
ROOM = """\
tile floor-tile 300x300x9 porcelain; barefoot class B; weight 20 kg/m2
tile wall-tile 300x200x8 ceramic; weight 14 kg/m2
floor 2.4 x 1.8 heated
  base concrete; laid 2025-01-01
  tile floor-tile; joint 3
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 1
wall B 1.8 x 2.4
  base cement render
  tile wall-tile; joint 1
"""


def document(spec: str) -> Document:
    compiled = pipeline.compile(PATH, MemoryHost({PATH: spec}))
    p = compiled.plan
    assert p is not None and not compiled.failed, [d.message for d in compiled.diagnostics]
    stages = p.job, p.practice, p.setout, p.offcuts, p.takeoff, p.sequence, p.programme
    return compose(*stages, compiled.diagnostics, tuple(compiled.sources.values()))


def told(d: Document) -> list[Step]:
    return [s for s in d.sequence.steps if s.deviations]


def test_every_subject_has_its_stages() -> None:
    assert set(STAGES) == {s.__name__.rpartition(".")[2] for s in SUBJECTS}
    assert all(stage in ALL_STAGES for stages in STAGES.values() for stage in stages)


def test_it_stands_at_the_first_step_of_its_subject_on_its_surface() -> None:
    stiff = "adhesive stiff class C2TE; for floor\n"
    spec = stiff + ROOM + 'deviation heated-floor-without-deformable-adhesive on floor because "the maker allows it in writing"\n'
    (step,) = told(document(spec))
    assert step.stage == "floor-tiling"
    (row,) = step.deviations
    assert row.rule.text == "heated-floor-without-deformable-adhesive" and row.reason.text == "the maker allows it in writing"
    assert row.title is not None and row.title.text == next(r.title for r in RULES if r.name == row.rule.text)


def test_the_register_names_the_steps() -> None:
    d = document(ROOM + 'deviation joint-too-narrow on wall B because "as the hall"\n')
    (row,) = d.scope.deviations
    assert [s.number for s in told(d)] == list(row.steps) and row.steps


def test_both_are_printed() -> None:
    d = document(ROOM + 'deviation T2401 on wall A because "as the hall, agreed 2026-02-20"\n')
    text = markdown.render(d, Templates(), ("scope", "sequence"))
    plain = text.replace("\\", "")
    (row,) = d.scope.deviations
    assert f"| as the hall, agreed 2026-02-20 | {row.steps[0].text} |" in plain
    assert re.search(r"\*\*Deviation, wall A:\*\* .*as the hall, agreed 2026-02-20 \(T2401, L12\)\.", plain)


@pytest.mark.parametrize("place", ["wall A", "wall B"])
def test_one_that_silences_nothing_stands_at_no_step(place: str) -> None:
    """Wide joints: the rule finds nothing, and the print says in its warnings that the deviation is without effect."""
    d = document(ROOM.replace("joint 1", "joint 3") + f'deviation joint-too-narrow on {place} because "as the hall"\n')
    assert told(d) == []
    assert [row.steps for row in d.scope.deviations] == [()]
    assert "deviation-without-effect" in [w.name for w in d.scope.warnings]
