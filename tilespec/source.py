"""Source texts, and places in them."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one file: code-point offsets, end exclusive."""

    file: str
    start: int
    end: int

    def to(self, other: Span) -> Span:
        """From the start of this span to the end of `other` (same file)."""
        return Span(self.file, self.start, other.end)


@dataclass(frozen=True)
class Source:
    """One text and the name it is shown by. Lines and columns exist only here and in renderers."""

    name: str
    text: str
    _starts: list[int] = field(default_factory=list, compare=False, repr=False)

    def _line_starts(self) -> list[int]:
        if not self._starts:
            self._starts.append(0)
            at = self.text.find("\n")
            while at >= 0:
                self._starts.append(at + 1)
                at = self.text.find("\n", at + 1)
        return self._starts

    def line_column(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both counted from 1."""
        starts = self._line_starts()
        line = bisect_right(starts, offset)
        return line, offset - starts[line - 1] + 1

    def line_text(self, line: int) -> str:
        """Text of a line (from 1), without its line break."""
        starts = self._line_starts()
        end = starts[line] - 1 if line < len(starts) else len(self.text)
        return self.text[starts[line - 1] : end].rstrip("\r")

    def span(self, start: int, end: int) -> Span:
        return Span(self.name, start, end)
