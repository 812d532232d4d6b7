"""Adhesive and its bed."""

from __future__ import annotations

from tilespec.checks.adhesive import (
    d_adhesive_on_wet_floor,
    grey_adhesive_under_translucent_tile,
    heated_floor_without_deformable_adhesive,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    heated_floor_without_deformable_adhesive.RULE,
    d_adhesive_on_wet_floor.RULE,
    grey_adhesive_under_translucent_tile.RULE,
)
