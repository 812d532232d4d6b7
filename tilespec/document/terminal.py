"""The Markdown that the templates write, as text for a terminal: without reference marks, tables as wide as there is room."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from tilespec.diagnostics.printable import printable
from tilespec.diagnostics.text import PLAIN, Palette
from tilespec.document.table import filled, table

# An escaped character stays; a reference mark and the marks of strong print go.
_INLINE = re.compile(r"\\(.)|\^[A-Z]+[a-z]*[0-9]+\^|\*\*")
_BAR = re.compile(r"(?<!\\)((?:\\\\)*)\|")
_HEAD = re.compile(r"#+ (.*?)(?: \{:.*\})?")


def render(markdown: str, columns: int | None = None, palette: Palette = PLAIN) -> str:
    """Text with a line break at its end. columns: width of the terminal; None: nothing is broken."""
    lines: list[str] = []
    rows: list[str] = []
    for line in [*markdown.split("\n"), ""]:
        if line.startswith("|"):
            rows.append(line)
            continue
        if rows:
            lines += _table(rows, columns)
            rows = []
        if line.startswith(":::"):
            continue
        if head := _HEAD.fullmatch(line):
            lines += [f"{palette.strong}{part}{palette.end}" for part in filled(plain(head[1]), columns)]
        elif line.startswith("- "):
            lines += filled(plain(line), columns, hang=2)
        elif line or (lines and lines[-1]):
            lines += filled(plain(line), columns)
    return "\n".join(lines).strip("\n") + "\n"


def plain(text: str) -> str:
    """One line of Markdown as it is read; nothing in it that a terminal obeys."""
    return printable(_INLINE.sub(lambda m: m[1] or "", text)).strip()


def cells(row: str) -> list[str]:
    """The cells of a table's row, as they are read."""
    parts, begin = [], 1
    for bar in _BAR.finditer(row, 1):
        parts.append(plain(row[begin : bar.end() - 1]))
        begin = bar.end()
    return parts


def _table(rows: Sequence[str], columns: int | None) -> Iterator[str]:
    head, rule, *body = rows
    right = [part.strip().endswith("-:") for part in rule.strip("|").split("|")]
    table_rows = [cells(r) for r in body]
    # A column in which nothing stands says nothing.
    kept = [n for n in range(len(right)) if any(r[n] for r in table_rows)]
    names, *chosen = [[r[n] for n in kept] for r in (cells(head), *table_rows)]
    return table(names, chosen, [right[n] for n in kept], columns, 2)
