"""Records and order of work."""

from __future__ import annotations

from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
