"""A letter left out of any word of the examples is one mistake: it gives one message at most."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tilespec import pipeline
from tilespec.diagnostics.model import Severity
from tilespec.workspace.host import MemoryHost

EXAMPLES = {p.name: p.read_text(encoding="utf-8") for p in (Path(__file__).parents[2] / "examples").glob("*.tilespec")}
WORD = re.compile(r"[A-Za-z][a-z-]{3,}")


def errors(name: str, text: str) -> list[str]:
    files = {f"/{n}": t for n, t in EXAMPLES.items()} | {f"/{name}": text}
    found = pipeline.compile(name, MemoryHost(files)).diagnostics
    return [f"{d.code} {d.message}" for d in found if d.severity is Severity.ERROR]


def slips(text: str) -> list[tuple[str, str]]:
    """Each word of the language, once, and the text with its third letter left out where it stands first."""
    bare = re.sub(r'#.*|"[^"\n]*"', lambda m: " " * len(m[0]), text)
    places = {m[0]: m.start() for m in reversed(list(WORD.finditer(bare)))}
    return [(word, text[: at + 2] + text[at + 3 :]) for word, at in places.items()]


@pytest.mark.parametrize("name", [pytest.param(n, marks=pytest.mark.slow) for n in sorted(EXAMPLES)])
def test_one_slip_one_message(name: str) -> None:
    told = {word: errors(name, text) for word, text in slips(EXAMPLES[name])}
    assert {word: found for word, found in told.items() if len(found) > 1} == {}
    # Most slips are seen; what is not are names of the writer's own and trades.
    assert sum(bool(found) for found in told.values()) > len(told) * 0.6
