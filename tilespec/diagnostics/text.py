"""Diagnostics drawn in full, for a person at a terminal: message, place, the quoted line, a pointer to the words, what to do.

    error[T0301] decimal-comma: a comma stands between digits
      --> job.tilespec:3:7
       |
     3 | floor 2,4 x 1.8
       |       ^^^ this could be 2.4, or 2 and 4
       |
       = help: write 2.4
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tilespec.diagnostics.model import Diagnostic, Label, Severity
from tilespec.diagnostics.printable import printable, visible, width, wrapped
from tilespec.source import Source, Span

_TAB = 4
# Columns of a quoted line that are shown; of a longer one, the part around the pointer.
_QUOTE = 120


@dataclass(frozen=True, slots=True)
class Palette:
    """Escape sequences by role; empty where there is no colour."""

    error: str = ""
    warning: str = ""
    note: str = ""
    strong: str = ""
    frame: str = ""
    end: str = ""

    def of(self, severity: Severity) -> str:
        return {Severity.ERROR: self.error, Severity.WARNING: self.warning, Severity.NOTE: self.note}[severity]


PLAIN = Palette()
COLOUR = Palette("\x1b[1;31m", "\x1b[1;33m", "\x1b[1;36m", "\x1b[1m", "\x1b[34m", "\x1b[0m")


def render(
    diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source], palette: Palette = PLAIN, columns: int | None = None
) -> str:
    """All diagnostics, a blank line between two; empty when there are none. What is said is broken to so many columns."""
    return "\n".join(_draw(d, sources, palette, columns) for d in diagnostics)


def summary(diagnostics: Iterable[Diagnostic]) -> str:
    """`2 errors, 1 warning`; empty when there is nothing to say."""
    listed = tuple(diagnostics)
    counts = ((s.value, sum(d.severity is s for d in listed)) for s in Severity)
    return ", ".join(f"{n} {word}{'s' if n > 1 else ''}" for word, n in counts if n)


def _draw(d: Diagnostic, sources: Mapping[str, Source], palette: Palette, columns: int | None) -> str:
    colour = palette.of(d.severity)
    kind = f"{d.severity.value}[{d.code}]"
    first, *more = _broken(f"{kind} {d.name}: {printable(d.message)}", columns, 2)
    head = [f"{colour}{kind}{palette.end} {palette.strong}{first.removeprefix(kind).lstrip()}{palette.end}"]
    head += [f"  {palette.strong}{line}{palette.end}" for line in more]
    places = _places(d, sources)
    margin = max((len(str(place.line)) for place in places if place.source), default=1) + 1
    bar = f"{' ' * margin} {palette.frame}|{palette.end}"
    lines = head
    file: str | None = None
    last = 0
    for place in places:
        if place.file != file:
            arrow = "-->" if file is None else ":::"
            lines.append(f"{' ' * margin}{palette.frame}{arrow}{palette.end} {place.where}")
            if place.source:
                lines.append(bar)
        elif place.line != last + 1:
            lines.append(f"{' ' * margin} {palette.frame}:{palette.end}")
        file, last = place.file, place.line
        lines += place.draw(margin, bar, colour, palette)
    told = [f"note: {note}" for note in d.notes]
    told += [f"help: {text}" for text in ([d.help] if d.help else [fix.title for fix in d.fixes])]
    if told and any(place.source for place in places):
        lines.append(bar)
    room = columns - margin - 3 if columns is not None else None
    for text in told:
        first, *more = (part for line in text.split("\n") for part in _broken(printable(line), room))
        lines.append(f"{' ' * margin} {palette.frame}={palette.end} {first}")
        lines += [f"{' ' * margin}   {line}" for line in more]
    return "\n".join(lines) + "\n"


def _broken(text: str, columns: int | None, hang: int = 0) -> list[str]:
    return [text] if columns is None else wrapped(text, max(columns, 1), hang)


@dataclass(frozen=True, slots=True)
class _Place:
    """One quoted line with the labels that point into it, or a file that cannot be quoted."""

    file: str
    source: Source | None
    line: int
    column: int
    marks: tuple[tuple[Label, bool], ...]   # label; whether it is the primary one

    @property
    def where(self) -> str:
        name = printable(self.file)
        return f"{name}:{self.line}:{self.column}" if self.source else name

    def draw(self, margin: int, bar: str, colour: str, palette: Palette) -> list[str]:
        if self.source is None:
            return [f"{' ' * margin} {palette.frame}={palette.end} {printable(m.text)}" for m, _ in self.marks if m.text]
        cells = _cells(self.source.line_text(self.line))
        spots = [_spot(self.source, self.line, mark.span, len(cells)) for mark, _ in self.marks]
        shown, shift, after = _window(cells, spots[0])
        number = f"{palette.frame}{self.line:>{margin}} |{palette.end}"
        lines = [f"{number} {shown}".rstrip()]
        for (mark, primary), (start, end) in zip(self.marks, spots, strict=True):
            left = sum(width(c) for c in cells[:start]) - shift
            right = max(sum(width(c) for c in cells[:end]) - shift, left + 1)
            if right <= 0 or left > after:      # outside the part of a long line that is shown
                pointer = "…"
            else:
                left, right = max(left, 0), min(right, after + 1)
                pointer = " " * left + (colour if primary else palette.frame) + ("^" if primary else "-") * (right - left)
            until = self.source.line_column(max(mark.span.end - 1, mark.span.start))[0]
            text = printable(mark.text) + (f" (to line {until})" if until > self.line else "")
            lines.append(f"{bar} {pointer} {text}".rstrip() + palette.end)
        return lines


def _places(d: Diagnostic, sources: Mapping[str, Source]) -> list[_Place]:
    """The lines to quote: the primary one's file first, then other files in the order of their labels, each from the top."""
    marks = [(d.primary, True), *((label, False) for label in d.secondary)]
    files = list(dict.fromkeys(mark.span.file for mark, _ in marks))
    places: list[_Place] = []
    for file in files:
        here = [m for m in marks if m[0].span.file == file]
        source = sources.get(file)
        if source is None:
            places.append(_Place(file, None, 0, 0, tuple(here)))
            continue
        spots = [(*source.line_column(min(m[0].span.start, len(source.text))), m) for m in here]
        # The primary line opens its file's part, so that the place after the arrow is the one to go to.
        lead = spots[0][0]
        for line in sorted({line for line, _, _ in spots}, key=lambda n: (n != lead, n)):
            on = [(column, m) for at, column, m in spots if at == line]
            places.append(_Place(file, source, line, on[0][0], tuple(m for _, m in on)))
    return places


