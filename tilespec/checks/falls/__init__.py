"""Falls, drains and levels."""

from __future__ import annotations

from tilespec.checks.falls import (
    fall_beside_level_floor,
    fall_not_set_out,
    fall_outside_limits,
    plane_of_fall_too_flat,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    fall_outside_limits.RULE,
    plane_of_fall_too_flat.RULE,
    fall_not_set_out.RULE,
    fall_beside_level_floor.RULE,
)
