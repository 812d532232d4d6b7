"""Adhesive and its bed."""

from __future__ import annotations

from tilespec.checks.adhesive import (
    adhesive_below_class_in_shower,
    bed_not_solid,
    bed_too_thick,
    bed_too_thin,
    coloured_adhesive_under_light_stone,
    d1_adhesive_in_shower,
    d_adhesive_behind_porcelain,
    d_adhesive_on_membrane,
    d_adhesive_on_wet_floor,
    green_marble_in_cement_adhesive,
    grey_adhesive_under_translucent_tile,
    heated_floor_without_deformable_adhesive,
    notch_too_small,
    open_time_below_class,
    short_wait_without_fast_class,
    slipping_adhesive_on_wall,
    weak_adhesive_for_glass,
    weak_adhesive_for_large_tile,
    weak_adhesive_for_porcelain,
    weak_adhesive_for_very_large_tile,
    weak_adhesive_on_old_tiles,
    weak_adhesive_on_timber,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    heated_floor_without_deformable_adhesive.RULE,
    d_adhesive_on_wet_floor.RULE,
    grey_adhesive_under_translucent_tile.RULE,
    weak_adhesive_for_porcelain.RULE,
    weak_adhesive_for_large_tile.RULE,
    weak_adhesive_for_very_large_tile.RULE,
    coloured_adhesive_under_light_stone.RULE,
    d_adhesive_on_membrane.RULE,
    d_adhesive_behind_porcelain.RULE,
    weak_adhesive_on_old_tiles.RULE,
    weak_adhesive_on_timber.RULE,
    weak_adhesive_for_glass.RULE,
    d1_adhesive_in_shower.RULE,
    adhesive_below_class_in_shower.RULE,
    slipping_adhesive_on_wall.RULE,
    bed_too_thin.RULE,
    bed_too_thick.RULE,
    notch_too_small.RULE,
    bed_not_solid.RULE,
    green_marble_in_cement_adhesive.RULE,
    open_time_below_class.RULE,
    short_wait_without_fast_class.RULE,
)
