"""The outline of a spec, what can be folded, links to used files, and what each word is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.editor.desk import Desk, Page
from tilespec.editor.names import FILE, file_of, mentions
from tilespec.editor.place import Seated
from tilespec.editor.position import Lines
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement

# Kinds of words, in the order in which an editor is told of them.
KINDS = ("keyword", "property", "class", "type", "namespace", "parameter", "enumMember", "number", "string", "comment")
_WORD = re.compile(r"[^\W\d_][\w-]*")
_INSIDE = ("datum", "floor", "wall", "shower", "bath", "basin", "boxing")


@dataclass(frozen=True, slots=True)
class Symbol:
    """One line of the outline. `kind` is that of the statement; `name`: the words to choose it by."""

    name: str
    kind: str
    whole: Span
    words: Span
    children: tuple[Symbol, ...] = ()


def outline(page: Page, file: str) -> list[Symbol]:
    seated = page.seated(file)
    if seated is None:
        return []
    found: list[Symbol] = []
    room: Symbol | None = None
    inside: list[Symbol] = []

    def close() -> None:
        if room is not None:
            end = max([room.whole.end, *(s.whole.end for s in inside)])
            found.append(Symbol(room.name, room.kind, Span(file, room.whole.start, end), room.words, tuple(inside)))

    for st in seated.tree.statements:
        head = seated.back(st.span())
        whole = Span(file, head.start, seated.back(Span(file, st.base, st.base + st.end)).end)
        text = " ".join(seated.source.text[head.start : head.end].split())
        symbol = Symbol(text if len(text) <= 60 else text[:57] + "...", st.kind, whole, head)
        if st.kind == "room":
            close()
            room, inside = symbol, []
        elif room is not None and st.kind in (*_INSIDE, "tile", "product"):
            inside.append(symbol)
        else:
            if room is not None and st.kind not in _INSIDE:
                close()
                room, inside = None, []
            found.append(symbol)
    close()
    return found


def folds(page: Page, file: str) -> list[tuple[int, int, str]]:
    """First line, last line, and "region" or "comment"."""
    seated = page.seated(file)
    if seated is None:
        return []
    lines = Lines(seated.source.text)
    found: list[tuple[int, int, str]] = []

    def add(symbol: Symbol) -> None:
        first, last = lines.position(symbol.whole.start)[0], lines.position(symbol.whole.end)[0]
        if last > first:
            found.append((first, last, "region"))
        for child in symbol.children:
            add(child)

    for symbol in outline(page, file):
        add(symbol)
    run: list[int] = []
    for n in range(len(lines.starts) + 1):
        if lines.line(n).lstrip().startswith("#"):
            run.append(n)
            continue
        if len(run) > 1:
            found.append((run[0], run[-1], "comment"))
        run = []
    return sorted(found)


def links(desk: Desk, page: Page, file: str) -> list[tuple[Span, str]]:
    """The names of used files, with their paths."""
    found = []
    for m in mentions(page):
        if m.what == FILE and m.span.file == file and (path := file_of(desk, page, m)) is not None:
            found.append((m.span, path))
    return found


def tokens(page: Page, file: str) -> list[tuple[int, int, str]]:
    """What each word is: start, end and one of KINDS, in order; what could not be read is left out."""
    seated = page.seated(file)
    if seated is None:
        return []
    text = seated.source.text
    found: list[tuple[int, int, str]] = []
    for st in seated.tree.statements:
        first = _WORD.match(text, seated.offset(st.base))
        if first is not None:
            found.append((*first.span(), "keyword"))
        found += _atoms(seated, st, st.args, st.kind)
        for line in st.lines:
            for a in line.attributes:
                found += _atoms(seated, st, a.args, a.kind)
                found += _between(seated, st, a)
    found += [(c.start, c.end, "comment") for c in seated.tree.comments]
    found.sort()
    clear: list[tuple[int, int, str]] = []
    for start, end, kind in found:
        if start < end and (not clear or start >= clear[-1][1]) and "\n" not in text[start:end]:
            clear.append((start, end, kind))
    return clear


def _atoms(seated: Seated, st: Statement, atoms: tuple[Atom, ...], kind: str) -> Iterator[tuple[int, int, str]]:
    for n, a in enumerate(atoms):
        span = seated.back(st.span(a))
        yield span.start, span.end, _kind(a, n, kind)


def _kind(a: Atom, n: int, kind: str) -> str:
    if a.kind in ("quantity", "date", "clocks", "per"):
        return "number"
    if a.kind == "string":
        return "namespace" if kind in ("room", "on_room", "in_room", "on_room_wall", "on_room_floor") and n == 0 else "string"
    if kind == "product":
        return "keyword" if n == 0 else "type" if n == 1 else "enumMember"
    if a.kind == "tile" or kind in ("delivery", "modular") or kind == "tile" and n == 0:
        return "class"
    if kind in ("wall", "on_wall", "along", "at_wall", "from_wall", "in_corner", "walk", "on_room_wall"):
        return "parameter"
    return "namespace" if kind == "room" else "enumMember"


def _between(seated: Seated, st: Statement, a: Attribute) -> Iterator[tuple[int, int, str]]:
    """The language's own words of an attribute: what lies between its atoms."""
    text = seated.source.text
    whole = seated.back(st.span(a))
    taken = [seated.back(st.span(x)) for x in a.args]
    for m in _WORD.finditer(text, whole.start, whole.end):
        if not any(t.start <= m.start() < t.end for t in taken) and m[0].lower() != "x":
            yield m.start(), m.end(), "property"
