"""Heating and electricity.
"""

from __future__ import annotations

from tilespec.checks.heating import (
    heating_cover_too_thin,
    heating_covered_untested,
    heating_cycle_too_short,
    heating_output_over_floor_limit,
    heating_resistance_changed,
    heating_resistance_out_of_band,
    heating_started_too_early,
    heating_too_strong_on_timber,
    heating_without_screen,
    heating_without_sensor_on_timber,
    insulation_resistance_too_low,
    mat_across_movement_joint,
    mat_larger_than_free_floor,
    moisture_not_read_after_heating_cycle,
    rcd_trips_too_late,
    screed_heated_too_early,
    socket_in_zone,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    heating_too_strong_on_timber.RULE,
    heating_output_over_floor_limit.RULE,
    insulation_resistance_too_low.RULE,
    heating_resistance_out_of_band.RULE,
    heating_resistance_changed.RULE,
    heating_covered_untested.RULE,
    heating_started_too_early.RULE,
    screed_heated_too_early.RULE,
    heating_cycle_too_short.RULE,
    moisture_not_read_after_heating_cycle.RULE,
    rcd_trips_too_late.RULE,
    socket_in_zone.RULE,
    heating_without_screen.RULE,
    heating_without_sensor_on_timber.RULE,
    mat_larger_than_free_floor.RULE,
    mat_across_movement_joint.RULE,
    heating_cover_too_thin.RULE,
)
