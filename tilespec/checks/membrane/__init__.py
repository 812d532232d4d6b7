"""Membranes."""

from __future__ import annotations

from tilespec.checks.membrane import (
    membrane_too_low,
    membrane_too_thin,
    splash_area_without_membrane,
    wet_zone_without_membrane,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    wet_zone_without_membrane.RULE,
    splash_area_without_membrane.RULE,
    membrane_too_low.RULE,
    membrane_too_thin.RULE,
)
