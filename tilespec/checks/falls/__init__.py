"""Falls, drains and levels."""

from __future__ import annotations

from tilespec.checks.falls import (
    drain_flange_too_narrow,
    drain_too_small,
    fall_beside_level_floor,
    fall_not_set_out,
    fall_outside_limits,
    fall_steep,
    fall_without_depth,
    plane_of_fall_too_flat,
    step_at_door_too_high,
    valve_out_of_reach,
    wet_floor_runs_to_hall,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    fall_outside_limits.RULE,
    plane_of_fall_too_flat.RULE,
    fall_not_set_out.RULE,
    fall_beside_level_floor.RULE,
    fall_steep.RULE,
    drain_flange_too_narrow.RULE,
    drain_too_small.RULE,
    wet_floor_runs_to_hall.RULE,
    step_at_door_too_high.RULE,
    valve_out_of_reach.RULE,
    fall_without_depth.RULE,
)
