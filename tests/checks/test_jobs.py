"""Whole jobs with faults of workmanship, as tilers get them wrong: each shows exactly the rules that its head expects.

The head of a job says on its first line, in plain words, what is wrong, and on its second which rules have to find it: as a tiler
judges, written down before the rules were run on it.
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
    """What the lines of the head say that begin with this word."""
    return re.findall(rf"^# {word}: (.*)$", path.read_text(encoding="utf-8"), re.M)


def expected(path: Path) -> Counter[str]:
    (line,) = head(path, "expect")
    return Counter(line.split())


def told(path: Path) -> tuple[Diagnostic, ...]:
    found = pipeline.compile(str(path), DiskHost()).diagnostics
    return tuple(d for d in found if d.severity in (Severity.ERROR, Severity.WARNING))


def codes(path: Path) -> Counter[str]:
    return Counter(d.code for d in told(path))


def name(path: Path) -> str:
    return path.stem


def test_there_are_enough() -> None:
    all_codes = [code for path in JOBS for code in expected(path).elements()]
    assert len(JOBS) >= 30
    assert len(all_codes) >= 60 and len(set(all_codes)) >= 45


@pytest.mark.parametrize("path", JOBS, ids=name)
def test_a_job_shows_its_faults_and_no_others(path: Path) -> None:
    assert codes(path) == expected(path)


@pytest.mark.parametrize("path", JOBS, ids=name)
def test_the_faults_are_of_the_work_not_of_the_language(path: Path) -> None:
    assert not [d.message for d in told(path) if d.code < "T2"]
