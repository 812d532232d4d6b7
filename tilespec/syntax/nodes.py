"""The syntax tree of one file. Offsets are relative to their statement, so a statement's tree depends on its text alone."""

from __future__ import annotations

from dataclasses import dataclass, field

from tilespec.source import Span


@dataclass(frozen=True, slots=True)
class Atom:
    """One word, number or text.

    kind  quantity, name, string, date, clocks, reference; `turn` (name of a corner's kind in a walk), `per` (the unit after
          `per`), `tile` (the tile's name after `for tile`)
    """

    kind: str
    text: str
    start: int = field(compare=False)
    end: int = field(compare=False)


@dataclass(frozen=True, slots=True)
class Attribute:
    """One attribute; `kind` is the grammar's name for it."""

    kind: str
    args: tuple[Atom, ...]
    start: int = field(compare=False)
    end: int = field(compare=False)


@dataclass(frozen=True, slots=True)
class Line:
    """The attributes of one line of the file (the head's own line first)."""

    attributes: tuple[Attribute, ...]


@dataclass(frozen=True, slots=True)
class Statement:
    """A statement.

    broken  a part of it could not be read and was reported; later stages stay silent about what hangs on it
    unread  all such parts
    """

    kind: str
    args: tuple[Atom, ...]
    lines: tuple[Line, ...]
    broken: bool
    file: str = field(compare=False)
    base: int = field(compare=False)  # offset of the statement in its file
    head_end: int = field(compare=False)  # relative end of the head
    end: int = field(compare=False)  # relative end of the statement
    unread: tuple[str, ...] = ()

    def span(self, node: Atom | Attribute | None = None) -> Span:
        """Place in the file of a node of this statement; of its head when none is named."""
        if node is None:
            return Span(self.file, self.base, self.base + self.head_end)
        return Span(self.file, self.base + node.start, self.base + node.end)


@dataclass(frozen=True, slots=True)
class Comment:
    start: int  # absolute
    end: int


@dataclass(frozen=True, slots=True)
class Tree:
    """One file."""

    file: str
    statements: tuple[Statement, ...]
    comments: tuple[Comment, ...] = ()
