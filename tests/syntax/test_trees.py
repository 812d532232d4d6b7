"""Corpus of the syntax: each case is a title, a source and the tree that it must give, in corpus/*.txt grouped by construct.

A tree line is a statement (`kind args`), below it its lines (`-`) and their attributes. `!` before a statement says that
a part of it could not be read. What was reported stands below as `code line:column-column`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from tilespec.outcome import Outcome
from tilespec.source import Source
from tilespec.syntax.nodes import Atom, Tree
from tilespec.syntax.parse import parse

FOLDER = Path(__file__).parent / "corpus"


@dataclass(frozen=True)
class Case:
    title: str
    source: str
    tree: str


def cases(path: Path) -> list[Case]:
    found = []
    for part in re.split(r"^={3,}\n", path.read_text(encoding="utf-8"), flags=re.M)[1:]:
        title, rest = part.split("\n", 1)
        source, tree = re.split(r"^-{3,}\n", rest, maxsplit=1, flags=re.M)
        found.append(Case(title, source, tree.strip("\n")))
    return found


def _atom(a: Atom) -> str:
    return f'"{a.text}"' if a.kind == "string" else a.text if a.kind == "name" else f"{a.kind}:{a.text}"


def draw(outcome: Outcome[Tree], source: Source) -> str:
    lines = []
    for st in outcome.value.statements:
        lines.append(" ".join(["! " * st.broken + st.kind, *map(_atom, st.args)]))
        for n, line in enumerate(st.lines):
            if n or line.attributes:
                lines.append("  -")
            lines += ["    " + " ".join([a.kind, *map(_atom, a.args)]) for a in line.attributes]
    for d in outcome.diagnostics:
        line, start = source.line_column(d.primary.span.start)
        end = source.line_column(d.primary.span.end)[1]
        lines.append(f"{d.code} {line}:{start}-{end}")
    return "\n".join(lines)


ALL = [(path.stem, case) for path in sorted(FOLDER.glob("*.txt")) for case in cases(path)]


def test_the_corpus_is_there() -> None:
    assert len(ALL) >= 40
    assert len({case.title for _, case in ALL}) == len(ALL)


@pytest.mark.parametrize(("group", "case"), ALL, ids=[f"{g}: {c.title}" for g, c in ALL])
def test_tree(group: str, case: Case) -> None:
    source = Source("job.tilespec", case.source)
    assert draw(parse(source), source) == case.tree
