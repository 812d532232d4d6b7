"""Text of one file to its tree. Each piece is parsed alone, by the grammar in grammar/tilespec.lark."""

from __future__ import annotations

import gc
import re
from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from lark import Token
from lark import Tree as LarkTree
from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from tilespec.diagnostics.catalogue import problem
from tilespec.diagnostics.model import Diagnostic, Edit, Fix
from tilespec.diagnostics.suggest import nearest
from tilespec.outcome import Outcome
from tilespec.source import Source, Span
from tilespec.syntax.nodes import Atom, Attribute, Comment, Line, Statement, Tree
from tilespec.syntax.partial import partial
from tilespec.syntax.split import Cleaned, Piece, RawLine, RawStatement, clean, split
from tilespec.syntax.table import parser
from tilespec.syntax.unread import Place, unread
from tilespec.syntax.words import ATTRIBUTES, BOTH, STATEMENTS
from tilespec.vocabulary import PLAIN_WORDS

if TYPE_CHECKING:
    from lark import Lark

_ATOMS = {
    "QTY": "quantity",
    "NAME": "name",
    "BACKER_BOARD": "name",
    "MOVEMENT": "name",
    "STRING": "string",
    "DATE": "date",
    "CLOCKS": "clocks",
    "REFERENCE": "reference",
}
# A keyword that changes what the next word is.
_MARKERS = {"PER": "per", "TILE": "tile"}
_MARKED = {"fall": ("PER",), "for": ("TILE",)}


def _tokens(tree: LarkTree[Token]) -> list[tuple[Token, str]]:
    """The tokens of a subtree in order, each with the rule it stands in."""
    out: list[tuple[Token, str]] = []
    for child in tree.children:
        if isinstance(child, Token):
            out.append((child, str(tree.data)))
        else:
            out.extend((t, "turn" if child.data == "turn" else str(tree.data)) for t, _ in _tokens(child))
    return out


def _node(tree: LarkTree[Token], shift: _Shift) -> Attribute:
    kind = str(tree.data)
    tokens = _tokens(tree)
    marks = _MARKED.get(kind, ())
    atoms: list[Atom] = []
    mark = ""
    for token, rule in tokens:
        if token.type in marks:
            mark = _MARKERS[token.type]
            continue
        name = _ATOMS.get(token.type)
        if token.type == "PRODUCT":
            name = "name"
        if name is None:
            continue
        start, end = shift(token.start_pos or 0), shift(token.end_pos or 0)
        text = str(token)[1:-1] if name == "string" else str(token)
        if rule == "turn" and name == "name":
            name = "turn"
        atoms.append(Atom(mark or name, text, start, end))
        mark = ""
    first, last = tokens[0][0], tokens[-1][0]
    return Attribute(kind, tuple(atoms), shift(first.start_pos or 0), shift(last.end_pos or 0))


class _Shift:
    """From an offset in a piece's text (its first word perhaps exchanged) to one relative to the statement."""

    def __init__(self, start: int, size: int, changed_at: int = 0, added: int = 0) -> None:
        self.start, self.size, self.changed_at, self.added = start, size, changed_at, added

    def __call__(self, offset: int) -> int:
        return self.start + min(offset - self.added if offset > self.changed_at else offset, self.size)


_FIRST = re.compile(r"[^\W\d_][\w-]*")
_DECIMAL_COMMA = re.compile(
    r"(?<![\w.,-])([0-9]{1,7}),([0-9]{1,7})(?![\w,-]|\.[0-9])|(?<![\w.,-])([0-9]{1,7}),([0-9]{1,7})(?=[ ]?(?:mm|cm|m|kg|h|L)\b)"
)


