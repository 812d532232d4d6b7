"""Dew: the temperature at which air of this humidity wets what it touches.

Magnus formula over water, with the set of constants of the practice: within 0.03 K of the ASHRAE formulas for dew points of
0 °C and more in air up to 40 °C. Below that it says nothing of frost.
"""

from __future__ import annotations

from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work

MAGNUS = "Magnus formula over water"


def dew_point(air: Quantity, humidity: Quantity, practice: Practice) -> Quantity:
    """Dew point of air, shown in the air's own unit. `humidity` is more than nought."""
    a, b = practice.limit("dew-point-a"), practice.limit("dew-point-b")
    share = work("ln(humidity) + a * air / (b + air)", "", source=MAGNUS, humidity=humidity, a=a, air=air, b=b)
    return work("b * share / (a - share)", air.shown.symbol, source=MAGNUS, share=share, a=a, b=b)


def least_surface(dew: Quantity, margin: Quantity) -> Quantity:
    """How warm a surface is at least, so that no dew forms while something dries on it."""
    return work(
        "dew_point + margin", dew.shown.symbol, source="coating practice: surface warmer than the dew point by a margin",
        dew_point=dew, margin=margin,
    )
