"""Floor heating: how much heat a floor gives to its room, after the basic curve of EN 1264-2.

The curve is about the surface at steady state, not about a mat's rating: a mat may be rated for more and be switched off in time.
"""

from __future__ import annotations

from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work

CURVE = "EN 1264-2, basic curve of a heated floor"


def output(floor: Quantity, room: Quantity, practice: Practice) -> Quantity:
    """What a square metre of floor at this temperature gives to the room; nought when it is no warmer."""
    return work(
        "rate * power(max(floor - room, 0 * kelvin) / kelvin, exponent)", "W/m2", source=CURVE, floor=floor, room=room,
        **_constants(practice),
    )


def rise(given: Quantity, practice: Practice) -> Quantity:
    """How much warmer than its room a floor becomes that gives so much: the curve backwards."""
    return work("kelvin * power(output / rate, 1 / exponent)", "K", source=CURVE, output=given, **_constants(practice))


def surface(given: Quantity, room: Quantity, practice: Practice) -> Quantity:
    """The temperature of that floor, shown in the room's own unit."""
    return work("room + rise", room.shown.symbol, source=CURVE, room=room, rise=rise(given, practice))


def _constants(practice: Practice) -> dict[str, Quantity]:
    return {
        "rate": practice.limit("floor-output-rate"), "kelvin": practice.limit("one-kelvin"),
        "exponent": practice.limit("floor-output-exponent"),
    }
