"""People."""

from __future__ import annotations

from tilespec.checks.rule import Rule
from tilespec.checks.safety import dry_cutting, engineered_stone_banned, load_beyond_the_crew, silica_over_limit

RULES: tuple[Rule, ...] = (
    dry_cutting.RULE,
    silica_over_limit.RULE,
    engineered_stone_banned.RULE,
    load_beyond_the_crew.RULE,
)
