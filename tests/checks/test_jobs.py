"""Whole jobs with faults of workmanship, as tilers get them wrong: each shows exactly the rules that its head expects.

The head of a job says on its first line, in plain words, what is wrong, and on its second which rules have to find it. The codes
were written by somebody who had not seen the rules. A job with `# pending:` in its head waits for the rule that it names.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic, Severity
from tilespec.workspace.host import DiskHost

JOBS = sorted((Path(__file__).parent / "jobs").glob("*.tilespec"))


def head(path: Path, word: str) -> list[str]:
    """The lines of the head that begin with this word."""
    return re.findall(rf"^# {word}: (.*)$", path.read_text(encoding="utf-8"), re.M)


def expected(path: Path) -> list[str]:
    (line,) = head(path, "expect")
    return line.split()


def told(path: Path) -> tuple[Diagnostic, ...]:
    found = pipeline.compile(str(path), DiskHost()).diagnostics
    return tuple(d for d in found if d.severity in (Severity.ERROR, Severity.WARNING))


def cases() -> list[object]:
    return [
        pytest.param(path, id=path.stem, marks=[pytest.mark.xfail(strict=True, reason="; ".join(waits))] if waits else [])
        for path in JOBS
        for waits in [head(path, "pending")]
    ]


def test_there_are_enough() -> None:
    codes = [code for path in JOBS for code in expected(path)]
    assert len(JOBS) >= 30
    assert len(codes) >= 60 and len(set(codes)) >= 45


@pytest.mark.parametrize("path", cases())
def test_a_job_shows_its_faults_and_no_others(path: Path) -> None:
    assert Counter(d.code for d in told(path)) == Counter(expected(path))


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_the_faults_are_of_the_work_not_of_the_language(path: Path) -> None:
    assert not [d.message for d in told(path) if d.code < "T2"]
