"""Whole jobs with faults of workmanship, as tilers get them wrong: each shows exactly the rules that its head expects.

The head of a job says on its first line, in plain words, what is wrong, and on its second which rules have to find it: as a tiler
judges, written down before the rules were run on it. Where rule and job differ still, a line says so: `# pending: CODE missing:
reason` of a code that is expected and not told, `# pending: CODE surplus: reason` of one that is told and should not be. Take the
line out when the rule is mended. `# no rule yet` names faults that no rule looks at.
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


def pending(path: Path, how: str) -> Counter[str]:
    lines = [line.split(maxsplit=2)[:2] for line in head(path, "pending")]
    assert all(way in ("missing:", "surplus:") for _, way in lines), "a pending code is missing or surplus"
    return Counter(code for code, way in lines if way == f"{how}:")


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
    assert codes(path) == expected(path) - pending(path, "missing") + pending(path, "surplus")


@pytest.mark.xfail(strict=True, reason="the rules named by `# pending:` are still to be mended")
@pytest.mark.parametrize("path", [path for path in JOBS if head(path, "pending")], ids=name)
def test_what_is_pending(path: Path) -> None:
    assert codes(path) == expected(path)


@pytest.mark.parametrize("path", JOBS, ids=name)
def test_the_faults_are_of_the_work_not_of_the_language(path: Path) -> None:
    assert not [d.message for d in told(path) if d.code < "T2" and d.code not in pending(path, "surplus")]
