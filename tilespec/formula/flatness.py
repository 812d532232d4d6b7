"""How far a face may lie off under a straightedge of another length than the limit's.

Between two lengths of a table the gap is read off in a straight line, as DIN 18202 asks. Where there is no table, a hollow that
is too deep under a short straightedge is no shallower under a longer one; under a longer one than the limit's the gap may grow in
proportion, which is common practice and no standard.
"""

from __future__ import annotations

from tilespec.quantity import Quantity, work

TABLE = "straight line between two lengths of the table"
PROPORTION = "common practice: in proportion to the straightedge"


def between(over: Quantity, table: tuple[tuple[Quantity, Quantity], ...]) -> Quantity:
    """The gap that a table of (length, gap), shortest first, allows; outside it that of its nearest length."""
    if over.value <= table[0][0].value:
        return table[0][1]
    for (low, less), (high, more) in zip(table, table[1:]):
        if over.value <= high.value:
            return work(
                "less + (more - less) * (over - low) / (high - low)", less.shown.symbol, source=TABLE,
                less=less, more=more, over=over, low=low, high=high,
            )
    return table[-1][1]


def under(over: Quantity, limit: Quantity, length: Quantity) -> Quantity:
    """The gap allowed under this straightedge by a limit that is for another length."""
    if over.value <= length.value:
        return limit
    return work("limit * over / length", limit.shown.symbol, source=PROPORTION, limit=limit, over=over, length=length)
