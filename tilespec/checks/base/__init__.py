"""The base."""

from __future__ import annotations

from tilespec.checks.base import (
    direct_stone_on_gypsum_plaster,
    drying_time_short,
    moisture_over_limit,
    moisture_reading_unjudged,
    plaster_too_young,
    screed_too_young,
    tiling_too_heavy_for_base,
    unprimed_gypsum,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    unprimed_gypsum.RULE,
    tiling_too_heavy_for_base.RULE,
    direct_stone_on_gypsum_plaster.RULE,
    moisture_over_limit.RULE,
    moisture_reading_unjudged.RULE,
    screed_too_young.RULE,
    plaster_too_young.RULE,
    drying_time_short.RULE,
)
