"""Places as editors count them: lines from 0, and UTF-16 code units in them."""

from __future__ import annotations

from bisect import bisect_right

from tilespec.source import Span

Position = tuple[int, int]
Range = tuple[Position, Position]


class Lines:
    """Translates between offsets of one text and an editor's positions."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.starts = [0]
        at = text.find("\n")
        while at >= 0:
            self.starts.append(at + 1)
            at = text.find("\n", at + 1)
        self._narrow = text.isascii()

    def line(self, n: int) -> str:
        """The text of a line without its line break; nothing for a line that is not there."""
        if not 0 <= n < len(self.starts):
            return ""
        end = self.starts[n + 1] - 1 if n + 1 < len(self.starts) else len(self.text)
        return self.text[self.starts[n] : end]

    def position(self, offset: int) -> Position:
        offset = max(0, min(offset, len(self.text)))
        n = bisect_right(self.starts, offset) - 1
        column = offset - self.starts[n]
        if not self._narrow:
            column += sum(c > "\uffff" for c in self.text[self.starts[n] : offset])
        return n, column

    def offset(self, position: Position) -> int:
        """The nearest offset to a position, also to one that the text does not have."""
        n, units = position
        if n < 0:
            return 0
        if n >= len(self.starts):
            return len(self.text)
        line = self.line(n)
        if self._narrow:
            return self.starts[n] + max(0, min(units, len(line)))
        for at, c in enumerate(line):
            if units <= 0:
                return self.starts[n] + at
            units -= 2 if c > "\uffff" else 1
        return self.starts[n] + len(line)

    def range(self, start: int, end: int) -> Range:
        return self.position(start), self.position(end)

    def of(self, span: Span) -> Range:
        return self.range(span.start, span.end)


def plain(text: str) -> str:
    """A text as editors hold it, with the line breaks that tilespec reads; no position in it changes."""
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text
