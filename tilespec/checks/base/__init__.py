"""The base."""

from __future__ import annotations

from tilespec.checks.base import (
    base_of_another_surface,
    base_weaker_than_adhesive,
    calcium_sulfate_in_wet_area,
    direct_stone_on_gypsum_plaster,
    drying_time_short,
    flatness_over_tolerance,
    floor_too_springy,
    gypsum_plaster_in_shower,
    heated_screed_too_thin,
    moisture_over_limit,
    moisture_reading_unjudged,
    plaster_too_young,
    plasterboard_dabs_too_young,
    plywood_wall,
    screed_too_young,
    thick_tile_without_fixing,
    tiling_too_heavy_for_base,
    timber_in_wet_area,
    timber_without_layer,
    unprimed_gypsum,
    unprimed_old_tiles,
    wall_load_not_known,
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
    plasterboard_dabs_too_young.RULE,
    calcium_sulfate_in_wet_area.RULE,
    timber_in_wet_area.RULE,
    timber_without_layer.RULE,
    plywood_wall.RULE,
    gypsum_plaster_in_shower.RULE,
    wall_load_not_known.RULE,
    heated_screed_too_thin.RULE,
    thick_tile_without_fixing.RULE,
    base_of_another_surface.RULE,
    unprimed_old_tiles.RULE,
    flatness_over_tolerance.RULE,
    base_weaker_than_adhesive.RULE,
    floor_too_springy.RULE,
)
