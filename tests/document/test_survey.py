"""The survey sheet: what is open stands on it once, what the spec says does not, and the blank one holds for every family."""

from __future__ import annotations

import re
from functools import lru_cache
from io import BytesIO
from pathlib import Path

import pypdf
import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from tilespec import pipeline
from tilespec.document import pdf, survey
from tilespec.document.escape import md_escape
from tilespec.document.templates import Templates
from tilespec.practice.lookup import PARENTS, practice
from tilespec.workspace.host import DiskHost, MemoryHost

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = ("one-line", "shower-room", "flat", "us-bathroom")
# A small spec: some of everything that can be open.
SMALL = """\
job "Toilet at the boathouse"
  ref BH-20; date 2026-03-02; practice EN; built 1962; empty
  begin 2026-03-09; hours mon-fri 07:30-16:00; crew tiler 1, helper 1; rooms measured to bare wall; notice 24 h
conditions air 19 C; humidity 60 %; surface 17 C
tile ground 600x600x9 porcelain rectified; weight 20 kg/m2; box of 4
room "Toilet" height 2.4
datum 1.0 above finished floor
floor 0.95 x 1.5
  base cement screed; thickness 60 mm
  tile ground; joint 3; hall floor +8; diagonals 1.776, 1.776
wall A
  base cement render; laid 2025-01-12
  tile ground; joint 3; heights left 2.4, right 2.4
wall B
  base gypsum plasterboard
  tile ground; joint 3; door 0.7 x 2.0; 0.2 from left
"""
# The same with all of it answered.
ANSWERED = (
    ("thickness 60 mm\n", "thickness 60 mm; laid 2025-12-08\n"),
    ("  base gypsum plasterboard\n", "  base gypsum plasterboard; unskimmed; out of plumb 0\n"),
)
RECORDS = """\
record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 1.6 CM%
record substrate on floor 2026-03-06 by "J. Rook"; result pass
record substrate on wall A 2026-03-06 by "J. Rook"; result pass
record substrate on wall B 2026-03-06 by "J. Rook"; result pass
"""


class MarkdownSnapshot(SingleFileSnapshotExtension):
    _write_mode = WriteMode.TEXT
    file_extension = "md"


def compiled(text: str) -> pipeline.Compiled:
    return pipeline.compile("/job.tilespec", MemoryHost({"/job.tilespec": text}))


@lru_cache(maxsize=None)
def example(name: str) -> pipeline.Compiled:
    return pipeline.compile(str(EXAMPLES / f"{name}.tilespec"), DiskHost())


def sheet(of: pipeline.Compiled) -> survey.Sheet:
    assert of.plan is not None
    return survey.open_questions(of.plan.job, tuple(of.sources.values()))


def text(of: pipeline.Compiled) -> str:
    return survey.markdown(sheet(of), Templates())


def test_the_sheet_of_a_small_spec(snapshot: SnapshotAssertion) -> None:
    # The version is that of the day.
    printed = re.sub(r"tilespec [0-9.]+$", "tilespec VERSION", text(compiled(SMALL)), flags=re.M)
    assert printed == snapshot(extension_class=MarkdownSnapshot)


@pytest.mark.parametrize("family", ["EN", "US"])
def test_the_blank_sheet(family: str, snapshot: SnapshotAssertion) -> None:
    printed = survey.markdown(survey.blank(practice(family)), Templates())
    printed = re.sub(r"tilespec [0-9.]+$", "tilespec VERSION", printed, flags=re.M)
    assert printed == snapshot(extension_class=MarkdownSnapshot)


@pytest.mark.parametrize("name", NAMES)
def test_every_question_stands_on_the_sheet_once(name: str) -> None:
    of = example(name)
    assert of.plan is not None
    printed, questions = text(of), of.plan.job.questions
    rows = [line for line in printed.splitlines() if line.startswith("|")]
    for q in questions:
        assert len([r for r in rows if r.startswith(f"| {md_escape(q.text)} ") or f" {md_escape(q.text)} |" in r]) == 1, q.text
    asked = [r for group in sheet(of).groups for r in group.questions]
    assert sorted(r.text.text for r in asked) == sorted(q.text for q in questions)
    # What is answered one by one has a row for each.
    assert printed.count("**heights left**") == sum(len(q.each) for q in questions if q.topic == "wall-true")


@pytest.mark.parametrize("name", NAMES)
def test_every_mark_leads_to_what_stands_behind_it(name: str) -> None:
    printed = text(example(name))
    marks = set(re.findall(r"\^([DRW][0-9]+)\^", printed))
    assert marks == set(re.findall(r"\^([DRW][0-9]+):\^", printed))


def test_what_is_answered_leaves_the_sheet() -> None:
    said = SMALL
    for before, after in ANSWERED:
        assert before in said
        said = said.replace(before, after)
    for topic in ("laid", "skimmed", "moist", "flat", "plumb"):
        assert topic in text(compiled(SMALL))
    said += RECORDS
    of = compiled(said)
    assert not of.failed and of.plan is not None
    # Only the products are left: no line says which are bought.
    assert [q.topic for q in of.plan.job.questions] == ["products"]
    left = text(of)
    assert "## Read on the data sheet" in left and "## Look and measure" not in left and "**laid**" not in left


@pytest.mark.parametrize("family", tuple(PARENTS))
def test_the_blank_sheet_is_in_the_family_s_units_with_its_limits(family: str) -> None:
    blank = survey.blank(practice(family))
    assert (blank.units.room.text, blank.paper) == (("ft", "Letter") if family == "US" else ("m", "A4"))
    assert blank.limits is not None and {m.base for m in blank.limits.moisture} == {"cement-screed", "calcium-sulfate-screed"}
    printed = survey.markdown(blank, Templates())
    assert not re.search(r"None|Undefined|\{\{|%\}", printed)


def test_a_spec_is_never_markup_on_the_sheet() -> None:
    of = compiled(SMALL.replace('"Toilet"', '"<b>Toilet</b> | [x](http://example.com)"'))
    html = survey.page(sheet(of), Templates()).standalone()
    assert "<b>Toilet" not in html and 'href="http' not in html
    assert "&lt;b&gt;Toilet" in html


@pytest.mark.pdf
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("family", ["EN", "US"])
def test_the_blank_sheet_is_one_sheet_of_paper(family: str, paper: str) -> None:
    made = pdf.write(survey.page(survey.blank(practice(family)), Templates(), paper=paper))
    pages = pypdf.PdfReader(BytesIO(made.data)).pages
    assert len(pages) == 2 and not made.notes and not made.missing
    # A heading and its table stay on the page they belong to.
    assert "Floor" in pages[0].extract_text() and "Windows" in pages[1].extract_text()


@pytest.mark.pdf
def test_the_sheet_of_a_spec_as_a_pdf() -> None:
    order = pipeline.Order("pdf")
    one, two = (pipeline.survey(example("one-line"), order) for _ in range(2))
    assert one.data == two.data and not one.notes
    assert "/job" not in pypdf.PdfReader(BytesIO(one.data)).pages[0].extract_text()


def test_a_spec_with_errors_has_no_sheet() -> None:
    with pytest.raises(ValueError, match="has errors"):
        pipeline.survey(compiled("floor 2,4 x 1.8\n"), pipeline.Order("md"))
