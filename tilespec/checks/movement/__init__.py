"""Movement joints and sealants."""

from __future__ import annotations

from tilespec.checks.rule import Rule

RULES: tuple[Rule, ...] = ()
