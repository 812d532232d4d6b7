"""Heating and electricity."""

from __future__ import annotations

from tilespec.checks.heating import heating_output_over_floor_limit, heating_too_strong_on_timber
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (heating_too_strong_on_timber.RULE, heating_output_over_floor_limit.RULE)
