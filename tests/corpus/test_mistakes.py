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


FIXES = [
    (path, n, m) for path in CASES for n, d in enumerate(told(path)) for m, f in enumerate(d.fixes)
    # A mistake in a stock file is mended there.
    if all(Path(e.span.file).name == path.name for e in f.edits)
]


@pytest.mark.parametrize(("path", "which", "fix"), FIXES, ids=[f"{name(p)}-{n}-{m}" for p, n, m in FIXES])
def test_what_it_says_to_write_mends_it(path: Path, which: int, fix: int) -> None:
    fault = told(path)[which]
    mended = _apply(path, fault.fixes[fix])
    assert mended is not None
    after = told(path, Edited(str(path), mended))
    assert (fault.name, fault.message) not in [(d.name, d.message) for d in after]
    assert len(after) <= len(expected(path)), "mending one mistake makes no other"


def _apply(path: Path, fix: Fix) -> str | None:
    text = path.read_text(encoding="utf-8")
    for edit in sorted(fix.edits, key=lambda e: -e.span.start):
        if Path(edit.span.file).name != path.name:
            return None
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text


def test_many_mistakes_at_once() -> None:
    """A mistake in one statement hides none in another: bodies of many cases in one file tell all they told alone."""
    chosen = ["weight-in-kg", "attribute-misspelt", "class-of-grout", "bond-unknown"]
    found = [p for p in CASES if name(p) in chosen]
    text, codes, room = [], [], 0
    for path in found:
        body = path.read_text(encoding="utf-8")
        if any(word in body for word in ("\njob", "\nroom", "\nuse")):
            continue
        room += 1
        text.append(f'room "Room {room}" height 2.4\n{body}')
        codes += expected(path)
    assert codes
    host = Edited(str(FOLDER / "many.tilespec"), "\n".join(text))
    said = [d.code for d in pipeline.compile(str(FOLDER / "many.tilespec"), host).diagnostics if d.severity is Severity.ERROR]
    for code in codes:
        assert code in said