def _cells(text: str) -> list[str]:
    """What is printed for each character of a line."""
    cells: list[str] = []
    at = 0
    for c in text:
        cell = " " * (_TAB - at % _TAB) if c == "\t" else visible(c)
        cells.append(cell)
        at += width(cell)
    return cells


def _spot(source: Source, line: int, span: Span, length: int) -> tuple[int, int]:
    """Where a span starts and ends on its first line (end exclusive)."""
    start = source.line_column(min(span.start, len(source.text)))[1] - 1
    end_line, end = source.line_column(min(max(span.end, span.start), len(source.text)))
    return start, max(length if end_line > line else end - 1, start)


def _window(cells: list[str], spot: tuple[int, int]) -> tuple[str, int, int]:
    """The part of a line to show, how far it is moved to the left, and its width."""
    whole = sum(width(c) for c in cells)
    if whole <= _QUOTE:
        return "".join(cells), 0, whole
    # A third of the room before the pointer, the rest for it and what follows.
    start, used = spot[0], 0
    while start > 0 and used + width(cells[start - 1]) <= _QUOTE // 3:
        start -= 1
        used += width(cells[start])
    end, used = start, 0
    while end < len(cells) and used + width(cells[end]) <= _QUOTE:
        used += width(cells[end])
        end += 1
    before, behind = ("… " if start else ""), (" …" if end < len(cells) else "")
    shift = sum(width(c) for c in cells[:start]) - width(before)
    return before + "".join(cells[start:end]) + behind, shift, width(before) + used
