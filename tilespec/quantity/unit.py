"""Units by dimension, with exact factors to coherent base units.

Base units: m, m2, m3, kg, s, K, W, V, ohm, A; ratios are plain numbers (60 % is 3/5).
Temperatures on a scale are kept in degrees Celsius and are a kind of their own.
Factors: NIST SP 811 (1 in = 25.4 mm and 1 lb = 0.453 592 37 kg are exact by definition).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction as F


class Kind(Enum):
    """What a number measures; the value is its exponents of (metre, kilogram, second, kelvin, ampere) and a tag.

    The tag keeps apart what has the same dimension but must not be mixed (a humidity is not a slope).
    """

    LENGTH = (1, 0, 0, 0, 0, "")
    AREA = (2, 0, 0, 0, 0, "")
    VOLUME = (3, 0, 0, 0, 0, "")
    MASS = (0, 1, 0, 0, 0, "")
    MASS_PER_AREA = (-2, 1, 0, 0, 0, "")
    MASS_PER_LENGTH = (-1, 1, 0, 0, 0, "")
    DENSITY = (-3, 1, 0, 0, 0, "")
    WATER_RATE = (3, -1, 0, 0, 0, "")
    TIME = (0, 0, 1, 0, 0, "")
    TEMPERATURE = (0, 0, 0, 1, 0, "scale")
    TEMPERATURE_STEP = (0, 0, 0, 1, 0, "")
    EXPANSION = (0, 0, 0, -1, 0, "")
    POWER = (2, 1, -3, 0, 0, "")
    POWER_PER_AREA = (0, 1, -3, 0, 0, "")
    VOLTAGE = (2, 1, -3, 0, -1, "")
    RESISTANCE = (2, 1, -3, 0, -2, "")
    CURRENT = (0, 0, 0, 0, 1, "")
    PRESSURE = (-1, 1, -2, 0, 0, "")
    CONCENTRATION = (-3, 1, 0, 0, 0, "dust")
    ACCELERATION = (1, 0, -2, 0, 0, "")
    AREA_RATE = (2, 0, -1, 0, 0, "")
    LENGTH_RATE = (1, 0, -1, 0, 0, "")
    RATE = (0, 0, -1, 0, 0, "")
    TIME_PER_LENGTH = (-1, 0, 1, 0, 0, "")
    FLOW = (3, 0, -1, 0, 0, "")
    NUMBER = (0, 0, 0, 0, 0, "")
    COUNT = (0, 0, 0, 0, 0, "count")
    PERCENT = (0, 0, 0, 0, 0, "percent")
    SLOPE = (0, 0, 0, 0, 0, "slope")
    HUMIDITY = (0, 0, 0, 0, 0, "humidity")
    MOISTURE = (0, 0, 0, 0, 0, "moisture")
    ANGLE = (0, 0, 0, 0, 0, "angle")
    SOUND = (0, 0, 0, 0, 0, "sound")
    YEAR = (0, 0, 0, 0, 0, "year")

    @property
    def exponents(self) -> tuple[int, ...]:
        return self.value[:5]

    @property
    def words(self) -> str:
        """The kind in a tiler's words, for messages."""
        return _WORDS.get(self, self.name.lower().replace("_", " "))


