"""Membranes and their tests."""

from __future__ import annotations

from tilespec.checks.membrane import (
    bathroom_floor_without_membrane,
    dark_membrane_under_translucent_tile,
    film_reading_too_thin,
    membrane_overcoated_too_late,
    membrane_tiled_too_early,
    membrane_too_low,
    membrane_too_thin,
    membrane_without_standard,
    open_shower_reach_short,
    ponding_level_fell,
    ponding_over_the_door_dam,
    ponding_too_deep,
    ponding_too_early,
    ponding_too_heavy_for_floor,
    ponding_too_shallow,
    ponding_too_short,
    primer_covered_too_late,
    second_coat_not_recorded,
    splash_area_without_membrane,
    standing_water_beyond_scope,
    tape_too_narrow,
    wet_zone_without_membrane,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    wet_zone_without_membrane.RULE,
    splash_area_without_membrane.RULE,
    membrane_too_low.RULE,
    membrane_too_thin.RULE,
    film_reading_too_thin.RULE,
    membrane_without_standard.RULE,
    open_shower_reach_short.RULE,
    bathroom_floor_without_membrane.RULE,
    tape_too_narrow.RULE,
    membrane_overcoated_too_late.RULE,
    membrane_tiled_too_early.RULE,
    primer_covered_too_late.RULE,
    ponding_too_deep.RULE,
    ponding_too_early.RULE,
    ponding_too_short.RULE,
    ponding_too_shallow.RULE,
    ponding_level_fell.RULE,
    ponding_over_the_door_dam.RULE,
    ponding_too_heavy_for_floor.RULE,
    standing_water_beyond_scope.RULE,
    second_coat_not_recorded.RULE,
    dark_membrane_under_translucent_tile.RULE,
)
