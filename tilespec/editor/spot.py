"""What lies under the cursor, and what the line has said so far."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.editor.desk import Desk, Page
from tilespec.editor.place import Seated
from tilespec.syntax.nodes import Atom, Attribute, Statement

WORD = re.compile(r"[^\W\d_][\w'./+-]*")


@dataclass(frozen=True, slots=True)
class Spot:
    """word, start, end   the word of letters under the cursor and its offsets; "" and the cursor's place where there is none"""

    page: Page
    file: str
    text: str
    offset: int
    seated: Seated
    statement: Statement | None
    attribute: Attribute | None
    atom: Atom | None
    word: str
    start: int
    end: int


def spot(desk: Desk, file: str, offset: int) -> Spot | None:
    """None in a file that is not open, nor part of a spec that is."""
    page = desk.page_of(file)
    if page is None:
        return None
    seated = page.seated(file)
    if seated is None:
        return None
    text = seated.source.text
    offset = max(0, min(offset, len(text)))
    n = seated.index(offset)
    statement = seated.tree.statements[n] if n >= 0 else None
    attribute = atom = None
    if statement is not None:
        at = offset - seated.start(n)
        if at > statement.end:
            statement = None
        else:
            attribute = next((a for line in statement.lines for a in line.attributes if a.start <= at <= a.end), None)
            atoms = (*statement.args, *(attribute.args if attribute else ()))
            atom = next((x for x in atoms if x.start <= at < x.end), None) or next((x for x in atoms if at == x.end), None)
    word, start, end = "", offset, offset
    line = text.rfind("\n", 0, offset) + 1
    stop = text.find("\n", offset)
    for m in WORD.finditer(text, line, stop if stop >= 0 else len(text)):
        if m.start() <= offset <= m.end():
            word, start, end = m[0], m.start(), m.end()
    if comment(text[line:offset]):
        return Spot(page, file, text, offset, seated, None, None, None, "", offset, offset)
    return Spot(page, file, text, offset, seated, statement, attribute, atom, word, start, end)


def room_of(seated: Seated, statement: Statement | None) -> str:
    """The name of the room that a statement stands in; "" before the first."""
    name = ""
    for st in seated.tree.statements:
        if statement is not None and st.base > statement.base:
            break
        if st.kind == "room" and st.args:
            name = st.args[0].text
    return name


@dataclass(frozen=True, slots=True)
class Before:
    """A line up to the cursor.

    pieces    what stands between its semicolons; the last is the one being typed
    indented  the line says something about the statement above
    comment, text  the cursor is in one
    """

    pieces: tuple[str, ...]
    indented: bool
    comment: bool
    text: bool


def before(line: str) -> Before:
    """What a line has said up to the cursor."""
    pieces: list[str] = []
    begin = at = 0
    while at < len(line):
        c = line[at]
        if c == '"' and not (at and line[at - 1].isnumeric()):
            close = line.find('"', at + 1)
            if close < 0:
                return Before((*pieces, line[begin:].lstrip()), line[:1] in " \t\u00a0", False, True)
            at = close
        elif c == "#":
            return Before((*pieces, line[begin:at].lstrip()), line[:1] in " \t\u00a0", True, False)
        elif c == ";":
            pieces.append(line[begin:at].strip())
            begin = at + 1
        at += 1
    return Before((*pieces, line[begin:].lstrip(" \t\u00a0")), line[:1] in (" ", "\t", "\u00a0"), False, False)


def comment(line: str) -> bool:
    return before(line).comment


def words_of(text: str) -> Iterator[str]:
    """The words, texts, numbers and commas of a piece, in order."""
    for m in re.finditer(r'"[^"]*"?|,|[^\s,"]+', text):
        yield m[0]
