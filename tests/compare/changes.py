"""Changes seen from the other side, and changes without their order."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from tilespec.compare.types import Came, Change, Changed, Gone, Moved
from tilespec.quantity import UNITS, Counted, Quantity


def q(number: Fraction | int | str, unit: str) -> Quantity:
    u = UNITS[unit]
    return Quantity(Fraction(number) * u.factor + u.offset, u.kind, u, Counted("test"))


def mirrored(change: Change) -> Change:
    match change:
        case Came():
            return Gone(change.about, change.facts)
        case Gone():
            return Came(change.about, change.facts)
        case Moved():
            return Moved(change.about, change.new, change.old)
        case Changed():
            d = change.difference
            back = Quantity(-d.value, d.kind, d.shown, d.why) if d is not None else None
            return Changed(change.about, change.what, change.new, change.old, back)


def bag(changes: tuple[Change, ...]) -> Counter[str]:
    """What changed, in whatever order, by value and not by why."""
    def word(value: object) -> str:
        return f"{value.value} {value.kind}" if isinstance(value, Quantity) else repr(value)

    def line(x: Change) -> str:
        match x:
            case Changed():
                return f"{x.about} {x.what} {word(x.old)} {word(x.new)} {word(x.difference)}"
            case Came() | Gone():
                return f"{type(x).__name__} {x.about} {[(f.what, word(f.value)) for f in x.facts]}"
        return repr(x)

    return Counter(line(x) for x in changes)
