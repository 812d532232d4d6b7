"""Records and order of work."""

from __future__ import annotations

from tilespec.checks.records import (
    base_not_accepted,
    grouted_too_early,
    hold_failed,
    membrane_not_accepted,
    pipes_not_tested,
    record_before_base,
    record_before_begin,
    released_by_the_tiler,
    safety_test_failed,
    sealed_too_early,
    signed_by_the_doer,
    tiled_before_delivery,
    used_too_early,
    water_test_failed,
)
from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = (
    hold_failed.RULE,
    water_test_failed.RULE,
    safety_test_failed.RULE,
    base_not_accepted.RULE,
    membrane_not_accepted.RULE,
    pipes_not_tested.RULE,
    signed_by_the_doer.RULE,
    released_by_the_tiler.RULE,
    grouted_too_early.RULE,
    sealed_too_early.RULE,
    used_too_early.RULE,
    record_before_begin.RULE,
    record_before_base.RULE,
    tiled_before_delivery.RULE,
)
