"""Whatever stands in a file: it is read to the end, nothing crashes, and every place lies in the text."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic
from tilespec.diagnostics.text import render
from tilespec.source import Source, Span
from tilespec.syntax.nodes import Tree
from tilespec.syntax.parse import parse
from tilespec.syntax.words import ATTRIBUTES, BOTH, STATEMENTS
from tilespec.workspace.host import MemoryHost

EXAMPLES = {p.name: p.read_text(encoding="utf-8") for p in (Path(__file__).parents[2] / "examples").glob("*.tilespec")}
WORDS = (*STATEMENTS, *BOTH, *ATTRIBUTES)
TOKENS = (
    *WORDS, "A", "B", "white", '"Bathroom"', '"', "2.4", "2,4", "0", "600x300x9", "x", "1:60", "3 mm", "20 kg/m2", "7 ft 3 in",
    "½", "2026-03-09", "2026-02-31", "07:30-16:00", ";", ",", "#", "\n", "\n  ", "\n\t", " ", "from left", "from wall A", "up",
    "high", "of", "\u200b", "\u202e", "х", "٣", "\x00", "\x0c", "\u2028", "ﬁ", "🛁", "класс", "%", "(", "\\",
)


def spans(tree: Tree, diagnostics: tuple[Diagnostic, ...]) -> Iterator[Span]:
    for s in tree.statements:
        yield s.span()
        for a in s.args:
            yield s.span(a)
        for line in s.lines:
            for attribute in line.attributes:
                yield s.span(attribute)
                for atom in attribute.args:
                    yield s.span(atom)
                    assert attribute.start <= atom.start <= atom.end <= attribute.end
    for d in diagnostics:
        yield d.primary.span
        yield from (label.span for label in d.secondary)
        yield from (edit.span for fix in d.fixes for edit in fix.edits)


def read(text: str) -> None:
    source = Source("job.tilespec", text)
    outcome = parse(source)
    for span in spans(outcome.value, outcome.diagnostics):
        assert span.file == source.name and 0 <= span.start <= span.end <= len(text)
    bases = [s.base for s in outcome.value.statements]
    assert bases == sorted(set(bases))
    assert list(outcome.diagnostics) == sorted(outcome.diagnostics, key=lambda d: d.primary.span.start)


def compile(text: str) -> None:
    text = text.replace("\0", " ")   # refused before it is read
    compiled = pipeline.compile("job.tilespec", MemoryHost({"/job.tilespec": text, **{f"/{n}": t for n, t in EXAMPLES.items()}}))
    for d in compiled.diagnostics:
        size = len(compiled.sources[d.primary.span.file].text)
        assert 0 <= d.primary.span.start <= d.primary.span.end <= size
    render(compiled.diagnostics, compiled.sources)


@given(st.text(max_size=200))
@example('"')
@example(";;;;")
@example("\u200b")
@example("floor 2.4 x \u200b")
@example("x" * 5000)
def test_any_text(text: str) -> None:
    read(text)


@given(st.lists(st.sampled_from(TOKENS), max_size=40).map(" ".join))
@settings(max_examples=300)
def test_any_words_of_the_language(text: str) -> None:
    read(text)


@given(st.lists(st.sampled_from(TOKENS), max_size=40).map(" ".join))
@settings(max_examples=150, deadline=None)
def test_the_job_of_any_words(text: str) -> None:
    compile(text)


MUTATION = st.tuples(st.integers(0, 10**6), st.integers(0, 12), st.sampled_from(("", *TOKENS)))


@given(st.sampled_from(sorted(EXAMPLES)), st.lists(MUTATION, min_size=1, max_size=4))
@settings(max_examples=150, deadline=None)
def test_examples_with_changes(name: str, changes: list[tuple[int, int, str]]) -> None:
    text = EXAMPLES[name]
    for at, length, new in changes:
        at %= len(text) + 1
        text = text[:at] + new + text[at + length :]
    compile(text)


@given(st.sampled_from(sorted(EXAMPLES)), st.data())
@settings(max_examples=60, deadline=None)
def test_examples_with_lines_out_of_order(name: str, data: st.DataObject) -> None:
    lines = EXAMPLES[name].split("\n")
    compile("\n".join(data.draw(st.permutations(lines))))


@pytest.mark.parametrize(
    "unit",
    [
        "floor 2.4 x 1.8\n", "floor 2.4 x 1.8; ", "tile t ", '"', "; ", "  base\n", "2,4 ", "1 1/2 ", "9", "'", "7 ft ", "x", "-",
        ".", "(", "é", "\u200b", "1:", "a-", "floor walk " + "A 2.4, " * 20,
    ],
)
def test_long_input_takes_work_in_proportion(unit: str) -> None:
    """Counted in steps of the interpreter, not in time: four times the text, about four times the steps."""
    few, many = _steps(unit, 250), _steps(unit, 1000)
    assert many < few * 8


def _steps(unit: str, times: int) -> int:
    import sys

    source = Source("job.tilespec", "floor 2.4 x 1.8\n" + unit * times)
    count = 0

    def trace(frame: object, event: str, argument: object) -> None:
        nonlocal count
        count += 1

    parse(Source("job.tilespec", unit))     # the table is built once
    sys.setprofile(trace)
    try:
        parse(source)
    finally:
        sys.setprofile(None)
    return count
