"""A file read block by block is the file read as a whole."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tilespec.editor.place import Typed, moved
from tilespec.source import Source
from tilespec.syntax.nodes import Statement
from tilespec.syntax.parse import parse
from tilespec.syntax.split import blocks

EXAMPLES = sorted((Path(__file__).resolve().parent.parent.parent / "examples").glob("*.tilespec"))
PARTS = st.sampled_from([
    "wall A", "wall", "  base concrete", "\tjoint 3", "joint 3", "tile on centre", "tile field 300x300", "shower zone",
    "shower in corner A B", "bath", "# a", "  # b", "", " ", "wal B", "room \"x\"; floor 2 x 2", "floor 2 x 2; wall A",
    "  room \"y\"", '"', "floor \u200b2 x 2", "2.4 x 1,8", "floor 2 x 2; joint 3", "; wall A", "tile", "adhesive grip class C2",
    "adhesive-x", "\u00a0\u00a0drain", "wall\u00a0A",
])  # fmt: skip


def placed(st: Statement, base: int) -> tuple[object, ...]:
    atoms = [(a.kind, a.text, a.start, a.end) for a in st.args]
    attributes = [[(a.kind, a.start, a.end, [(x.kind, x.text, x.start, x.end) for x in a.args]) for a in line.attributes]
                  for line in st.lines]  # fmt: skip
    return st.kind, atoms, attributes, st.broken, base, st.head_end, st.end


def same(text: str) -> None:
    source = Source("x", text)
    whole = parse(source)
    typed = Typed("x")
    found = typed.read(source)
    seated = typed.version
    assert seated is not None
    if not seated.cleaned.taken:
        now = [placed(s, seated.offset(s.base)) for s in found.value.statements]
        assert now == [placed(s, s.base) for s in whole.value.statements]
    assert found.value.comments == whole.value.comments
    back = [moved(d, seated.back) for d in found.diagnostics]
    assert sorted(map(str, back)) == sorted(map(str, whole.diagnostics))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_an_example(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    same(text)
    assert len(blocks(text)) > (1 if text.count("\n") > 3 else 0)


@given(st.lists(PARTS, max_size=8).map("\n".join))
def test_any_lines(text: str) -> None:
    same(text)


@given(st.lists(st.lists(PARTS, max_size=8).map("\n".join), min_size=2, max_size=3))
def test_one_version_after_another(texts: list[str]) -> None:
    typed = Typed("x")
    for text in texts:
        typed.read(Source("x", text))
    assert typed.version is not None
    again = Typed("x").read(Source("x", texts[-1]))
    found = typed.read(Source("x", texts[-1]))
    assert [s.kind for s in found.value.statements] == [s.kind for s in again.value.statements]
    assert list(typed.version.seats) == sorted(set(typed.version.seats))
