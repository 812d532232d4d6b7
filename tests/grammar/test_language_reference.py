"""The reference of the language is true: its specs compile, and no word of the grammar is missing from it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tilespec import pipeline
from tilespec.job.vocabulary import BASES, RECORDS, WAITS
from tilespec.syntax.words import ATTRIBUTES, PRODUCTS, STATEMENTS
from tilespec.workspace.host import MemoryHost

ROOT = Path(__file__).resolve().parent.parent.parent
TEXT = (ROOT / "grammar" / "LANGUAGE.md").read_text(encoding="utf-8")
STOCK = (ROOT / "examples" / "house-stock.tilespec").read_text(encoding="utf-8")
SPECS = re.findall(r"^```tilespec\n(.*?)^```$", TEXT, re.M | re.S)


@pytest.mark.parametrize("spec", SPECS, ids=range(len(SPECS)))
def test_complete_specs_compile(spec: str) -> None:
    found = pipeline.compile("/job.tilespec", MemoryHost({"/job.tilespec": spec, "/house-stock.tilespec": STOCK}))
    assert not found.failed, [d.message for d in found.diagnostics]


@pytest.mark.parametrize("word", [*STATEMENTS, *PRODUCTS, *ATTRIBUTES, *RECORDS, *WAITS, *BASES])
def test_every_word_is_in_the_reference(word: str) -> None:
    assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", TEXT), word
