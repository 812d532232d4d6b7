"""Reading a number with its unit from text: `2400 mm`, `7 ft 10 1/2 in`, `1/16 in`, `1:60`, `-5 C`, `60 %`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tilespec.quantity.unit import SPELLINGS, UNITS, Unit

_SYMBOLS = sorted([s for s in [*UNITS, *SPELLINGS] if s and s not in ("count", "slope", "year")], key=len, reverse=True)
# Longest first, and not before a letter or digit; `in` before `corner` is a word of place, not inches.
UNIT_PATTERN = "(?:" + "|".join(re.escape(s) for s in _SYMBOLS) + r")(?![A-Za-z0-9²/%])(?![ \t]+corner)"
NUMBER_PATTERN = r"[+-]?(?:\d{1,9}(?:\.\d{1,9})?(?:[ \u00a0]+\d{1,4}[ ]?/[ ]?\d{1,4}|[½¼¾⅛⅜⅝⅞])?|[½¼¾⅛⅜⅝⅞])"
_FRACTION_ONLY = r"[+-]?\d{1,4}[ ]?/[ ]?\d{1,4}"
_SINGLE = rf"(?:{_FRACTION_ONLY}|{NUMBER_PATTERN})"
_IN_UNIT = r"(?:in(?![A-Za-z0-9²/])(?![ \t]+corner)|″|\")"
_FT_UNIT = r"(?:ft(?![A-Za-z²/])|′|')"

_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}

_ONE = re.compile(rf"\s*({_SINGLE})[ \u00a0-]*({UNIT_PATTERN})?\s*")
_FEET = re.compile(rf"\s*([+-]?\d{{1,6}})[ \u00a0]{{0,3}}{_FT_UNIT}[ \u00a0-]{{0,3}}({_SINGLE})[ \u00a0-]{{0,3}}{_IN_UNIT}\s*")
_SLOPE = re.compile(r"\s*1\s*:\s*(\d{1,4}(?:\.\d{1,4})?)\s*")


@dataclass(frozen=True, slots=True)
class Reading:
    """A number as written, and the unit written with it (None: the slot's own unit)."""

    number: Fraction
    unit: Unit | None

    def base(self, slot: Unit) -> Fraction:
        """Value in base units, read in the slot's unit where none was written."""
        u = self.unit or slot
        return self.number * u.factor + u.offset


def read_number(text: str) -> Fraction:
    """An exact number from `2`, `2.4`, `10 1/2`, `3/8` or `10½`. ValueError otherwise."""
    text = text.replace("\u00a0", " ").strip()
    for glyph, plain in _VULGAR.items():
        text = text.replace(glyph, " " + plain)
    sign = -1 if text.startswith("-") else 1
    parts = re.sub(r"\s*/\s*", "/", text.lstrip("+-")).split()
    if not parts or len(parts) > 2 or any(not re.fullmatch(r"[0-9]{1,9}(\.[0-9]{1,9})?|[0-9]{1,4}/[0-9]{1,4}", p) for p in parts):
        raise ValueError(f"not a number: {text!r}")
    if any(p.endswith("/" + "0" * len(p.split("/")[1])) for p in parts if "/" in p):
        raise ValueError(f"division by nothing: {text!r}")
    return sign * sum((Fraction(p) for p in parts), Fraction(0))


@lru_cache(maxsize=2048)
def read(text: str) -> Reading:
    """A number and its unit. ValueError when the text is not exactly one quantity."""
    if m := _FEET.fullmatch(text):
        feet, inches = Fraction(m[1]), read_number(m[2])
        total = feet * 12 + (-inches if m[1].startswith("-") else inches)
        return Reading(total, UNITS["in"])
    if m := _SLOPE.fullmatch(text):
        if Fraction(m[1]) == 0:
            raise ValueError("a fall of one to nothing")
        return Reading(1 / Fraction(m[1]), UNITS["slope"])
    m = _ONE.fullmatch(text)
    if not m:
        raise ValueError(f"not a quantity: {text!r}")
    symbol = m[2]
    return Reading(read_number(m[1]), UNITS[SPELLINGS.get(symbol, symbol)] if symbol else None)
