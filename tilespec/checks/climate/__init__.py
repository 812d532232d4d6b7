"""Air, surface and drying."""

from __future__ import annotations

from tilespec.checks.climate import (
    outside_the_good_range,
    surface_near_dew_point,
    temperature_outside_product_range,
    too_cold_or_too_warm_to_work,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    temperature_outside_product_range.RULE,
    too_cold_or_too_warm_to_work.RULE,
    outside_the_good_range.RULE,
    surface_near_dew_point.RULE,
)
