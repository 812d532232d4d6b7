"""Tables and lines of text as wide as they may be: columns that shrink and break where a terminal is narrow.

Without a width nothing is broken, so that other programs find one row on one line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from tilespec.diagnostics.printable import width, wrapped
from tilespec.document.show import NARROW

_GAP = 2
# Below this a column of words is a tower; from here on every row stands as a list of its own.
_LEAST = 10
_FEET = re.compile(f"ft{NARROW}(?=[0-9])")
_FIXED = str.maketrans({NARROW: " ", "\N{NO-BREAK SPACE}": " "})


def table(
    head: Sequence[str], rows: Sequence[Sequence[str]], right: Sequence[bool], columns: int | None = None, indent: int = 0,
) -> Iterator[str]:
    """Lines of a table without a frame, and without its head where that is empty. `right`: which columns stand flush right.

    No text may hold a line break. A number stays together with its unit where there is a no-break space between them; it is
    printed as a blank.
    """
    cells = [tuple(head), *(tuple(r) for r in rows)]
    widths = [max(width(r[n]) for r in cells) for n in range(len(head))]
    if columns is not None:
        room = columns - indent - _GAP * (len(head) - 1)
        least = _least(cells, right)
        if sum(least) > room:
            # Rather feet above inches than no table.
            cells = [tuple(_FEET.sub("ft ", c) for c in r) for r in cells]
            least = _least(cells, right)
        if sum(least) > room:
            yield from _lists(cells, columns, indent)
            return
        widths = _shrunk([max(width(r[n]) for r in cells) for n in range(len(head))], least, room)
    for r in cells if any(head) else cells[1:]:
        broken = [wrapped(c, w) if columns is not None else [c] for c, w in zip(r, widths)]
        for n in range(max(map(len, broken))):
            line = [_set(b[n] if n < len(b) else "", w, flush) for b, w, flush in zip(broken, widths, right)]
            yield f"{' ' * indent}{(' ' * _GAP).join(line)}".translate(_FIXED).rstrip()


def filled(text: str, columns: int | None, indent: int = 0, hang: int = 0) -> list[str]:
    """A line of text, broken where it must; what follows its first line stands `hang` further in."""
    if columns is None:
        return [(" " * indent + text).translate(_FIXED).rstrip()]
    first, *more = wrapped(text, max(columns - indent, 1), hang)
    return [line.translate(_FIXED).rstrip() for line in (" " * indent + first, *(" " * (indent + hang) + x for x in more))]


def _least(cells: Sequence[Sequence[str]], right: Sequence[bool]) -> list[int]:
    """How narrow each column may be: a number stays whole."""
    result = []
    for n, flush in enumerate(right):
        column = [r[n] for r in cells]
        result.append(max(map(_longest, column)) if flush else min(max(map(width, column)), _LEAST))
    return result


def _longest(text: str) -> int:
    return max(map(width, text.split(" ")))


def _set(text: str, columns: int, right: bool) -> str:
    blank = " " * (columns - width(text))
    return blank + text if right else text + blank


def _shrunk(widths: Sequence[int], least: Sequence[int], room: int) -> list[int]:
    """The widest column that can gives way first."""
    result = list(widths)
    while sum(result) > room:
        widest = max((n for n, w in enumerate(result) if w > least[n]), key=lambda n: result[n])
        result[widest] -= 1
    return result


def _lists(cells: Sequence[Sequence[str]], columns: int, indent: int) -> Iterator[str]:
    """Every row as lines `head: cell`, the first of them its name."""
    head, *rows = cells
    for r in rows:
        for n, (name, cell) in enumerate(zip(head, r)):
            if cell:
                text = f"{name}: {cell}" if name and n else cell
                yield from filled(text, columns, indent + (2 if n else 0), 2)
