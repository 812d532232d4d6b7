"""The document as Markdown, through the templates.

The text is plain Markdown with tables, plus four marks of our own that read well as they stand:
`::: name` ... `:::` frames a block, `[ ]` is a box to tick, `[____]` is a line to write on (its length by its
underscores), and `^W21^` behind a value is its reference mark. Words of the spec are escaped and cannot make any of them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from tilespec.document.model import PARTS, Document
from tilespec.document.templates import Templates
from tilespec.document.text import Ref
from tilespec.document.trace import Count, DefaultGroup, File, Formula, LimitGroup, Traces, Working, mark_order

_BLANK_LINES = re.compile(r"\n{3,}")


class UnknownPart(Exception):
    """No part has this key. The message lists those there are."""

    def __init__(self, key: str) -> None:
        super().__init__(f"no part is called {key!r}; the parts are {', '.join(PARTS)}")


def render(document: Document, templates: Templates, parts: Sequence[str] = PARTS) -> str:
    """The whole document, or some of its parts in the order of the paper; always with what stands behind their numbers.

    Raises UnknownPart, and whatever `Templates.render` raises.
    """
    for key in parts:
        if key not in PARTS:
            raise UnknownPart(key)
    whole = tuple(parts) == PARTS
    wanted = tuple(key for key in PARTS if key in parts)
    numbers = {key: Ref(str(i), "part") for i, key in enumerate(PARTS, 1)}
    marks: dict[str, None] = {}
    texts: list[str] = []

    def put(name: str, **context: object) -> None:
        text, used = templates.render(name, document.traces, document.family, document=document, numbers=numbers, **context)
        marks.update(dict.fromkeys(used))
        texts.append(text)

    put("document.md.j2", parts=wanted, whole=whole)
    for i, key in enumerate(PARTS, 1):
        if key in wanted and key != "sources":
            put(f"parts/{i:02}-{key}.md.j2", part=getattr(document, key.replace("-", "_")), no=numbers[key], whole=whole)
    sheets = document.set_out.sheets if {"set-out", "sources"} & set(wanted) else ()
    marks.update(dict.fromkeys(document.traces.mark(q) for sheet in sheets for q in sheet.sizes))
    only = wanted == ("sources",)  # by itself it lists everything
    reached = document.traces.all() if only else document.traces.reached(marks)
    put(
        f"parts/{len(PARTS)}-sources.md.j2",
        part=document.sources,
        no=numbers["sources"],
        whole=whole,
        sheets=sheets,
        behind=Behind.of(document.traces, reached, whole or only),
    )
    return tidy("\n".join(texts))


def tidy(text: str) -> str:
    """Without the empty lines that a template's own lines leave behind."""
    return _BLANK_LINES.sub("\n\n", text).strip() + "\n"


class Behind:
    """What the last part lists: everything that the printed numbers lead to."""

    __slots__ = ("defaults", "limits", "counts", "formulas", "texts")

    def __init__(
        self,
        defaults: tuple[DefaultGroup, ...],
        limits: tuple[LimitGroup, ...],
        counts: tuple[Count, ...],
        formulas: tuple[Formula, ...],
        texts: tuple[PrintedText, ...],
    ) -> None:
        self.defaults, self.limits, self.counts, self.formulas, self.texts = defaults, limits, counts, formulas, texts

    @classmethod
    def of(cls, traces: Traces, reached: frozenset[str], whole: bool) -> Behind:
        return cls(
            tuple(
                replace(d, entries=left)
                for d in traces.defaults
                if (left := tuple(e for e in d.entries if e.mark.text in reached))
            ),
            tuple(
                replace(group, entries=kept)
                for group in traces.limits
                if (kept := tuple(e for e in group.entries if e.mark.text in reached))
            ),
            tuple(c for c in traces.counts if c.mark.text in reached),
            tuple(
                replace(f, workings=used)
                for f in traces.formulas
                if (used := tuple(w for w in f.workings if w.mark.text in reached))
            ),
            tuple(t for f in traces.files if (t := _text(f, reached, whole)).lines),
        )

    @property
    def workings(self) -> tuple[Working, ...]:
        return tuple(w for f in self.formulas for w in f.workings)


class PrintedText:
    """Lines of a text that was read, each with its mark. `complete`: none is left out."""

    __slots__ = ("file", "lines", "complete")

    def __init__(self, file: File, lines: tuple[PrintedLine, ...], complete: bool) -> None:
        self.file, self.lines, self.complete = file, lines, complete


class PrintedLine:
    __slots__ = ("mark", "code")

    def __init__(self, mark: Ref, code: Ref) -> None:
        self.mark, self.code = mark, code


def _text(file: File, reached: frozenset[str], whole: bool) -> PrintedText:
    """The spec whole in the whole document; else the lines that numbers come from, and the heads of their statements."""
    letter = file.letter.text
    count = len(file.source.text.rstrip("\n").split("\n"))
    complete = whole and not letter
    numbers: set[int] = set(range(1, count + 1)) if complete else set()
    if not complete:
        for mark in reached:
            if mark.startswith("L") and mark_order(mark)[0] == f"L{letter}":
                number = mark_order(mark)[1]
                numbers |= {number, _head(file, number)}
    lines = tuple(PrintedLine(Ref(f"L{letter}{n}", "mark"), Ref(file.source.line_text(n), "line")) for n in sorted(numbers))
    return PrintedText(file, lines, complete)


def _head(file: File, line: int) -> int:
    """The line of the statement that an indented line belongs to."""
    while line > 1 and file.source.line_text(line)[:1] in (" ", "\t", "#", ""):
        line -= 1
    return line
