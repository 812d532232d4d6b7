"""A text read again after an edit is what it is when it is read from nothing; and little of it is read."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.editor.test_desk import TWO_ROOMS
from tilespec.editor.place import Typed, moved
from tilespec.source import Source
from tilespec.syntax.parse import parse

SPEC = "/job.tilespec"
SNIPPETS = (
    "\n", " ", "# said", "wall A\n", "wall A; wall B\n", "\nfloor", "job", "  tile field; joint 3\n", "é", "\u200b", "\t", '"',
    "tile x 300x300\nwall C\n", "floor 2.4 x 1.8", "stray words\n", "   \n\n",
)
EDITS = st.lists(st.tuples(st.integers(0, 10_000), st.integers(0, 60), st.sampled_from(SNIPPETS)), min_size=1, max_size=6)


def shown(typed: Typed, text: str) -> tuple[object, ...]:
    outcome = typed.read(Source(SPEC, text))
    version = typed.version
    assert version is not None
    places = [(version.offset(s.base), version.offset(s.base + s.end - 1) + 1, s) for s in outcome.value.statements]
    assert [s.base for _, _, s in places] == sorted({s.base for _, _, s in places}), "seats in the order of the text"
    found = sorted(repr(moved(d, version.back)) for d in outcome.diagnostics)
    return places, outcome.value.comments, found


@settings(max_examples=300, deadline=None)
@given(EDITS)
def test_edits_read_as_the_text_from_nothing(edits: list[tuple[int, int, str]]) -> None:
    text = TWO_ROOMS
    typed = Typed(SPEC)
    shown(typed, text)
    for at, taken, new in edits:
        at %= len(text) + 1
        text = text[:at] + new + text[at + taken :]
        now = shown(typed, text)
        assert now == shown(Typed(SPEC), text)
    plain = parse(Source(SPEC, text)).value
    assert [s for _, _, s in now[0]] == list(plain.statements)  # type: ignore[attr-defined]
    assert now[1] == plain.comments


def test_an_edit_reads_its_own_statement_only() -> None:
    typed = Typed(SPEC)
    typed.read(Source(SPEC, TWO_ROOMS))
    before = typed.kept.count
    typed.read(Source(SPEC, TWO_ROOMS.replace("floor 2.0 x 1.5", "floor 2.1 x 1.5")))
    assert typed.kept.count == before + 1
    # What was there before is remembered.
    typed.read(Source(SPEC, TWO_ROOMS))
    assert typed.kept.count == before + 1
