"""Adding up many quantities: the formula printed is made from the list that is added."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tilespec.quantity.trace import Counted, Quantity, Worked
from tilespec.quantity.unit import UNITS
from tilespec.quantity.work import FormulaError


def total(terms: Sequence[tuple[str, Quantity]], shown: str, *, of: str, source: str = "sum") -> Quantity:
    """The sum of named quantities; one term is returned as it is, and nothing at all is a counted nought of `of`.

    Raises FormulaError when a term is of another kind than the unit `shown`: that is a bug.
    """
    u = UNITS[shown]
    for name, q in terms:
        if q.kind is not u.kind:
            raise FormulaError(f"{name} cannot be added up in {shown}")
    if not terms:
        return Quantity(Fraction(0), u.kind, u, Counted(f"{of}: none"))
    if len(terms) == 1:
        return terms[0][1].shown_in(u)
    value = sum((q.value for _, q in terms), Fraction(0))
    return Quantity(value, u.kind, u, Worked(" + ".join(name for name, _ in terms), tuple(terms), source))
