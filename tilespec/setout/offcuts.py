"""Offcut plans: which cut pieces come from which tiles, for each article, in the fewest tiles.

The same tile laid upright and landscape comes out of the same boxes, so it is one article. A piece counts by its bounding box in
the tile's own frame; what is cut out of it, or off it aslant, is waste. A side of the tile along which a piece still has an edge
is one at which a joint shows, so it must be a factory edge. Natural stone has a direction (veins), so it is not turned on the
saw; any other tile may be turned half round, a square one by a quarter. Mosaic sheets are cut between the chips: nothing is sawn,
and no edge is better than another.

Allowance for breakage, whole boxes and spares are the take-off's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tilespec.practice.lookup import Practice
from tilespec.quantity import counted
from tilespec.quantity.total import total
from tilespec.setout.cutlist import has_direction
from tilespec.setout.fewest import Cut, fewest
from tilespec.setout.stock import SIDES, Demand, Stock
from tilespec.setout.types import Cutting, Layout, OffcutPlan, Ring, Row, SetOut, Shape

# Slanted work is rounded to a nanometre: what is nearer than this to a side of the tile lies on it.
_NEAR = Fraction(1, 10**6)


@dataclass(frozen=True, slots=True)
class _Article:
    """What comes out of the same boxes."""

    name: str
    short: Fraction
    long: Fraction
    thickness: Fraction
    body: str


def _article(layout: Layout) -> _Article:
    short, long = sorted((layout.width.value, layout.height.value))
    tile = layout.tile
    return _Article(tile.name, short, long, tile.thickness.value, tile.body)


def plan(setout: SetOut, practice: Practice) -> tuple[OffcutPlan, ...]:
    """One plan an article, in the order in which they are first laid."""
    articles: dict[_Article, list[Layout]] = {}
    for layout in setout.layouts:
        articles.setdefault(_article(layout), []).append(layout)
    return tuple(_plan(layouts, practice) for layouts in articles.values())


def _plan(layouts: Sequence[Layout], practice: Practice) -> OffcutPlan:
    first = layouts[0]
    tile = first.tile
    kerf = (tile.chip_joint or first.joint) if tile.mosaic else practice.limit("saw-kerf")
    stock = Stock(
        first.width.value, first.height.value, kerf.value,
        Fraction(0) if tile.mosaic else practice.limit("offcut-least").value, has_direction(tile),
    )
    found = fewest(stock, [d for layout in layouts for d in _demands(layout, stock)])
    return OffcutPlan(
        tile, total([(f"{x.face}, {x.role}", x.full) for x in layouts], "count", of="whole tiles"),
        counted(found.cut, f"tiles of {tile.name} that are cut up, in the plan of cuts"),
        counted(found.bound, f"fewest tiles of {tile.name} that all its cut pieces could come from"),
        counted(found.first_fit, f"tiles of {tile.name} cut up where each piece comes from the first tile with room for it"),
        found.proven, kerf, tuple(_cutting(c) for c in found.cuts),
    )


def _demands(layout: Layout, stock: Stock) -> list[Demand]:
    turned = (layout.width.value, layout.height.value) != (stock.width, stock.height)
    return [
        _demand(layout, row, outline, count, turned)
        for row in layout.rows for outline, count in row.hands or ((row.outline, int(row.count.value)),) if count
    ]


def _demand(layout: Layout, row: Row, outline: Shape, count: int, turned: bool) -> Demand:
    """Pieces of a row of the cut list; a quarter turn to the left where the tile is laid the other way round here."""
    left, low, right, high = outline.bounds
    whole_width, whole_height = layout.width.value, layout.height.value
    width, height = _clear(right - left, whole_width), _clear(high - low, whole_height)
    sides = () if layout.tile.mosaic else factory_sides(outline.outer, whole_width, whole_height)
    if turned:
        turn = {"left": "low", "low": "right", "right": "high", "high": "left"}
        width, height, sides = height, width, tuple(s for s in SIDES if s in {turn[x] for x in sides})
    return Demand((layout.surface, row.number), width, height, count, sides)


def _clear(length: Fraction, whole: Fraction) -> Fraction:
    return whole if length > whole - _NEAR else length


def factory_sides(outline: Ring, width: Fraction, height: Fraction) -> tuple[str, ...]:
    """The sides of the tile along which the piece has an edge."""
    sides = {"left": (0, Fraction(0)), "right": (0, width), "low": (1, Fraction(0)), "high": (1, height)}
    return tuple(
        name for name, (axis, at) in sides.items() if any(
            abs(a[axis] - at) < _NEAR and abs(b[axis] - at) < _NEAR and abs(a[1 - axis] - b[1 - axis]) > _NEAR
            for a, b in zip(outline, (*outline[1:], outline[0]))
        )
    )


def _cutting(cut: Cut) -> Cutting:
    counts: dict[tuple[str, int], int] = {}
    for key, *_ in cut.boxes:
        counts[key] = counts.get(key, 0) + 1
    return Cutting(
        cut.tiles, tuple((surface, number, n) for (surface, number), n in counts.items()),
        tuple((*key, left, low, width, height) for key, left, low, width, height in cut.boxes),
    )

