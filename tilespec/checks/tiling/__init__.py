"""Tiles, set-out, joints and grout."""

from __future__ import annotations

from tilespec.checks.rule import Rule
from tilespec.checks.tiling import (
    dark_grout_in_light_stone,
    finished_plane_over_tolerance,
    joint_below_advice_for_face,
    joint_too_narrow,
    joint_wider_than_tile_is_thick,
    lippage_over_limit,
    low_window_cut,
    narrow_joint_for_rectified_tile,
    offset_over_a_third,
    pattern_of_unequal_thickness,
    porcelain_that_is_none,
    resin_grout_in_porous_tile,
    sliver_cut,
    unsealed_porous_tile,
    wall_tile_on_floor,
    weak_grout_in_bathroom,
    weak_grout_in_wet_area,
    weak_grout_on_heated_floor,
    weight_unlike_thickness,
)

RULES: tuple[Rule, ...] = (
    joint_too_narrow.RULE,
    low_window_cut.RULE,
    sliver_cut.RULE,
    offset_over_a_third.RULE,
    joint_wider_than_tile_is_thick.RULE,
    joint_below_advice_for_face.RULE,
    narrow_joint_for_rectified_tile.RULE,
    weak_grout_in_wet_area.RULE,
    weak_grout_on_heated_floor.RULE,
    weak_grout_in_bathroom.RULE,
    porcelain_that_is_none.RULE,
    wall_tile_on_floor.RULE,
    dark_grout_in_light_stone.RULE,
    unsealed_porous_tile.RULE,
    pattern_of_unequal_thickness.RULE,
    weight_unlike_thickness.RULE,
    resin_grout_in_porous_tile.RULE,
    lippage_over_limit.RULE,
    finished_plane_over_tolerance.RULE,
)
