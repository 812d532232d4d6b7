"""Tiles, set-out, joints and grout."""

from __future__ import annotations

from tilespec.checks.rule import Rule
from tilespec.checks.tiling import (
    joint_too_narrow,
    low_window_cut,
    sliver_cut,
)

RULES: tuple[Rule, ...] = (
    joint_too_narrow.RULE,
    low_window_cut.RULE,
    sliver_cut.RULE,
)
