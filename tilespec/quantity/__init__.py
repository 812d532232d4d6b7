"""Numbers with units, exact, each with the reason why it has its value.

This package is below every stage: it knows no tiles, no files and no wording.
"""

from tilespec.quantity.trace import Counted, Default, Given, Limit, Quantity, Why, Worked
from tilespec.quantity.unit import UNITS, Kind, Unit, unit
from tilespec.quantity.work import counted, given, work

__all__ = [
    "UNITS", "Kind", "Unit", "unit", "Quantity", "Why", "Given", "Limit", "Default", "Worked", "Counted",
    "work", "counted", "given",
]
