"""Two lists of things held against each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime
from fractions import Fraction

from tilespec.compare.thing import Thing
from tilespec.compare.types import Came, Change, Changed, Fact, Gone, Value
from tilespec.quantity import UNITS, Counted, Kind, Quantity, Worked, work


def between(old: Sequence[Thing], new: Sequence[Thing]) -> tuple[Change, ...]:
    """Changes in the order of the new list; what is gone stands after what it followed."""
    return tuple(_lists((), old, new))


def of_one(old: Thing, new: Thing) -> tuple[Change, ...]:
    """Changes of what has no name of its own, such as the job."""
    return tuple(_inside((), old, new))


def _lists(about: tuple[str, ...], old: Sequence[Thing], new: Sequence[Thing]) -> Iterator[Change]:
    pairs = _paired(old, new)
    partner = {n: o for o, n in pairs}
    met = {o for o, _ in pairs}
    gone = [o for o in range(len(old)) if o not in met]
    for n, thing in enumerate(new):
        if (o := partner.get(n)) is None:
            yield from _alone(Came, about, thing)
            continue
        while gone and gone[0] < o:
            yield from _alone(Gone, about, old[gone.pop(0)])
        yield from _inside((*about, _label(old, new, o, n)), old[o], thing)
    for o in gone:
        yield from _alone(Gone, about, old[o])


def _paired(old: Sequence[Thing], new: Sequence[Thing]) -> list[tuple[int, int]]:
    """What is one thing on both sides: of one label, and alike before unlike, then in their order. The same from either side."""
    pairs: list[tuple[int, int]] = []
    for label in dict.fromkeys(t.label for t in old):
        left = [o for o, t in enumerate(old) if t.label == label]
        right = [n for n, t in enumerate(new) if t.label == label]
        for o in tuple(left):
            alike = next((n for n in right if new[n] == old[o]), None)
            if alike is not None:
                pairs.append((o, alike))
                left.remove(o)
                right.remove(alike)
        pairs += zip(left, right)
    return pairs


def _label(old: Sequence[Thing], new: Sequence[Thing], o: int, n: int) -> str:
    """With its number where it has namesakes, and is the same one of them on both sides."""
    label = old[o].label
    here = [sum(t.label == label for t in things[: at + 1]) for things, at in ((old, o), (new, n))]
    many = any(sum(t.label == label for t in things) > 1 for things in (old, new))
    return f"{label} {here[0]}" if many and here[0] == here[1] else label


def _alone(kind: type[Came] | type[Gone], about: tuple[str, ...], thing: Thing) -> Iterator[Change]:
    here = (*about, thing.label)
    # A bare frame round its parts is nothing by itself.
    if thing.facts or not thing.things:
        yield kind(here, thing.facts)
    for inner in thing.things:
        yield from _alone(kind, here, inner)


def _inside(about: tuple[str, ...], old: Thing, new: Thing) -> Iterator[Change]:
    if old == new:
        return
    before, after = _facts(old.facts), _facts(new.facts)
    for what in _merged(tuple(before), tuple(after)):
        a, b = before.get(what), after.get(what)
        if a != b:
            yield Changed(about, what, a, b, difference(a, b))
    yield from _lists(about, old.things, new.things)


def _facts(facts: Sequence[Fact]) -> dict[str, Value]:
    """By what they say; a second of one name gets its number."""
    found: dict[str, Value] = {}
    for f in facts:
        name, n = f.what, 1
        while name in found:
            n += 1
            name = f"{f.what} ({n})"
        found[name] = f.value
    return found


def _merged(old: Sequence[str], new: Sequence[str]) -> list[str]:
    """All names, in the order of the new side, each that is gone after what it followed."""
    merged = list(new)
    for at, name in enumerate(old):
        if name not in new:
            before = next((merged.index(p) + 1 for p in reversed(old[:at]) if p in merged), 0)
            merged.insert(before, name)
    return merged


def difference(old: Value | None, new: Value | None) -> Quantity | None:
    """New less old, with its trace; None where that means nothing."""
    if isinstance(old, Quantity) and isinstance(new, Quantity):
        if old.kind is not new.kind or new.kind in (Kind.SLOPE, Kind.YEAR):
            return None
        return work("new - old", _unit(old, new), source="what has changed", new=new, old=old)
    days = _days(old, new)
    if days is None:
        return None
    unit = UNITS["d"]
    return Quantity(days * unit.factor, unit.kind, unit, Counted("days on the calendar"))


def _unit(old: Quantity, new: Quantity) -> str:
    shown = new.shown.symbol
    if new.kind is Kind.TEMPERATURE:
        return "K"      # degrees apart are no temperature
    if shown == "m" and not any(isinstance(q.why, Worked) for q in (old, new)):
        return "mm"     # a measured length may have changed by less than a centimetre
    return shown


def _days(old: Value | None, new: Value | None) -> Fraction | None:
    if isinstance(old, datetime) and isinstance(new, datetime):
        days = (new.date() - old.date()).days
    elif type(old) is date and type(new) is date:
        days = (new - old).days
    else:
        return None
    return Fraction(days) if days else None