class _Reader:
    def __init__(self, source: Source, lark: Lark) -> None:
        self.source = source
        self.lark = lark
        self.diagnostics: list[Diagnostic] = []
        # Of what is being read: the word of the statement, and kinds of what is said on the line so far.
        self.word = ""
        self.before: tuple[str, ...] = ()

    def piece(self, piece: Piece, entry: str, base: int) -> LarkTree[Token] | None:
        """Parse one piece; report and return None when it cannot be read."""
        text, shift = self.commas(piece, entry), _Shift(piece.start - base, piece.size)
        if piece.slip:
            old = _FIRST.match(text)
            assert old
            text = piece.slip + text[old.end() :]
            shift = _Shift(piece.start - base, piece.size, len(piece.slip) - 1, len(piece.slip) - old.end())
        self.shift = shift
        try:
            return self.lark.parse(text, start=entry)
        except UnexpectedInput as fault:
            return self.mend(piece, text, fault, entry, base)

    def reads(self, text: str, entry: str) -> bool:
        try:
            self.lark.parse(text, start=entry)
        except UnexpectedInput:
            return False
        return True

    def commas(self, piece: Piece, entry: str) -> str:
        """Report a comma between digits, and read it as what it can only be (a point where it can be both)."""
        text = piece.text
        if "," not in text:
            return text
        quoted = [m.span() for m in re.finditer(r'(?<![0-9])"[^"]*"', text)]
        found = [m for m in _DECIMAL_COMMA.finditer(text) if not _within(quoted, m.start())]
        if not found:
            return text
        pointed = _pointed(text, found)
        as_list = self.reads(text, entry)
        as_point = not as_list or self.reads(pointed, entry)
        for m in found:
            whole, part = (m[1], m[2]) if m[1] else (m[3], m[4])
            point, pair = f"{whole}.{part}", f"{whole}, {part}"
            if as_list and as_point:
                message = f"`{m[0]}` can be read in two ways: {point}, or {whole} and {part}."
                help = f"Write `{point}` for the number, or `{pair}` (a blank after the comma) for two numbers."
            elif as_point:
                message, help = f"`{m[0]}` is written with a comma.", f"Numbers take a point: write `{point}`."
            else:
                message, help = f"`{m[0]}` could be one number or two.", f"Write `{pair}`, with a blank after the comma."
            span = self.source.span(piece.start + m.start(), piece.start + m.end())
            readings = ([point] if as_point else []) + ([pair] if as_list else [])
            fixes = tuple(Fix(f"write {r}", (Edit(span, r),)) for r in readings)
            self.diagnostics.append(problem("decimal-comma", span, message, "a comma between digits", help, fixes))
        return pointed if as_point else text

    def mend(self, piece: Piece, text: str, fault: UnexpectedInput, entry: str, base: int) -> LarkTree[Token] | None:
        """Say what is wrong. Where one misspelt word explains it, read the piece with the right word and go on."""
        slip = _misspelt(text, fault)
        at = fault.pos_in_stream if isinstance(fault.pos_in_stream, int) and fault.pos_in_stream >= 0 else len(text)
        if slip and not piece.slip:
            start, end, word, right = slip
            span = self.source.span(piece.start + start, piece.start + end)
            mended = text[:start] + right + text[end:]
            try:
                tree = self.lark.parse(mended, start=entry)
            except UnexpectedInput:
                tree = None
            if tree is not None or word:
                self.diagnostics.append(
                    problem(
                        "unknown-word",
                        span,
                        f"`{text[start:end]}` is not a word that can stand here.",
                        help=f"Did you mean `{right}`?",
                        fixes=(Fix(f"write {right}", (Edit(span, right),)),),
                    )
                )
                self.shift = _Shift(piece.start - base, piece.size, start + len(right) - 1, len(right) - (end - start))
                return tree
        if piece.slip is not None or piece.closed:
            return None  # already reported: the first word is not known, or a text is not closed
        if isinstance(fault, UnexpectedToken) and fault.token.type == "$END":
            at = len(text)
        place = Place(self.word, entry == "head", self.before, partial(self.lark, text[:at], entry))
        why = unread(text, at, _accepts(fault), place)
        start = piece.start
        fixes = tuple(Fix(f"write {new.strip() or 'it without'}", (Edit(self.source.span(start + a, start + b), new),))
                      for a, b, new in why.edits)
        span = self.source.span(start + why.start, start + why.end)
        self.diagnostics.append(problem(why.name, span, why.message, help=why.help, fixes=fixes))
        return None

    def statement(self, raw: RawStatement) -> Statement:
        head = raw.lines[0].pieces[0]
        base = head.start
        broken = head.slip == ""
        unread: list[str] = []
        kind, head_end = "unknown", head.size
        args: tuple[Atom, ...] = ()
        lines: list[Line] = []
        self.word, self.before = head.slip or (_FIRST.match(head.text) or [""])[0], ()
        if not broken:
            tree = self.piece(head, "head", base)
            if tree is None:
                broken = True
                unread.append(head.text)
                kind = self.word or "unknown"
                kind = "product" if kind in BOTH and kind != "tile" else kind
                args = _name_of(head, kind)
                lines.append(Line(()))
            else:
                nodes = [_node(c, self.shift) for c in tree.children if not isinstance(c, Token)]
                kind, args = nodes[0].kind, nodes[0].args
                lines.append(Line(tuple(nodes[1:])))
        else:
            args = _name_of(head, kind)
            lines.append(Line(()))
        for number, line in enumerate(raw.lines):
            found: list[Attribute] = list(lines[0].attributes) if number == 0 else []
            for piece in line.pieces[1:] if number == 0 else line.pieces:
                self.before = tuple(a.kind for a in found)
                tree = self.piece(piece, "attributes", base)
                if tree is None:
                    broken = True
                    unread.append(piece.text)
                    continue
                found.extend(_node(c, self.shift) for c in tree.children if not isinstance(c, Token))
            if number == 0:
                lines[0] = Line(tuple(found))
            else:
                lines.append(Line(tuple(found)))
        last = raw.lines[-1].pieces[-1]
        end = last.start + last.size - base
        return Statement(kind, args, tuple(lines), broken, self.source.name, base, head_end, end, tuple(unread))


