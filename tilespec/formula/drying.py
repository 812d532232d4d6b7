"""How long a screed takes to dry, for planning: so many days a millimetre, longer in the deeper part.

Rule of BS 8203 (cement) and of NHBC Standards 9.3.5 (calcium sulfate); it holds in good drying air. For cold or damp air no
figure was found: it takes longer, and the moisture test decides in any air.
"""

from __future__ import annotations

from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work


def drying_time(kind: str, thickness: Quantity, practice: Practice) -> Quantity | None:
    """Time for a base of this kind; None where the practice has no rule for it."""
    rate, knee, deep = (practice.find(f"drying-{kind}{part}") for part in ("", "-break", "-deep"))
    if rate is None or knee is None or deep is None:
        return None
    source = "planning rule; the moisture test decides"
    if thickness.value <= knee.value:
        return work("thickness * rate", "d", source=source, thickness=thickness, rate=rate)
    return work(
        "upper * rate + (thickness - upper) * deep", "d", source=source, thickness=thickness, upper=knee, rate=rate, deep=deep,
    )


def good_air(air: Quantity, humidity: Quantity, practice: Practice) -> bool:
    """Whether this air dries as the rule presumes."""
    return (
        air.value >= practice.limit("drying-good-temperature").value
        and humidity.value <= practice.limit("drying-good-humidity").value
    )
