"""The one register of diagnostics."""

from __future__ import annotations

import re

import pytest

from tilespec.diagnostics.catalogue import UnknownDiagnostic, entries, explain, problem
from tilespec.diagnostics.model import Severity
from tilespec.source import Span

STAGES = ("source", "syntax", "job", "workspace", "checks")


def test_codes_and_names_are_used_once() -> None:
    listed = entries()
    assert len({e.code for e in listed}) == len(listed)
    assert len({e.name for e in listed}) == len(listed)
    assert [e.code for e in listed] == sorted(e.code for e in listed)


@pytest.mark.parametrize("entry", entries(), ids=lambda e: e.name)
def test_every_entry_is_well_formed(entry) -> None:  # type: ignore[no-untyped-def]
    assert re.fullmatch(r"T\d{4}", entry.code)
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", entry.name)
    assert entry.stage in STAGES
    assert entry.title and entry.title[0].isupper() and not entry.title.endswith(".")


def test_explain_by_code_and_by_name() -> None:
    assert explain("T2001").name == "wet-zone-without-membrane"
    assert explain("t2001") is explain(" Wet-Zone-Without-Membrane ")


@pytest.mark.parametrize(
    ("asked", "near"),
    [
        ("low-windw-cut", "low-window-cut"),
        ("joint too narow", "joint-too-narrow"),
        ("T200l", None),
        ("something else", None),
    ],
)
def test_explain_names_the_nearest(asked: str, near: str | None) -> None:
    with pytest.raises(UnknownDiagnostic) as caught:
        explain(asked)
    assert caught.value.suggestion == near
    assert asked in str(caught.value)


def test_problem_takes_code_severity_and_stage_from_the_catalogue() -> None:
    span = Span("job.tilespec", 3, 7)
    made = problem("low-window-cut", span, "A message.", "label", "help")
    assert (made.code, made.severity, made.stage) == ("T2402", Severity.WARNING, "checks")
    assert (made.primary.span, made.primary.text, made.help) == (span, "label", "help")
    with pytest.raises(KeyError):
        problem("no-such-name", span, "A message.")