def _within(spans: list[tuple[int, int]], at: int) -> bool:
    """Whether a place lies in one of these spans, which stand in order."""
    n = bisect_right(spans, (at, len(spans) and spans[-1][1])) - 1
    return n >= 0 and spans[n][0] <= at < spans[n][1]


def _pointed(text: str, found: list[re.Match[str]]) -> str:
    """The text with points for these commas."""
    out, last = [], 0
    for m in found:
        out += [text[last : m.start()], m[0].replace(",", ".")]
        last = m.end()
    return "".join((*out, text[last:]))


_NAMED = re.compile(r"([^\W\d_][\w-]*)[ \t\u00a0]+(?:\"([^\"\n]*)\"|([^\W\d_][\w'.\/+-]*))")


def _name_of(head: Piece, kind: str) -> tuple[Atom, ...]:
    """The name in a head that cannot be read, so that what names it elsewhere is no second mistake."""
    m = _NAMED.match(head.text)
    if not m or kind not in ("tile", "product", "room", "wall", "unknown"):
        return ()
    which = 2 if m[2] is not None else 3
    quote = which == 2
    atom = Atom("string" if quote else "name", m[which], m.start(which) - quote, min(m.end(which) + quote, head.size))
    return (Atom("name", m[1], 0, m.end(1)), atom) if kind == "product" else (atom,)


def _accepts(fault: UnexpectedInput) -> set[str]:
    if isinstance(fault, UnexpectedToken):
        return set(fault.accepts or fault.expected)
    if isinstance(fault, UnexpectedCharacters):
        return set(fault.allowed or ())
    return set()


def _near(word: str, known: Iterable[str]) -> str | None:
    """Of two letters, every other word of two letters would be a neighbour."""
    return nearest(word, known) if len(word) > 2 else None


def _belongs(word: str) -> bool:
    """Whether a word is known, if elsewhere: it is no slip for one that looks like it."""
    return word in ATTRIBUTES or word in BOTH or word in STATEMENTS or word in PLAIN_WORDS


def _misspelt(text: str, fault: UnexpectedInput) -> tuple[int, int, bool, str] | None:
    """The word that is probably misspelt: the one that cannot stand here, or the plain word before it.

    Returns its place, whether it is surely a slip (a known word follows nowhere else) and the right word.
    """
    at = fault.pos_in_stream if isinstance(fault.pos_in_stream, int) and fault.pos_in_stream >= 0 else len(text)
    accepts = _accepts(fault)
    here = _FIRST.match(text, at) if at < len(text) else None
    known = [
        a.lower().replace("_", "-")
        for a in sorted(accepts)
        if a.isupper() and not a.startswith("_") and a not in ("QTY", "NAME", "STRING", "DATE", "CLOCKS", "REFERENCE", "PRODUCT")
    ]
    if here:
        lower = here[0].lower()
        right = lower if lower in known else None if _belongs(lower) else _near(here[0], known)
        if right and right != here[0]:
            return here.start(), here.end(), True, right
    before = [m for m in _FIRST.finditer(text, 0, at)]
    pool = (*ATTRIBUTES, *BOTH)
    if before:
        m = before[-1]
        if m[0] not in pool and m[0] not in STATEMENTS and not _belongs(m[0].lower()):
            lower = m[0].lower()
            right = lower if lower in pool else _near(m[0], pool)
            if right:
                return m.start(), m.end(), False, right
        m = before[0]
        if m.start() == 0 and m[0] not in pool and m[0] not in STATEMENTS:
            right = m[0].lower() if m[0].lower() in pool else _near(m[0], pool)
            if right:
                return m.start(), m.end(), False, right
    return None


@lru_cache(maxsize=1)
def grammar() -> Lark:
    """The parser of pieces, made once."""
    return parser()


@dataclass(frozen=True, slots=True)
class Read:
    """A statement that was read alone, and what is wrong with it; both as if it stood at the start of its file."""

    statement: Statement
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Block:
    """A part of a file that is read alone (see `blocks`). All places count from its start."""

    reads: tuple[Read, ...]
    starts: tuple[int, ...]
    comments: tuple[Comment, ...]
    diagnostics: tuple[Diagnostic, ...]  # of the text itself; those of the statements are theirs


