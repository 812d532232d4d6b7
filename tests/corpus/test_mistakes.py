"""The mistakes that tilers make, one a file: each is told once, in words that are kept as a snapshot, and what it says to write
instead mends it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic, Fix, Severity
from tilespec.diagnostics.text import render
from tilespec.workspace.host import DiskHost

FOLDER = Path(__file__).parent / "mistakes"
# A case is a file, or a folder whose spec is `job.tilespec` (or lies in its folder `site`).
CASES = sorted(path for where in ("*.tilespec", "*/job.tilespec", "*/site/job.tilespec") for path in FOLDER.glob(where))


class OneFile(SingleFileSnapshotExtension):
    """Messages as text, one file each."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


class Edited(DiskHost):
    """The disk, with one file changed."""

    def __init__(self, path: str, text: str) -> None:
        self.path, self.text = self.real(path), text

    def read(self, path: str) -> str:
        return self.text if self.real(path) == self.path else super().read(path)


def name(path: Path) -> str:
    return path.relative_to(FOLDER).parts[0].removesuffix(".tilespec")


def expected(path: Path) -> list[str]:
    found = re.search(r"^# expect: (.*)$", path.read_text(encoding="utf-8"), re.M)
    assert found, "the second line says the codes"
    return found[1].split()


def told(path: Path, host: DiskHost | None = None) -> tuple[Diagnostic, ...]:
    """What is said of the case: errors, and what its head expects."""
    compiled = pipeline.compile(str(path), host or DiskHost())
    codes = expected(path)
    return tuple(d for d in compiled.diagnostics if d.severity is Severity.ERROR or d.code in codes)


@pytest.fixture
def message(snapshot: SnapshotAssertion) -> SnapshotAssertion:
    return snapshot.use_extension(OneFile)


def test_there_are_enough() -> None:
    assert len(CASES) >= 40
    assert len({code for path in CASES for code in expected(path)}) >= 40


@pytest.mark.parametrize("path", CASES, ids=name)
def test_each_mistake_is_told_once(path: Path) -> None:
    assert sorted(d.code for d in told(path)) == sorted(expected(path))


@pytest.mark.parametrize("path", CASES, ids=name)
def test_the_message(path: Path, message: SnapshotAssertion) -> None:
    compiled = pipeline.compile(str(path), DiskHost())
    shown = render(told(path), compiled.sources)
    assert shown.replace(str(FOLDER), "mistakes") == message


FIXES = [(path, n, m) for path in CASES for n, d in enumerate(told(path)) for m, _ in enumerate(d.fixes)]


@pytest.mark.parametrize(("path", "which", "fix"), FIXES, ids=[f"{name(p)}-{n}-{m}" for p, n, m in FIXES])
def test_what_it_says_to_write_mends_it(path: Path, which: int, fix: int) -> None:
    before = told(path)
    fault = before[which]
    after = told(path, _mended(fault.fixes[fix]))
    assert (fault.name, fault.message) not in [(d.name, d.message) for d in after]
    assert {d.code for d in after} <= {d.code for d in before}, "mending one mistake makes no other"


def _mended(fix: Fix) -> Edited:
    """The disk with a fix written; a mistake in a stock file is mended there."""
    files = {edit.span.file for edit in fix.edits}
    assert len(files) == 1
    file = files.pop()
    text = Path(file).read_text(encoding="utf-8")
    for edit in sorted(fix.edits, key=lambda e: -e.span.start):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return Edited(file, text)


MANY = """# One mistake a line, of every stage.
job "Bathroom"
  ref BH-07; dat 2026-03-02
  practice uk; hours mon-fri 16:00-07:30
  begin 2026-02-30
conditions air 68; humidity 60 C
adhesive flex class C3TE; colour gery
limit joint-min-flor 3 mm because "our habit"
tile white 600x300x9 porcelian; weight 3.6 kg
tile white 300x300x9 porcelain
tile slab 600 by 600 porcelain
flor 1.0 x 1.0
room "Bathroom" height 2400
floor 2,4 x 1.8
  base bamboo
  tile withe; joint 3
  drain 0.45 from wall F, 0.45 from wall A
wall A
  tile white; joint 0.003
  window 0.6 x 0.9; 2.1 from left, 1.2 up
  niche 0.6 x 0.3; 0.5 from left, 0.2 up
wall A
  base concrete
wall E
  tile white; joint 3
shower in corner A C, 0.9 x 0.9
step "Fit the screen" by glazier
deviation low-window-cut on wall A
record membrain on floor 2026-03-05 by "J. Rook"
"""
MANY_CODES = (
    "T0107 T0209 T0305 T0304 T0303 T0302 T0208 T0211 T0215 T0207 T0302 T0203 T0106 T0101 T0303 T0301 T0206 T0201 T0204 T0303"
    " T0403 T0213 T0203 T0204 T0405 T0213 T0213 T0602"
).split()


def test_many_mistakes_at_once() -> None:
    """A mistake in one statement hides none in another: all of them in one run, in the order of the lines."""
    path = str(FOLDER / "many.tilespec")
    found = pipeline.compile(path, Edited(path, MANY)).diagnostics
    assert [d.code for d in found if d.severity is Severity.ERROR] == MANY_CODES
