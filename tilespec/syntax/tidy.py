"""The one canonical form of a spec: blanks, blank lines, times signs, the spelling of units. Never what is said, nor its order.

What stands on one line stays on one line, and comments stay where they are. A line that cannot be read is left exactly as it is.
Every piece that is written anew is read again: where it would not be the same words and numbers, it is left as well.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lark import Token
from lark import Tree as LarkTree

from tilespec.quantity.read import Reading, read
from tilespec.quantity.unit import SPELLINGS, UNITS
from tilespec.source import Source
from tilespec.syntax.parse import parse, piece_tree
from tilespec.syntax.split import Piece, clean, cut, split

INDENT = "  "
_BLANK = " \t\u00a0"
# What ends a line in other systems' files; one that is left at the end of the text would end a line after the next pass.
_RETURNS = re.compile(r"\r+(?=\n|\Z)")
_SYMBOLS = sorted((s for s in (*UNITS, *SPELLINGS) if s and s not in ("count", "slope", "year")), key=len, reverse=True)
_FEET = re.compile(r"([+-]?[0-9]+) ?(?:ft|′|')[ -]?([^ -].*?)[ -]?(?:in|″|\")")
_PLAIN = re.compile(r"[0-9]+(?:\.[0-9]+)?")


@dataclass(frozen=True, slots=True)
class Tidied:
    """A text in canonical form. `left`: lines (from 1, in the text as it was) that cannot be read and are as they were."""

    text: str
    left: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Word:
    """One token in canonical spelling; `closed`: a times sign without blanks around it."""

    kind: str
    text: str
    closed: bool = False


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the result. `remark`: a comment at the margin, which belongs to what follows."""

    text: str
    remark: bool = False
    room: bool = False


def tidy(text: str) -> str:
    """The text in canonical form; any text at all may be given."""
    return tidied(text).text


def tidied(text: str) -> Tidied:
    """The text in canonical form, and which of its lines were left because they cannot be read."""
    text = _RETURNS.sub("", text)
    source = Source("", text)
    left = _unread(source)
    cleaned = Source("", clean(source).text)
    places = _places(cleaned)
    # Cleaning takes no line break away, so the lines of both are the same.
    begins = 0
    lines: list[_Line] = []
    for number, (original, line) in enumerate(zip(text.split("\n"), cleaned.text.split("\n"), strict=True), 1):
        made = _Line(original) if number in left else _line(line, begins, places)
        begins += len(line) + 1
        if made is not None:
            lines.append(made)
    return Tidied("".join(f"{line}\n" for line in _spaced(lines)), tuple(sorted(left)))


def _unread(source: Source) -> set[int]:
    """Lines that something is reported of."""
    found: set[int] = set()
    for d in parse(source).diagnostics:
        span = d.primary.span
        first, _ = source.line_column(span.start)
        last, _ = source.line_column(max(span.start, span.end - 1))
        found.update(range(first, last + 1))
    return found


def _places(source: Source) -> dict[int, tuple[str, bool]]:
    """By the start of each piece: the rule it is read by, and whether it stands in the statement of a tile."""
    found: dict[int, tuple[str, bool]] = {}
    for statement in split(source).statements:
        head = statement.lines[0].pieces[0]
        of_tile = re.match(r"tile(?![\w-])", head.text) is not None
        for line in statement.lines:
            for piece in line.pieces:
                found[piece.start] = ("head" if piece is head else "attributes", of_tile)
    return found


def _spaced(lines: list[_Line]) -> list[str]:
    """One blank line at most, none at the start or the end, and one above each room with its remarks."""
    out: list[_Line] = []
    for line in lines:
        if line.room:
            at = len(out)
            while at and out[at - 1].remark:
                at -= 1
            if at and out[at - 1].text:
                out.insert(at, _Line(""))
        if line.text or (out and out[-1].text):
            out.append(line)
    while out and not out[-1].text:
        out.pop()
    return [line.text for line in out]


def _line(text: str, begins: int, places: dict[int, tuple[str, bool]]) -> _Line | None:
    """One line in canonical form; None for a line that says nothing but `;`."""
    pieces, comment = cut(text)
    comment = comment.rstrip(_BLANK)
    indented = text[:1] in tuple(_BLANK)
    margin = INDENT if indented else ""
    if not pieces:
        if not comment and text.strip(_BLANK):
            return None
        return _Line(margin + comment if comment else "", remark=bool(comment) and not indented)
    made = tuple(_piece(p, *places[begins + p.start]) for p in pieces)
    code = "; ".join(made)
    # A blank before it makes a foreign x of what was the first letter of a name.
    if tuple(p.text for p in cut(margin + code)[0]) != made or clean(Source("", code)).diagnostics:
        return _Line(text.rstrip(_BLANK))
    room = not indented and re.match(r"room(?![\w-])", code) is not None
    return _Line(margin + code + (f"  {comment}" if comment else ""), room=room)


def _piece(piece: Piece, entry: str, of_tile: bool) -> str:
    words = _words(piece.text, entry, of_tile)
    made = _joined(words)
    return made if made == piece.text or _words(made, entry, of_tile) == words else piece.text


def _joined(words: tuple[_Word, ...]) -> str:
    out: list[str] = []
    for n, word in enumerate(words):
        before = words[n - 1] if n else None
        tight = before is None or word.kind == "_COMMA" or word.closed or before.closed
        out.append(word.text if tight else f" {word.text}")
    return "".join(out)


def _words(text: str, entry: str, of_tile: bool) -> tuple[_Word, ...]:
    """The tokens of a piece, spelled canonically; nothing where it cannot be read."""
    tree = piece_tree(text, entry)
    return tuple(_walk(tree, of_tile)) if tree is not None else ()


def _walk(tree: LarkTree[Token], closed: bool) -> Iterator[_Word]:
    """`closed`: sizes here are those of tiles, which are written without blanks."""
    kind = str(tree.data)
    if kind in ("work_size", "chips"):
        closed = False
    elif kind == "tile":
        closed = True
    elif kind == "dims":
        closed = closed and all(_PLAIN.fullmatch(t) for t in tree.children if isinstance(t, Token) and t.type == "QTY")
    for child in tree.children:
        if not isinstance(child, Token):
            yield from _walk(child, closed)
        elif child.type == "_X":
            yield _Word("_X", "x", closed and kind == "dims")
        else:
            yield _Word(child.type, _spelled(child.type, str(child)))


def _spelled(kind: str, text: str) -> str:
    if kind == "QTY":
        return _quantity(text)
    if kind == "CLOCKS":
        return re.sub(r"[ \t]*[-–][ \t]*", "-", text)
    if kind == "BACKER_BOARD":
        return " ".join(text.split())
    return text


def _quantity(text: str) -> str:
    """The same number with its unit as units are written here; as it is where that would not be the same."""
    was = _reading(text)
    made = text
    if feet := _FEET.fullmatch(text):
        made = f"{feet[1]} ft {_number(feet[2])} in"
    elif symbol := next((s for s in _SYMBOLS if text.endswith(s)), ""):
        number = text[: -len(symbol)].rstrip(" \u00a0-")
        made = f"{_number(number)} {SPELLINGS.get(symbol, symbol)}"
    else:
        made = _number(text)
    return made if was is not None and _reading(made) == was else text


def _number(text: str) -> str:
    """Blanks in fractions and falls: `10  1 / 2` is `10 1/2`, `1 : 60` is `1:60`."""
    return re.sub(r" ?([/:]) ?", r"\1", re.sub(r"[ \u00a0]+", " ", text))


def _reading(text: str) -> Reading | None:
    try:
        return read(text)
    except ValueError:
        return None
