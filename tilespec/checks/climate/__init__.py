"""Air, surface and drying."""

from __future__ import annotations

from tilespec.checks.climate import temperature_outside_product_range
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (temperature_outside_product_range.RULE,)