# How many half-typed statements are remembered at least.
_READS = 500


class Kept:
    """Reads one file while it is being written; keeps its statements by what they say.

    count  how many statements were read in earnest so far
    """

    def __init__(self, name: str) -> None:
        self.name = name
        self.count = 0
        self._reads: dict[tuple[Piece | None, ...], Read] = {}

    def turn(self, living: tuple[Read, ...]) -> None:
        """These stand in the file now. What is remembered of others is dropped when it is much."""
        if len(self._reads) > 4 * len(living) + _READS:
            ids = set(map(id, living))
            self._reads = {key: read for key, read in self._reads.items() if id(read) in ids}

    def block(self, text: str) -> Block:
        cut = split(Source(self.name, text))
        starts = tuple(raw.lines[0].pieces[0].start for raw in cut.statements)
        return Block(tuple(self._read(raw) for raw in cut.statements), starts, cut.comments, cut.diagnostics)

    def _read(self, raw: RawStatement) -> Read:
        base = raw.lines[0].pieces[0].start
        lines = [[Piece(p.text, p.start - base, p.slip, p.closed) for p in line.pieces] for line in raw.lines]
        key = tuple(p for line in lines for p in (*line, None))
        found = self._reads.get(key)
        if found is None:
            reader = _Reader(Source(self.name, ""), grammar())
            st = reader.statement(RawStatement(tuple(RawLine(tuple(line)) for line in lines)))
            found = Read(st, tuple(reader.diagnostics))
            self.count += 1
            self._reads[key] = found
        return found


def piece_tree(text: str, entry: str) -> LarkTree[Token] | None:
    """The grammar's tree of one piece, with all its tokens; None where it cannot be read. `entry`: `head` or `attributes`."""
    try:
        return grammar().parse(text, start=entry)
    except UnexpectedInput:
        return None


def parse(source: Source) -> Outcome[Tree]:
    """The tree of one text, with every mistake found in reading it."""
    cleaned = clean(source)
    plain = Source(source.name, cleaned.text) if cleaned.diagnostics else source
    cut = split(plain)
    reader = _Reader(plain, grammar())
    # Long files: the collector walks the growing tree again and again, and finds nothing.
    enabled = gc.isenabled()
    gc.disable()
    try:
        statements = tuple(reader.statement(s) for s in cut.statements)
    finally:
        if enabled:
            gc.enable()
    found: tuple[Diagnostic, ...] = (*cut.diagnostics, *reader.diagnostics)
    comments = cut.comments
    if cleaned.taken:
        found = tuple(_diagnostic_back(d, cleaned) for d in found)
        statements = tuple(_statement_back(s, cleaned) for s in statements)
        comments = tuple(Comment(cleaned.back(c.start), cleaned.back(c.end - 1) + 1) for c in comments)
    found = tuple(sorted((*cleaned.diagnostics, *found), key=lambda d: d.primary.span.start))
    return Outcome(Tree(source.name, statements, comments), found)


# ---------------------------------------------------------------- places in a text that characters were taken out of


def _span_back(span: Span, cleaned: Cleaned) -> Span:
    start = cleaned.back(span.start)
    return Span(span.file, start, cleaned.back(span.end - 1) + 1 if span.end > span.start else start)


def _diagnostic_back(d: Diagnostic, cleaned: Cleaned) -> Diagnostic:
    fixes = tuple(
        replace(f, edits=tuple(replace(e, span=_span_back(e.span, cleaned)) for e in f.edits)) for f in d.fixes
    )
    secondary = tuple(replace(label, span=_span_back(label.span, cleaned)) for label in d.secondary)
    return replace(d, primary=replace(d.primary, span=_span_back(d.primary.span, cleaned)), secondary=secondary, fixes=fixes)


def _statement_back(st: Statement, cleaned: Cleaned) -> Statement:
    base = cleaned.back(st.base)

    def end(at: int) -> int:
        return cleaned.back(max(st.base + at - 1, st.base)) + 1 - base

    def atoms(listed: tuple[Atom, ...]) -> tuple[Atom, ...]:
        return tuple(replace(a, start=cleaned.back(st.base + a.start) - base, end=end(a.end)) for a in listed)

    def attribute(a: Attribute) -> Attribute:
        return replace(a, args=atoms(a.args), start=cleaned.back(st.base + a.start) - base, end=end(a.end))

    lines = tuple(Line(tuple(attribute(a) for a in line.attributes)) for line in st.lines)
    return replace(st, args=atoms(st.args), lines=lines, base=base, head_end=end(st.head_end), end=end(st.end))
