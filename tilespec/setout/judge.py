"""What makes a set-out good, one direction at a time.

In patterns of straight courses, what is cut across depends only on where the courses start across, and what is cut up only on
where they start upwards. All criteria add up, so that the best start in each direction makes the best set-out.
A criterion is compared to the millimetre (of a cut, or of an edge that is cut).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

# In the order in which they are compared.
CRITERIA = (
    "slivers", "small-cuts", "unbalanced", "eye-line", "doorway", "external-corner", "joints-through", "cuts", "courses",
)
Score = tuple[int, ...]
_TINY = 1e-6
# Cuts are said to a tenth of a millimetre: what is missing by less is not missing.
_FINE = 0.1
# What lacks less than rounds to a millimetre is no cut.
_WHOLE = 0.5


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the region in the direction that is judged, from edge to edge, in millimetres.

    deep        how far it reaches in the other direction: so long are the edges at its ends
    seen        how much of each end's edge is seen at the eye line, in a doorway, at an external corner: (start, end) each
    """

    start: float
    end: float
    deep: float
    eye: tuple[float, float] = (0.0, 0.0)
    door: tuple[float, float] = (0.0, 0.0)
    corner: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Case:
    """One direction of one layout.

    size, joint  of a tile in this direction, millimetres
    phases       how courses are moved against each other: (shift, share of the courses)
    poor, small  cuts under these are slivers, and small
    balanced     whether the cuts at both ends are to be equal
    meets        places in this direction where joints of another surface stand, with its module
    """

    spans: tuple[Span, ...]
    size: float
    joint: float
    phases: tuple[tuple[float, float], ...]
    poor: float
    small: float
    balanced: bool
    meets: tuple[float, ...] = ()

    @property
    def module(self) -> float:
        return self.size + self.joint

    @property
    def low(self) -> float:
        return min(s.start for s in self.spans)

    @property
    def high(self) -> float:
        return max(s.end for s in self.spans)


def ends(case: Case, span: Span, origin: float, shift: float) -> tuple[float, float, bool]:
    """The widths of the first and the last tile of a span, and whether they are one piece."""
    size, module = case.size, case.module
    first = floor((span.start - origin - shift) / module + _TINY)
    last = ceil((span.end - origin - shift) / module - _TINY) - 1
    off = span.start - (origin + shift + first * module)
    if off >= size - _TINY:
        first, left = first + 1, size
    else:
        left = size - max(off, 0.0)
    right = min(span.end - (origin + shift + last * module), size)
    if first >= last:
        only = min(span.end, origin + shift + first * module + size) - max(span.start, origin + shift + first * module)
        return max(only, 0.0), max(only, 0.0), True
    return left, right, False


def judge(case: Case, origin: float) -> Score:
    """The score of a start (the left or lower edge of any tile of the first course), to be compared in order; less is better."""
    slivers = small = eye = door = corner = cuts = 0.0
    outer: list[tuple[float, float]] = []
    low, high = case.low, case.high
    for span in case.spans:
        for shift, share in case.phases:
            left, right, one = ends(case, span, origin, shift)
            if span.start <= low + _TINY and span.end >= high - _TINY and shift == case.phases[0][0]:
                outer.append((left, right))
            for n, width in enumerate((left,) if one else (left, right)):
                if width >= case.size - _WHOLE:
                    continue
                edge = span.deep * share
                cuts += edge
                if width < case.poor - _FINE:
                    slivers += edge
                if width < case.small - _FINE:
                    small += edge
                eye, door, corner = eye + span.eye[n] * share, door + span.door[n] * share, corner + span.corner[n] * share
    unbalanced = abs(outer[0][0] - outer[0][1]) if case.balanced and outer else 0.0
    missed = sum(_missed(origin, at, case.module) for at in case.meets)
    courses = ceil((high - origin) / case.module - _TINY) - floor((low - origin) / case.module + _TINY)
    return tuple(round(v) for v in (slivers, small, unbalanced, eye, door, corner, missed, cuts, courses))


def narrowest(case: Case, origin: float) -> int:
    """The least width of a cut with this start (mm): of starts that are equally good, the one that spares the saw."""
    widths = [w for span in case.spans for shift, _ in case.phases for w in ends(case, span, origin, shift)[:2]]
    return round(min(widths, default=case.size))


def _missed(origin: float, at: float, module: float) -> float:
    off = (at - origin) % module
    return min(off, module - off)


def candidates(case: Case) -> list[float]:
    """Starts between which no other can be better: where some cut becomes full, half, or least, and where ends are balanced.

    All are within one module. The score is made of steps at these places and of straight lines between them.
    """
    module, size = case.module, case.size
    found: list[float] = []
    shifts = [s for s, _ in case.phases]
    for span in case.spans:
        for shift in shifts:
            for wide in (size, case.small, case.poor):
                # The first tile of the span is so wide: it ends at start + wide.
                found.append(span.start + wide - size - shift)
                # The last tile is so wide: it starts at end - wide.
                found.append(span.end - wide - shift)
            # A tile ends or begins at an end of the span, or a joint away from it.
            for at in (span.start, span.end):
                found += [at - shift, at + case.joint - shift, at - size - shift, at - case.joint - size - shift]
    low, high = case.low, case.high
    middle = (low + high) / 2
    found += [middle - size / 2, middle + case.joint / 2]
    found += list(case.meets)
    # Some steps are taken only just past them: within the millimetre that is worked to.
    inside = sorted({round((f + step - low) % module, 4) for f in found for step in (-1, 0, 1)})
    # Between two steps the balance is best at an end or where the lines meet; half-way covers what only touches a step.
    between = [(a + b) / 2 for a, b in zip(inside, [*inside[1:], inside[0] + module], strict=True)]
    return [low + f for f in dict.fromkeys([*inside, *(b % module for b in between)])]


def total(scores: Sequence[Score]) -> Score:
    return tuple(sum(parts) for parts in zip(*scores, strict=True))
