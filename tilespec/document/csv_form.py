"""The take-off for a spreadsheet: one row for each material, each number and its unit in cells of their own.

The numbers are those of the print. Sizes in feet and inches are no numbers to a spreadsheet: those stand in metric.
"""

from __future__ import annotations

import csv
import io
import re

from tilespec.diagnostics.printable import printable
from tilespec.document.model import Excerpt, MaterialRow, MaterialsPart
from tilespec.document.show import NARROW, show, show_parts
from tilespec.quantity import Quantity

HEAD = (
    "kind", "role", "material", "class", "where", "net", "net unit", "allowance", "allowance unit", "gross", "gross unit",
    "packs", "pack", "pack unit", "pieces", "whole", "to cut", "to spare", "weight", "weight unit",
)  # fmt: skip
_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")


def render(excerpt: Excerpt) -> str:
    """Text with a line break at the end of each row."""
    file = io.StringIO()
    writer = csv.writer(file, lineterminator="\n")
    writer.writerow(HEAD)
    for _, part in excerpt.parts:
        if isinstance(part, MaterialsPart):
            writer.writerows([safe(cell) for cell in _row(m, excerpt.family)] for m in part.lines)
    return file.getvalue()


def safe(text: str) -> str:
    """One line, and no formula: a spreadsheet would work out a cell that starts like one, wherever the words came from."""
    line = printable(text)
    if _NUMBER.fullmatch(line):
        return line
    # Some spreadsheets look behind blanks, and read the wide forms of these signs as the signs.
    return f"'{line}" if line.lstrip().startswith(("=", "+", "-", "@", "＝", "＋", "－", "＠")) else line


def _row(m: MaterialRow, family: str) -> list[str]:
    places = "; ".join(dict.fromkeys(s.place.text for s in m.shares))
    cls = m.product.cls.text if m.product else ""
    packed = _split(m.pack, family)
    counts = [_split(q, family)[0] for q in (m.pieces, m.whole, m.cut, m.left)]
    return [
        m.kind, m.role, m.name.text, cls, places, *_split(m.net, family), *_split(m.allowance, family), *_split(m.gross, family),
        _split(m.packs, family)[0], *packed, *counts, *_split(m.weight, family),
    ]  # fmt: skip


def _split(q: Quantity | None, family: str) -> tuple[str, str]:
    """Number and unit; together in one cell where they cannot be told apart."""
    if q is None:
        return "", ""
    for text in show_parts(q, family):
        number, _, unit = text.partition(NARROW)
        number = number.replace("−", "-")
        if _NUMBER.fullmatch(number) and NARROW not in unit and unit not in ("ft", "in"):
            return number, unit
    return show(q, family).replace(NARROW, " "), ""
