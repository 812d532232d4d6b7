"""Stretches of a line (a wall's foot, a corner's height), joined and cut, each end with its reason."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tilespec.quantity import Quantity, work
from tilespec.quantity.total import total


@dataclass(frozen=True, slots=True)
class Stretch:
    """From `start` to `end`. `length`: the thing's own length, as long as the stretch is uncut."""

    start: Quantity
    end: Quantity
    length: Quantity | None = None

    @property
    def size(self) -> Fraction:
        return self.end.value - self.start.value

    def measured(self) -> Quantity:
        if self.length is not None:
            return self.length
        if self.start.value == 0:
            return self.end
        return work("end - start", "m", source="places along a line", end=self.end, start=self.start)


def joined(stretches: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """Stretches that overlap or touch become one."""
    result: list[Stretch] = []
    for s in sorted((s for s in stretches if s.size > 0), key=lambda s: (s.start.value, -s.size)):
        if not result or s.start.value > result[-1].end.value:
            result.append(s)
        elif s.end.value > result[-1].end.value:
            result[-1] = Stretch(result[-1].start, s.end)
    return tuple(result)


def within(stretches: Sequence[Stretch], frame: Stretch) -> tuple[Stretch, ...]:
    """The parts that lie in a frame."""
    kept: list[Stretch] = []
    for s in stretches:
        start = s.start if s.start.value >= frame.start.value else frame.start
        end = s.end if s.end.value <= frame.end.value else frame.end
        if end.value > start.value:
            whole = start.value == s.start.value and end.value == s.end.value
            covers = start.value == frame.start.value and end.value == frame.end.value
            kept.append(s if whole else frame if covers else Stretch(start, end))
    return tuple(kept)


def without(stretches: Sequence[Stretch], cuts: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """What is left of stretches when others are taken out."""
    left = list(stretches)
    for c in cuts:
        kept: list[Stretch] = []
        for s in left:
            if c.end.value <= s.start.value or c.start.value >= s.end.value:
                kept.append(s)
                continue
            if c.start.value > s.start.value:
                kept.append(Stretch(s.start, c.start))
            if c.end.value < s.end.value:
                kept.append(Stretch(c.end, s.end))
        left = kept
    return tuple(left)


def length(stretches: Sequence[Stretch], of: str) -> Quantity | None:
    """Their length together, or None where there is none."""
    if not stretches:
        return None
    if len(stretches) == 1:
        return stretches[0].measured()
    return total([(f"part {n}", s.measured()) for n, s in enumerate(stretches, 1)], "m", of=of)
