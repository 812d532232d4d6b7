"""People."""

from __future__ import annotations

from tilespec.checks.rule import Rule
from tilespec.checks.safety import (
    acid_with_bleach,
    asbestos_not_cleared,
    cement_past_its_date,
    diisocyanate_without_training,
    dry_cutting,
    engineered_stone_banned,
    lead_not_cleared,
    load_beyond_the_crew,
    powder_past_its_date,
    silica_over_limit,
    solvent_alone,
)

RULES: tuple[Rule, ...] = (
    dry_cutting.RULE,
    silica_over_limit.RULE,
    engineered_stone_banned.RULE,
    load_beyond_the_crew.RULE,
    cement_past_its_date.RULE,
    powder_past_its_date.RULE,
    diisocyanate_without_training.RULE,
    asbestos_not_cleared.RULE,
    lead_not_cleared.RULE,
    acid_with_bleach.RULE,
    solvent_alone.RULE,
)
