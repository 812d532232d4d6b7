"""Lengths in what the rules say: on the tape of the family; a borrowed limit on both tapes, the family's own first."""

from __future__ import annotations

import re

import pytest

from tests.checks.specs import PATH
from tilespec import pipeline
from tilespec.checks import RULES
from tilespec.practice.lookup import PARENTS, entries
from tilespec.workspace.host import MemoryHost

LONE = re.compile(r"(?<![(\d/.])(?<!\d )\d[\d /.]* (?:in|ft)\b(?! [a-z])")


def _of(spec: str, family: str) -> str:
    """The spec in the family's practice."""
    if re.search(r"^  practice ", spec, re.M):
        return re.sub(r"^  practice .*$", f"  practice {family}", spec, flags=re.M)
    if re.search(r"^job ", spec, re.M):
        return re.sub(r"^(job .*)$", rf"\1\n  practice {family}", spec, count=1, flags=re.M)
    return f'job "Bathroom"\n  practice {family}\n{spec}'


@pytest.mark.parametrize("family", list(PARENTS))
def test_lengths_are_on_the_tape_of_the_family(family: str) -> None:
    held = [e for f in ("EN", "common") for e in entries(f).values() if e.shown in ("mm", "cm", "m")]
    borrowed = {e.what[:1].lower() + e.what[1:] for e in held}
    wrong: list[str] = []
    several = 0
    for rule in RULES:
        spec = _of(rule.bad, family)
        for d in pipeline.compile(PATH, MemoryHost({PATH: spec})).diagnostics:
            if d.stage != "checks":
                continue
            several += 1
            for text in (d.message, d.help, d.primary.text, *d.notes):
                if family != "US":
                    # What the spec says in inches stays as it was said.
                    written = re.search(r"\d (in|ft)\b|\"", spec.partition("\n")[2])
                    bare = re.sub(r"\([^()]* (?:in|ft)\)", "", text.partition(": ")[0] if text.startswith("Limit:") else text)
                    if not written and LONE.search(bare):
                        wrong.append(f"{rule.name}: {text}")
                elif text.startswith("Limit: ") and any(text.startswith(f"Limit: {what}, ") for what in borrowed):
                    if re.search(r", [\d.]+ (mm|cm|m) \(", text):
                        wrong.append(f"{rule.name}: {text}")
    assert several > 100
    assert wrong == []
