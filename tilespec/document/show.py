"""A quantity as text, the way the practice family writes it.

Metric families get metric units only; the US family gets customary units with the metric value in brackets.
What was given, and every limit, is written exactly as it is; what was worked out is rounded for print (half up).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from math import floor

from tilespec.quantity import UNITS, Kind, Quantity, Unit, Worked

NARROW = "\u202f"  # narrow no-break space: between a number and its unit

_SYMBOLS = {
    "m2": "m²",
    "cm2": "cm²",
    "mm2": "mm²",
    "ft2": "ft²",
    "in2": "in²",
    "m3": "m³",
    "kg/m2": "kg/m²",
    "g/m2": "g/m²",
    "lb/ft2": "lb/ft²",
    "kg/m3": "kg/m³",
    "kg/m2/mm": "kg/m² per mm",
    "lb/ft3": "lb/ft³",
    "C": "°C",
    "F": "°F",
    "W/m2": "W/m²",
    "W/ft2": "W/ft²",
    "ohm": "Ω",
    "Mohm": "MΩ",
    "N/mm2": "N/mm²",
    "ug/m3": "µg/m³",
    "mg/m3": "mg/m³",
    "m/s2": "m/s²",
    "m2/h": "m²/h",
    "1/h": "per h",
    "1/min": "per min",
    "CM%": "CM-%",
    "%RH": "% RH",
    "1/K": "per K",
    "wk": "weeks",
}

# Customary unit shown by metric families in the metric unit named here.
_METRIC = {
    "in": "mm",
    "ft": "m",
    "yd": "m",
    "ft2": "m2",
    "in2": "cm2",
    "gal": "L",
    "qt": "L",
    "fl oz": "mL",
    "lb": "kg",
    "lb/ft2": "kg/m2",
    "lb/ft3": "kg/m3",
    "qt/lb": "L/kg",
    "F": "C",
    "W/ft2": "W/m2",
}

# Metric unit shown by the US family in the customary unit named here, metric in brackets.
_CUSTOMARY = {
    "mm": "in",
    "cm": "in",
    "m": "ft",
    "m2": "ft2",
    "cm2": "in2",
    "kg": "lb",
    "g": "lb",
    "L": "qt",
    "mL": "fl oz",
    "kg/m2": "lb/ft2",
    "g/m2": "lb/ft2",
    "kg/m3": "lb/ft3",
    "L/kg": "qt/lb",
    "C": "F",
    "W/m2": "W/ft2",
}

_SIXTEENTH = Fraction(1, 16)
# The longest plank is said in inches; what is longer is said in feet and inches (m).
_LONG = Fraction(48) * UNITS["in"].factor


_FUNCTIONS = {
    "ceil": "rounded up",
    "floor": "rounded down",
    "round": "rounded",
    "min": "smaller of",
    "max": "larger of",
    "abs": "size of",
    "sqrt": "square root of",
    "exp": "e to the",
    "ln": "natural log of",
    "sin": "sine of",
    "power": "power of",
}
_FUNCTION = re.compile(r"\b(" + "|".join(_FUNCTIONS) + r")\(")


def formula_words(text: str) -> str:
    """A formula with its functions in words: "rounded up (gross ÷ pack)"."""
    return _FUNCTION.sub(lambda m: f"{_FUNCTIONS[m[1]]} (", text)


def rounded(value: Fraction, places: int) -> Fraction:
    """Rounded half away from zero to a number of decimals."""
    scaled = abs(value) * 10**places
    whole = floor(scaled + Fraction(1, 2))
    return Fraction(whole if value >= 0 else -whole, 10**places)


def decimal(value: Fraction, places: int, least: int = 0) -> str:
    """Decimal text with at most `places` decimals; trailing zeros are dropped down to `least`."""
    r = rounded(value, places)
    sign = "−" if r < 0 else ""
    digits = str(abs(r.numerator) * 10**places // r.denominator).rjust(places + 1, "0")
    if not places:
        return sign + digits
    whole, part = digits[:-places], digits[-places:].rstrip("0")
    part = part.ljust(least, "0")
    return f"{sign}{whole}.{part}" if part else sign + whole


def _exact_places(value: Fraction, most: int) -> int | None:
    """How many decimals write the value exactly, or None when `most` are not enough."""
    for places in range(most + 1):
        if (value * 10**places).denominator == 1:
            return places
    return None


def _significant(value: Fraction, digits: int = 3, most: int = 3) -> int:
    """Decimals that give so many significant digits."""
    size, places = abs(value), 0
    if size == 0:
        return 0
    while size * 10**places < 10 ** (digits - 1) and places < most:
        places += 1
    return places


def _number(q: Quantity, u: Unit) -> str:
    value = q.in_unit(u)
    exact = _exact_places(value, 4)
    if u.symbol == "count":
        return decimal(value, 0 if exact == 0 else 1)
    if u.symbol == "year":
        return decimal(value, 0)
    if u.symbol == "m":
        # A length worked out is a length to buy or to find: centimetres do.
        places = 2 if isinstance(q.why, Worked) else _exact_places(value, 3) or 3
        return decimal(value, max(places, 2), 2)
    if u.symbol in ("m2", "ft2"):
        return decimal(value, 2, 2) if u.symbol == "m2" else decimal(value, 1)
    if u.symbol == "mm":
        if _exact_places(value, 1 if abs(value) >= 20 else 2) is not None:
            return decimal(value, 2)
        return decimal(value, 0 if abs(value) >= 20 else 1 if abs(value) >= 1 else 2)
    if not isinstance(q.why, Worked) and exact is not None:
        return decimal(value, exact)
    if u.symbol in ("h", "d", "%", "%RH", "C", "F", "K"):
        return decimal(value, 1)
    if u.symbol in ("min", "s", "W", "W/m2"):
        return decimal(value, 0)
    return decimal(value, _significant(value))


def _inches(value: Fraction, feet: bool) -> str:
    """Feet and inches to the nearest sixteenth; what is thinner than that in decimals."""
    sign, size = ("−" if value < 0 else ""), abs(value)
    if 0 < size < _SIXTEENTH:
        return f"{sign}{decimal(size, 3)}{NARROW}in"
    total = floor(size / _SIXTEENTH + Fraction(1, 2)) * _SIXTEENTH
    whole_feet = int(total // 12) if feet else 0
    inches = total - 12 * whole_feet
    whole, part = int(inches), inches - int(inches)
    written = [str(whole)] if whole or not part else []
    if part:
        written.append(f"{part.numerator}/{part.denominator}")
    text = NARROW.join(written) + f"{NARROW}in"
    if whole_feet and not inches:
        return f"{sign}{whole_feet}{NARROW}ft"
    return f"{sign}{whole_feet}{NARROW}ft{NARROW}{text}" if whole_feet else sign + text


def _slope(q: Quantity) -> str:
    if q.value and (1 / q.value).denominator == 1:
        return f"1:{1 / q.value}"
    return f"{decimal(q.value * 100, 1)}{NARROW}%"


def _plain(q: Quantity, u: Unit) -> str:
    """One unit only."""
    if u.kind is Kind.SLOPE:
        return _slope(q)
    if u.symbol in ("in", "ft", "yd"):
        return _inches(q.in_unit(UNITS["in"]), feet=u.symbol != "in")
    symbol = _SYMBOLS.get(u.symbol, u.symbol)
    number = _number(q, u)
    if u.symbol in ("", "count", "year"):
        return number
    if u.symbol == "deg":
        return number + "°"
    if u.symbol == "wk":
        return f"{number}{NARROW}{'week' if number == '1' else 'weeks'}"
    return f"{number}{NARROW}{symbol}"


def _metric_of(u: Unit) -> Unit:
    return UNITS[_METRIC[u.symbol]] if u.symbol in _METRIC else u


def show_parts(q: Quantity, family: str) -> tuple[str, str]:
    """The quantity in the family's units, and for the US in metric beside it ("" where there is nothing to add)."""
    metric = _metric_of(q.shown)
    if q.shown.symbol == "in" and q.value > _LONG:
        return show_parts(q.shown_in(UNITS["ft"]), family)
    if family != "US":
        return _plain(q, metric), ""
    customary = q.shown if q.shown.symbol in _METRIC else UNITS.get(_CUSTOMARY.get(q.shown.symbol, "none"))
    if customary is None:
        return _plain(q, q.shown), ""
    return _plain(q, customary), _plain(q, metric)


