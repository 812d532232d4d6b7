"""Cutting a file into statements, lines and pieces, before anything is parsed.

A statement starts at the margin; an indented line belongs to the statement above it. `;` separates pieces, outside texts and
comments. What is cut here decides nothing about meaning, so a mistake in one piece cannot move another.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from tilespec.diagnostics.catalogue import problem
from tilespec.diagnostics.model import Diagnostic, Edit, Fix
from tilespec.diagnostics.suggest import nearest
from tilespec.source import Source
from tilespec.syntax.nodes import Comment
from tilespec.syntax.words import ATTRIBUTES, BOTH, STATEMENTS, starts_attribute, starts_statement

MAX_STATEMENTS = 200_000

_FIRST = re.compile(r"[^\W\d_][\w-]*")
_TWO = re.compile(r"([^\W\d_][\w-]*)[ \t\u00a0]*([^\W\d_][\w-]*)?")


@dataclass(frozen=True, slots=True)
class Piece:
    """Text between two `;`, blanks cut off; `start` is absolute.

    slip    its first word is taken for this known word
    closed  a quote was added to its end, which the file lacks
    """

    text: str
    start: int
    slip: str | None = None
    closed: bool = False

    @property
    def size(self) -> int:
        """Its length in the file."""
        return len(self.text) - self.closed


@dataclass(frozen=True, slots=True)
class RawLine:
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class RawStatement:
    """The head is the first piece of the first line."""

    lines: tuple[RawLine, ...]


@dataclass(frozen=True, slots=True)
class Split:
    statements: tuple[RawStatement, ...]
    comments: tuple[Comment, ...]
    diagnostics: tuple[Diagnostic, ...]


# Characters that look like nothing or turn text around: a spec that is read differently from how it looks.
_HIDDEN = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff\u061c]")
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\x85\u2028\u2029]")
# All that a plain text is made of: looked for as bytes, which is ten times as fast.
_PLAIN = bytes((*b"\t\n\r", *range(32, 127)))
_WIDE_DIGIT = re.compile("[\uff10-\uff19\u0660-\u0669\u06f0-\u06f9\u0966-\u096f]")
_CYRILLIC_X = re.compile("(?<=[0-9½¼¾ ])[хХ](?=[ ]?[0-9])")


def _text_faults(source: Source) -> list[Diagnostic]:
    found: list[Diagnostic] = []
    text = source.text
    if text.isascii() and not text.encode("ascii").translate(None, _PLAIN):
        return found
    for m in _HIDDEN.finditer(text):
        fix = Fix("take the character out", (Edit(source.span(m.start(), m.end()), ""),), safe=True)
        found.append(
            problem(
                "hidden-character",
                source.span(m.start(), m.end()),
                f"A character that cannot be seen (U+{ord(m[0]):04X}) stands here.",
                help="Take it out: delete and type the text around it again.",
                fixes=(fix,),
            )
        )
    for m in _CONTROL.finditer(text):
        fix = Fix("put a blank", (Edit(source.span(m.start(), m.end()), " "),), safe=True)
        found.append(
            problem(
                "control-character",
                source.span(m.start(), m.end()),
                f"A control character (U+{ord(m[0]):04X}) stands here.",
                help="Put a blank instead.",
                fixes=(fix,),
            )
        )
    for m in _WIDE_DIGIT.finditer(text):
        plain = str(int(m[0]))
        fix = Fix(f"write {plain}", (Edit(source.span(m.start(), m.end()), plain),), safe=True)
        found.append(
            problem(
                "foreign-digit",
                source.span(m.start(), m.end()),
                f"`{m[0]}` is not one of the digits 0 to 9.",
                help=f"Write `{plain}`.",
                fixes=(fix,),
            )
        )
    for m in _CYRILLIC_X.finditer(text):
        fix = Fix("write x", (Edit(source.span(m.start(), m.end()), "x"),), safe=True)
        found.append(
            problem(
                "foreign-x",
                source.span(m.start(), m.end()),
                "This looks like an x, but is the Cyrillic letter kha.",
                help="Write `x` (or `×`).",
                fixes=(fix,),
            )
        )
    return found


@dataclass(frozen=True, slots=True)
class Cleaned:
    """A text with what was reported of its characters made harmless, so that reading goes on as if it had been mended.

    taken  places in the original of the characters that were taken out
    """

    text: str
    taken: tuple[int, ...]
    diagnostics: tuple[Diagnostic, ...]

    def back(self, at: int) -> int:
        """The place in the original of a place in the cleaned text."""
        for n in self.taken:
            if n > at:
                break
            at += 1
        return at


def clean(source: Source) -> Cleaned:
    """Report characters that mislead; take out what cannot be seen, write the plain ones for those that look like them."""
    text = source.text
    found = _text_faults(source)
    if not found:
        return Cleaned(text, (), ())
    text = _WIDE_DIGIT.sub(lambda m: str(int(m[0])), _CYRILLIC_X.sub("x", _CONTROL.sub(" ", text)))
    taken = tuple(m.start() for m in _HIDDEN.finditer(text))
    return Cleaned(_HIDDEN.sub("", text), taken, tuple(found))


class _Splitter:
    def __init__(self, source: Source) -> None:
        self.source = source
        self.text = source.text
        self.diagnostics: list[Diagnostic] = []
        self.comments: list[Comment] = []
        self.statements: list[list[RawLine]] = []
        self.shared_margin: tuple[int, int] | None = None

    def cut(self, start: int, end: int) -> list[Piece]:
        """The pieces of one line; its comment is kept aside."""
        text = self.text
        pieces: list[tuple[int, int]] = []
        at = begin = start
        open_text = False
        if not any(c in text[start:end] for c in ';"#'):
            pieces.append((start, end))
        else:
            while at < end:
                c = text[at]
                if c == '"' and not (at > start and text[at - 1].isnumeric()):
                    close = text.find('"', at + 1, end)
                    if close < 0:
                        self.open_text(at, end)
                        open_text, at = True, end
                        break
                    at = close + 1
                    continue
                if c == "#":
                    self.comments.append(Comment(at, end))
                    break
                if c == ";":
                    pieces.append((begin, at))
                    begin = at + 1
                at += 1
            pieces.append((begin, at))
        result = []
        for a, b in pieces:
            raw = text[a:b]
            kept = raw.strip(" \t\u00a0")
            if kept:
                a += len(raw) - len(raw.lstrip(" \t\u00a0"))
                result.append(Piece(kept, a))
        if open_text and result:
            # Reported: read it as if it were closed at the end of the line.
            result[-1] = Piece(result[-1].text + '"', result[-1].start, closed=True)
        return result

    def open_text(self, at: int, end: int) -> None:
        stop = end
        while stop > at and self.text[stop - 1] in " \t":
            stop -= 1
        fix = Fix('close it with `"`', (Edit(self.source.span(stop, stop), '"'),))
        self.diagnostics.append(
            problem(
                "open-text",
                self.source.span(at, stop),
                "This text is not closed before the end of the line.",
                label="opened here",
                help='Close it with `"`. A text stands on one line.',
                fixes=(fix,),
            )
        )

    def words(self, piece: Piece) -> tuple[str, str]:
        m = _TWO.match(piece.text)
        return (m[1], m[2] or "") if m else ("", "")

    def word_span(self, piece: Piece) -> tuple[int, int]:
        m = _FIRST.match(piece.text)
        return piece.start, piece.start + (m.end() if m else piece.size)

    def margin(self, pieces: list[Piece]) -> None:
        started = 0
        for number, piece in enumerate(pieces):
            first, second = self.words(piece)
            if starts_statement(first, second):
                self.statements.append([RawLine((piece,))])
                started += 1
            elif number and started:
                self.append(piece)
            else:
                started += self.stray(piece, first, second)
        if started > 1:
            self.shared_margin = (pieces[0].start, pieces[-1].start + pieces[-1].size)

    def append(self, piece: Piece) -> None:
        lines = self.statements[-1]
        lines[-1] = RawLine((*lines[-1].pieces, piece))

    def stray(self, piece: Piece, first: str, second: str) -> int:
        """A piece at the margin that starts no statement. Returns how many statements it is taken to start."""
        a, b = self.word_span(piece)
        span = self.source.span(a, b)
        if starts_attribute(first, second) or not first:
            what = f"`{first}`" if first else f"`{piece.text.split()[0]}`"
            if self.statements:
                fix = Fix("indent the line", (Edit(self.source.span(a, a), "  "),))
                self.diagnostics.append(
                    problem(
                        "attribute-at-margin",
                        span,
                        f"{what} says something about the statement above, but stands at the margin.",
                        help="Indent the line (two blanks), so that it belongs to the statement above it.",
                        fixes=(fix,),
                    )
                )
                self.statements[-1].append(RawLine((piece,)))
            else:
                self.diagnostics.append(
                    problem(
                        "nothing-above",
                        span,
                        f"{what} says something about a statement, but there is none above it.",
                        help="Start with a statement, such as `room`, `floor`, `wall` or `tile`.",
                    )
                )
            return 0
        if first.lower() != first and starts_statement(first.lower(), second):
            near: str | None = first.lower()
        else:
            near = nearest(first, (*STATEMENTS, *BOTH))
        fixes: tuple[Fix, ...] = ()
        if near:
            fixes = (Fix(f"write {near}", (Edit(span, near),)),)
            help = f"Did you mean `{near}`?"
        elif self.statements and (word := nearest(first, ATTRIBUTES)):
            fixes = (Fix(f"write {word}, indented", (Edit(span, f"  {word}"),)),)
            help = f"Did you mean `{word}`? It says something about the statement above: write it two blanks in."
        else:
            help = (
                "A statement starts with one of: "
                + ", ".join(STATEMENTS[:1] + STATEMENTS[2:])
                + ", tile, or a product such as adhesive."
            )
        self.diagnostics.append(
            problem(
                "unknown-statement", span, f"`{first}` starts no statement.", label="not a statement word", help=help, fixes=fixes
            )
        )
        self.statements.append([RawLine((replace(piece, slip=near or ""),))])
        return 1

    def indented(self, pieces: list[Piece], line_start: int) -> None:
        for number, piece in enumerate(pieces):
            first, second = self.words(piece)
            if first in STATEMENTS and not starts_attribute(first, second):
                a, b = self.word_span(piece)
                if number == 0:
                    edit = Edit(self.source.span(line_start, piece.start), "")
                else:
                    previous = pieces[number - 1]
                    edit = Edit(self.source.span(previous.start + len(previous.text), piece.start), "\n")
                self.diagnostics.append(
                    problem(
                        "statement-indented",
                        self.source.span(a, b),
                        f"`{first}` starts a statement of its own, but stands on an indented line.",
                        help="Put it at the margin, on a line of its own.",
                        fixes=(Fix("move it to the margin", (edit,)),),
                    )
                )
                self.statements.append([RawLine(tuple(pieces[number:]))])
                return
            if number == 0:
                self.statements[-1].append(RawLine((piece,)))
            else:
                self.append(piece)

    def run(self) -> Split:
        text, size = self.text, len(self.text)
        start = 0
        while start <= size:
            end = text.find("\n", start)
            if end < 0:
                end = size
            if start < end:
                self.line(start, end)
            start = end + 1
        return Split(tuple(RawStatement(tuple(s)) for s in self.statements), tuple(self.comments), tuple(self.diagnostics))

    def line(self, start: int, end: int) -> None:
        pieces = self.cut(start, end)
        if not pieces:
            return
        if self.text[start] not in " \t\u00a0":
            self.shared_margin = None
            self.margin(pieces)
            return
        if self.shared_margin is not None:
            piece = pieces[0]
            self.diagnostics.append(
                problem(
                    "indented-below-several",
                    self.source.span(piece.start, piece.start + piece.size),
                    "The line above holds several statements; it is not clear which one this line belongs to.",
                    help="Give each statement above a line of its own, then indent this line below the one it belongs to.",
                )
            )
            self.shared_margin = None
            self.indented(pieces, start)
        elif self.statements:
            self.indented(pieces, start)
        else:
            first, second = self.words(pieces[0])
            if starts_statement(first, second):
                a, b = self.word_span(pieces[0])
                fix = Fix("move it to the margin", (Edit(self.source.span(start, pieces[0].start), ""),))
                self.diagnostics.append(
                    problem(
                        "statement-indented",
                        self.source.span(a, b),
                        f"`{first}` starts a statement of its own, but stands on an indented line.",
                        help="Put it at the margin, on a line of its own.",
                        fixes=(fix,),
                    )
                )
                self.margin(pieces)
            else:
                self.stray(pieces[0], first, second)


_MARGIN = re.compile(r"^(" + "|".join((*STATEMENTS, *BOTH)) + r")(?![\w-])[ \t\u00a0]*([^\W\d_][\w-]*)?", re.MULTILINE)


def blocks(text: str) -> list[int]:
    """Where the text can be cut so that each part is split as it is within the whole: at lines that start a statement.

    What stands above the first of them is a part too.
    """
    found = [m.start() for m in _MARGIN.finditer(text) if starts_statement(m[1], m[2] or "")]
    return found if found and found[0] == 0 else [0, *found]


def split(source: Source) -> Split:
    """Cut a text into statements, lines and pieces; report what is wrong with the text itself."""
    return _Splitter(source).run()


def cut(line: str) -> tuple[tuple[Piece, ...], str]:
    """The pieces of one line, and its comment (empty where it has none)."""
    splitter = _Splitter(Source("", line))
    pieces = tuple(splitter.cut(0, len(line)))
    return pieces, "".join(line[c.start : c.end] for c in splitter.comments)


__all__ = ["Piece", "RawLine", "RawStatement", "Split", "cut", "split", "ATTRIBUTES"]
