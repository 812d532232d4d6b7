"""Lengths of cuts: what the saw, the blade and the tiler spend on a layout."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import hypot, pi

from tilespec.quantity import UNITS, Kind, Quantity, Worked
from tilespec.setout.geometry import sides
from tilespec.setout.types import Layout, Ring, Row

_NEAR = Fraction(1, 10**5)


def row_length(row: Row, width: Fraction, height: Fraction) -> float:
    """Metres of cut of one piece: its edges that are no edge of the tile, cuts across it, and the rims of its holes."""
    return _edge_length(row, width, height) + sum(pi * float(d.value) for _, _, _, d in row.holes)


def _edge_length(row: Row, width: Fraction, height: Fraction) -> float:
    length = sum(_inside(ring, width, height) for ring in row.outline.rings)
    return length + sum(hypot(float(c.value - a.value), float(d.value - b.value)) for a, b, c, d in row.folds)


def _inside(ring: Ring, width: Fraction, height: Fraction) -> float:
    found = 0.0
    for (x1, y1), (x2, y2) in sides(ring):
        edge = any(
            abs(a - at) < _NEAR and abs(b - at) < _NEAR
            for a, b, at in ((x1, x2, Fraction(0)), (x1, x2, width), (y1, y2, Fraction(0)), (y1, y2, height))
        )
        if not edge:
            found += hypot(float(x2 - x1), float(y2 - y1))
    return found


def cut_length(layout: Layout) -> Quantity | None:
    """Metres of cut of all pieces of a layout, to the millimetre; None where nothing is cut."""
    return _metres(layout, layout.rows, row_length, "lengths of the cut edges in the cut list, by their number")


def edge_length(layout: Layout, rows: Sequence[Row], kind: str) -> Quantity | None:
    """The same of some rows, without the rims of holes. `kind` says which rows: "to snap", "to saw"."""
    return _metres(layout, rows, _edge_length, f"lengths of the cut edges {kind} in the cut list, by their number")


def _metres(
    layout: Layout, rows: Sequence[Row], length: Callable[[Row, Fraction, Fraction], float], formula: str,
) -> Quantity | None:
    metres = sum(length(r, layout.width.value, layout.height.value) * float(r.count.value) for r in rows)
    if not metres:
        return None
    why = Worked(formula, (
        ("width", layout.width), ("height", layout.height), ("rows", rows[0].count),
    ), "set-out by pieces")
    return Quantity(Fraction(round(metres * 1000), 1000), Kind.LENGTH, UNITS["m"], why)
