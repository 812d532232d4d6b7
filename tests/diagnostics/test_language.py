"""The language's own diagnostics: each is explained, its bad sample has that fault and no other, its good sample has none."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tilespec import pipeline
from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.language import ENTRIES
from tilespec.diagnostics.model import Severity
from tilespec.workspace.host import MemoryHost
from tilespec.workspace.load import MAX_FILES

PACKAGE = Path(__file__).resolve().parent.parent.parent / "tilespec"

# What the samples about files name.
FILES = {
    "/house-stock.tilespec": "grout fine class CG2WA\n",
    "/circle.tilespec": 'use "circle.tilespec"\n',
    "/with-a-floor.tilespec": "grout fine class CG2WA\nfloor 1.2 x 0.9\n",
    "/first-of-many.tilespec": "".join(f'use "stock-{n}.tilespec"\n' for n in range(MAX_FILES + 5)),
    **{f"/stock-{n}.tilespec": f"grout fine-{n} class CG2WA\n" for n in range(MAX_FILES + 5)},
}


def codes(text: str, own: Entry) -> set[str]:
    """Codes of the errors in a sample, and the entry's own whatever its severity."""
    compiled = pipeline.compile("job.tilespec", MemoryHost({"/job.tilespec": text, **FILES}))
    return {d.code for d in compiled.diagnostics if d.severity is Severity.ERROR or d.code == own.code}


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.name)
def test_the_samples(entry: Entry) -> None:
    assert codes(entry.bad, entry) == {entry.code}
    assert codes(entry.good, entry) == set()


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.name)
def test_the_good_sample_is_the_nearest_one(entry: Entry) -> None:
    bad, good = entry.bad.splitlines(), entry.good.splitlines()
    assert 0 < len([a for a in bad if a not in good] + [b for b in good if b not in bad]) <= 4


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.name)
def test_the_explanation_is_plain_sentences(entry: Entry) -> None:
    assert re.match(r"[A-Z].*[.]$", entry.explanation, re.S)
    assert len(entry.explanation) < 400


def test_nothing_is_listed_that_nothing_raises() -> None:
    code = "\n".join(p.read_text(encoding="utf-8") for p in PACKAGE.rglob("*.py") if p.name != "language.py")
    assert [e.name for e in ENTRIES if f'"{e.name}"' not in code] == []