_WORDS = {
    Kind.MASS: "weight",
    Kind.MASS_PER_AREA: "weight per area",
    Kind.DENSITY: "density (or weight per area and thickness)",
    Kind.WATER_RATE: "water per weight",
    Kind.POWER_PER_AREA: "power per area",
    Kind.NUMBER: "plain number",
    Kind.COUNT: "count",
    Kind.SLOPE: "fall",
    Kind.MOISTURE: "moisture reading",
    Kind.TEMPERATURE_STEP: "temperature difference",
}


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: `value in base = number * factor + offset`."""

    symbol: str
    kind: Kind
    factor: F
    offset: F = F(0)


def _u(symbol: str, kind: Kind, factor: F | int, offset: F | int = 0) -> Unit:
    return Unit(symbol, kind, F(factor), F(offset))


_IN = F(254, 10000)
_FT = 12 * _IN
_LB = F(45359237, 100000000)
_GAL = 231 * _IN**3

_ALL = (
    _u("mm", Kind.LENGTH, F(1, 1000)), _u("cm", Kind.LENGTH, F(1, 100)), _u("m", Kind.LENGTH, 1), _u("km", Kind.LENGTH, 1000),
    _u("in", Kind.LENGTH, _IN), _u("ft", Kind.LENGTH, _FT), _u("yd", Kind.LENGTH, 3 * _FT),
    _u("mm2", Kind.AREA, F(1, 10**6)), _u("cm2", Kind.AREA, F(1, 10**4)), _u("m2", Kind.AREA, 1),
    _u("ft2", Kind.AREA, _FT**2), _u("in2", Kind.AREA, _IN**2),
    _u("mL", Kind.VOLUME, F(1, 10**6)), _u("L", Kind.VOLUME, F(1, 1000)), _u("m3", Kind.VOLUME, 1),
    _u("gal", Kind.VOLUME, _GAL), _u("qt", Kind.VOLUME, _GAL / 4), _u("fl oz", Kind.VOLUME, _GAL / 128),
    _u("g", Kind.MASS, F(1, 1000)), _u("kg", Kind.MASS, 1), _u("lb", Kind.MASS, _LB),
    _u("kg/m2", Kind.MASS_PER_AREA, 1), _u("g/m2", Kind.MASS_PER_AREA, F(1, 1000)),
    _u("lb/ft2", Kind.MASS_PER_AREA, _LB / _FT**2),
    _u("kg/m", Kind.MASS_PER_LENGTH, 1),
    _u("kg/L", Kind.DENSITY, 1000), _u("kg/m3", Kind.DENSITY, 1),
    _u("kg/m2/mm", Kind.DENSITY, 1000), _u("lb/ft3", Kind.DENSITY, _LB / _FT**3),
    _u("L/kg", Kind.WATER_RATE, F(1, 1000)), _u("qt/lb", Kind.WATER_RATE, _GAL / 4 / _LB),
    _u("s", Kind.TIME, 1), _u("min", Kind.TIME, 60), _u("h", Kind.TIME, 3600),
    _u("d", Kind.TIME, 86400), _u("wk", Kind.TIME, 604800),
    _u("C", Kind.TEMPERATURE, 1), _u("F", Kind.TEMPERATURE, F(5, 9), F(-160, 9)),
    _u("K", Kind.TEMPERATURE_STEP, 1), _u("1/K", Kind.EXPANSION, 1),
    _u("W", Kind.POWER, 1), _u("kW", Kind.POWER, 1000),
    _u("W/m2", Kind.POWER_PER_AREA, 1), _u("W/ft2", Kind.POWER_PER_AREA, 1 / _FT**2),
    _u("V", Kind.VOLTAGE, 1), _u("ohm", Kind.RESISTANCE, 1), _u("Mohm", Kind.RESISTANCE, 10**6),
    _u("A", Kind.CURRENT, 1), _u("mA", Kind.CURRENT, F(1, 1000)),
    _u("N/mm2", Kind.PRESSURE, 10**6), _u("bar", Kind.PRESSURE, 10**5),
    _u("ug/m3", Kind.CONCENTRATION, F(1, 10**9)), _u("mg/m3", Kind.CONCENTRATION, F(1, 10**6)),
    _u("m/s2", Kind.ACCELERATION, 1),
    _u("m2/h", Kind.AREA_RATE, F(1, 3600)), _u("m/h", Kind.LENGTH_RATE, F(1, 3600)), _u("1/h", Kind.RATE, F(1, 3600)),
    _u("1/min", Kind.RATE, F(1, 60)), _u("d/mm", Kind.TIME_PER_LENGTH, 86400 * 1000),
    _u("L/s", Kind.FLOW, F(1, 1000)), _u("L/min", Kind.FLOW, F(1, 60000)), _u("gal/min", Kind.FLOW, _GAL / 60),
    _u("", Kind.NUMBER, 1), _u("count", Kind.COUNT, 1), _u("%", Kind.PERCENT, F(1, 100)), _u("CM%", Kind.MOISTURE, F(1, 100)),
    _u("%RH", Kind.HUMIDITY, F(1, 100)), _u("slope", Kind.SLOPE, 1), _u("deg", Kind.ANGLE, 1), _u("dB", Kind.SOUND, 1),
    _u("year", Kind.YEAR, 1),
)

UNITS: dict[str, Unit] = {u.symbol: u for u in _ALL}

# Other spellings that people type for the same unit.
SPELLINGS = {
    "millimetres": "mm", "millimeters": "mm", "millimeter": "mm", "metres": "m", "meters": "m", "meter": "m",
    "inches": "in", "inch": "in", "feet": "ft", "foot": "ft", "minutes": "min", "minute": "min",
    "litres": "L", "liters": "L", "litre": "L", "liter": "L", "pounds": "lb",
    "millimetre": "mm", "metre": "m", "ft²": "ft2", "sqft": "ft2", "sq ft": "ft2",
    "m²": "m2", "㎡": "m2", "mm²": "mm2", "cm²": "cm2", "in²": "in2",
    "″": "in", "′": "ft", '"': "in", "'": "ft", "ml": "mL", "l": "L",
    "hr": "h", "hrs": "h", "mins": "min", "day": "d", "days": "d", "hours": "h",
    "hour": "h", "weeks": "wk", "week": "wk", "°C": "C",
    "l/s": "L/s", "l/min": "L/min", "gpm": "gal/min",
    "°F": "F", "kg/m²": "kg/m2", "g/m²": "g/m2", "lb/ft²": "lb/ft2", "psf": "lb/ft2",
    "W/m²": "W/m2", "W/ft²": "W/ft2", "Ω": "ohm", "MΩ": "Mohm",
    "CM-%": "CM%", "% RH": "%RH", "RH%": "%RH", "kg/m²/mm": "kg/m2/mm",
    "kg/l": "kg/L", "l/kg": "L/kg", "lbs": "lb", "°": "deg", "N/mm²": "N/mm2",
}


def unit(symbol: str) -> Unit:
    """The unit of a symbol or of one of its known spellings. KeyError when there is none."""
    return UNITS[SPELLINGS.get(symbol, symbol)]


# Units named in messages, where the full list would only confuse.
_USUAL = {
    Kind.LENGTH: "mm, cm, m, in or ft",
    Kind.TIME: "min, h or d",
    Kind.TEMPERATURE: "C or F",
    Kind.HUMIDITY: "%",
    Kind.SLOPE: "as `1:60`, `1.5 %` or `15 mm per m`",
    Kind.MASS_PER_AREA: "kg/m2 or lb/ft2",
    Kind.MASS: "kg, g or lb",
    Kind.MOISTURE: "CM%",
}


def units_of(kind: Kind) -> str:
    """The units that a number of this kind may be written in, for messages; "" for a plain number."""
    if kind in _USUAL:
        return _USUAL[kind]
    return ", ".join(u.symbol for u in UNITS.values() if u.kind is kind and u.symbol not in ("count", "year", ""))
