"""Drawing scales and the sheets that a drawing has to fit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction
from typing import Generic, TypeVar

from tilespec.quantity import UNITS

# 1:30 and 1:40 keep a wide room or long numbers legible where 1:25 just does not fit; the last ones draw a hall.
SCALES = (10, 15, 20, 25, 30, 40, 50, 75, 100, 125, 200, 250, 500)


@dataclass(frozen=True, slots=True)
class Paper:
    """Room for one drawing on a page, in millimetres."""

    width: int
    height: int


_PAPERS = {"A4": Paper(180, 230), "Letter": Paper(190, 215)}
KEY_PLAN = Paper(64, 70)

T = TypeVar("T")
# A drawing gives up its size down to this scale, no further, for the table below it.
_SMALLEST = 30
_NEARLY = 1.16


def paper(name: str) -> Paper:
    """The room that a drawing has on a sheet of A4 or Letter. KeyError for any other sheet."""
    return _PAPERS[name]


def words(scale: int) -> str:
    return f"1:{scale}"


def on_paper(metres: Fraction | float, scale: int) -> float:
    """Length on paper in millimetres of a length in the room in metres."""
    return float(metres) * 1000 / scale


class Detail(IntEnum):
    """What a drawing leaves to the list of positions, when there is more to say than one sheet holds."""

    ALL = 0
    SHORT_KEY = 1  # the key is cut
    NO_HOLES = 2  # and holes have their letters but no running dimensions
    OUTLINE = 3  # and nothing but the surface itself has


def largest(attempt: Callable[[int, Detail], T | None]) -> T:
    """What `attempt` makes with the most detail, at the largest scale at which it makes anything.

    Raises ValueError when it makes nothing at all: for a surface too large for any scale.
    """
    for detail in Detail:
        for scale in SCALES:
            made = attempt(scale, detail)
            if made is not None:
                return made
    raise ValueError("fits no sheet at any scale")


@dataclass(frozen=True, slots=True)
class Made(Generic[T]):
    """One attempt: its height on paper (mm), and how much of it could not be told at its scale."""

    what: T
    height: float
    missing: int = 0


def roomy(attempt: Callable[[int, Detail], Made[T] | None], limit: float) -> T:
    """As `largest`, but at a somewhat smaller scale where only that keeps the drawing under a height and tells no less.

    Raises ValueError as `largest` does.
    """
    for detail in Detail:
        found: list[Made[T]] = []
        at = 0
        for scale in SCALES:
            if found and scale > max(at, _SMALLEST):
                break
            made = attempt(scale, detail)
            if made is None or (found and made.missing > found[0].missing):
                continue
            found.append(made)
            at = at or scale
            if made.height <= limit:
                break
        # Where none gets under the height, one that comes near it; else the largest.
        for most in (limit, limit * _NEARLY):
            for made in found:
                if made.height <= most:
                    return made.what
        if found:
            return found[0].what
    raise ValueError("fits no sheet at any scale")


@dataclass(frozen=True, slots=True)
class Bar:
    """A scale bar: how many parts, each so long on paper (mm), and what it measures in all."""

    parts: int
    part: float
    words: str


_METRES = (
    (4, Fraction(1, 20), "200 mm"),
    (5, Fraction(1, 10), "500 mm"),
    (4, Fraction(1, 4), "1 m"),
    (4, Fraction(1, 2), "2 m"),
    (5, Fraction(1), "5 m"),
    (5, Fraction(2), "10 m"),
    (4, Fraction(5), "20 m"),
)
_FOOT = UNITS["ft"].factor
_FEET = (
    (2, _FOOT / 2, "1 ft"),
    (4, _FOOT / 2, "2 ft"),
    (3, _FOOT, "3 ft"),
    (4, _FOOT, "4 ft"),
    (4, 2 * _FOOT, "8 ft"),
    (5, 2 * _FOOT, "10 ft"),
    (4, 5 * _FOOT, "20 ft"),
    (4, 10 * _FOOT, "40 ft"),
    (4, 25 * _FOOT, "100 ft"),
)


def bar(scale: int, feet: bool) -> Bar:
    """A bar of a round length that takes 33 to 67 mm on paper. It shows whether a print came out to scale."""
    for parts, part, said in _FEET if feet else _METRES:
        if 33 <= on_paper(part * parts, scale) <= 67:
            return Bar(parts, on_paper(part, scale), said)
    raise ValueError(f"no bar for scale {words(scale)}")
