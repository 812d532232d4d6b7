"""Gaps under a straightedge: which limit a reading is judged by, and what to say of its length."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.checks.rule import Context, both, cited, reckoned
from tilespec.formula.flatness import between, under
from tilespec.job.types import Record
from tilespec.practice.lookup import Word
from tilespec.quantity import UNITS, Kind, Limit, Quantity
from tilespec.quantity.read import read
from tilespec.quantity.typed import typed


@dataclass(frozen=True, slots=True)
class Allowed:
    """The largest gap under the straightedge of a record, how long that is, and the notes that say why."""

    gap: Quantity
    over: Quantity
    notes: tuple[str, ...]


def allowed(context: Context, record: Record, key: str) -> Allowed:
    """By the limit of this key and its `-length`; by the family's table, where it has one and the firm is no stricter."""
    practice = context.practice
    limit, length = practice.limit(key), practice.limit(f"{key}-length")
    if record.over is None:
        note = f"The record names no straightedge: write `over {typed(length)}` beside it."
        return Allowed(limit, length, (cited(limit), note))
    over, entry = record.over, practice.entry(f"{key}-table")
    if over.value == length.value:
        return Allowed(limit, over, (cited(limit),))
    if entry is not None and isinstance(limit.why, Limit):
        word = practice.word(f"{key}-table")
        gap = between(over, _points(word))
        return Allowed(gap, over, (cited(word), *((reckoned("Allowed", gap),) if not isinstance(gap.why, Limit) else ())))
    short, short_length = _short(context, key)
    if short is not None and short_length is not None and over.value <= short_length.value:
        return Allowed(short, over, (cited(short),))
    gap = under(over, limit, length)
    how = reckoned("Allowed", gap) if over.value > length.value else "Under a longer straightedge a gap is no smaller."
    return Allowed(gap, over, (cited(limit), f"The limit is for a straightedge of {both(length)}. {how}"))


def _short(context: Context, key: str) -> tuple[Quantity | None, Quantity | None]:
    """The limit over a short length, of the families that have one."""
    if not key.startswith("flatness-"):
        return None, None
    large = "-large" if key.endswith("-large") else ""
    return context.practice.find(f"flatness-short{large}"), context.practice.find(f"flatness-short{large}-length")


def _points(table: Word) -> tuple[tuple[Quantity, Quantity], ...]:
    """The table's lengths and gaps: "0.1 m 2 mm, 1 m 4 mm"."""
    points = []
    for point in table.text.split(", "):
        number, unit, gap, gap_unit = point.split()
        points.append((_length(f"{number} {unit}", table), _length(f"{gap} {gap_unit}", table)))
    return tuple(points)


def _length(text: str, table: Word) -> Quantity:
    r = read(text)
    u = r.unit or UNITS["mm"]
    return Quantity(r.number * u.factor, Kind.LENGTH, u, table.why)
