"""Grip of floors."""

from __future__ import annotations

from tilespec.checks.rule import Rule
from tilespec.checks.slip import (
    slip_class_missing,
    slip_class_too_low,
)

RULES: tuple[Rule, ...] = (
    slip_class_too_low.RULE,
    slip_class_missing.RULE,
)
