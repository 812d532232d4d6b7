"""Grip of floors."""

from __future__ import annotations

from tilespec.checks.rule import Rule
from tilespec.checks.slip import (
    rating_of_another_method,
    slip_class_missing,
    slip_class_too_low,
)

RULES: tuple[Rule, ...] = (
    slip_class_too_low.RULE,
    slip_class_missing.RULE,
    rating_of_another_method.RULE,
)