def show(q: Quantity, family: str) -> str:
    """The quantity as printed for a family: "12.5 kg", "2.40 m", "1:60"; US "7 ft 10 1/2 in (2.40 m)"."""
    own, metric = show_parts(q, family)
    return f"{own} ({metric})" if metric else own


_SHOWN = re.compile(rf"(−?[0-9]+(?:\.[0-9]+)?)({NARROW}[^0-9]+|)")


def show_change(old: Quantity, new: Quantity, difference: Quantity, family: str) -> str:
    """New less old with its sign, as the two are printed: nobody who subtracts one from the other gets anything else.

    difference  their exact difference, in the unit in which it is said
    """
    parts = []
    told = zip(show_parts(old, family), show_parts(new, family), show_parts(difference, family))
    for before, after, exact in told:
        a, b, said = (_SHOWN.fullmatch(text) for text in (before, after, exact))
        if a and b and said and a[2] == b[2] == said[2]:
            places = max(len(text[1].partition(".")[2]) for text in (a, b))
            text = decimal(_read(b[1]) - _read(a[1]), places, places) + b[2]
        else:
            text = exact
        parts.append(text if text.startswith("−") or not text else f"+{text}")
    own, metric = parts
    return f"{own} ({metric})" if metric else own


def _read(number: str) -> Fraction:
    return Fraction(number.replace("−", "-"))


def show_product(quantities: Sequence[Quantity], family: str) -> str:
    """Sizes by one another: "300 × 300 × 9 mm", US "12 in × 24 in × 3/8 in (304.8 × 609.6 × 9.5 mm)"."""
    parts = [show_parts(q, family) for q in quantities]
    own = [p[0] for p in parts]
    text = " × ".join(own) if family == "US" else _one_unit(own)
    return f"{text} ({_one_unit([p[1] for p in parts])})" if parts[0][1] else text


def _one_unit(texts: list[str]) -> str:
    """The unit once, behind the last, where all have the same."""
    if len({t.rpartition(NARROW)[2] for t in texts}) == 1:
        texts = [*(t.rpartition(NARROW)[0] for t in texts[:-1]), texts[-1]]
    return " × ".join(texts)
