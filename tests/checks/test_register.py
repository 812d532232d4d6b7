"""The register of rules: subjects, limits by family, how they were verified, and the page that is made from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tilespec.checks import RULES
from tilespec.checks.page import COMMAND, page
from tilespec.checks.register import SEEN, catalogue, count, limits_of, subjects, verification, well_sourced
from tilespec.checks.rule import Rule
from tilespec.diagnostics.catalogue import entries
from tilespec.practice.lookup import PARENTS, practice

RULES_PAGE = Path(__file__).resolve().parent.parent.parent / "grammar" / "RULES.md"

# To be raised as rules are added: all rules, and those that rest on a limit seen with the body or in the press.
LEAST_RULES, LEAST_WELL_SOURCED = 175, 77


def rule(name: str) -> Rule:
    return next(r for r in RULES if r.name == name)


def test_there_are_enough_rules_and_enough_of_them_rest_on_a_source_that_was_seen() -> None:
    assert len(RULES) >= LEAST_RULES
    assert well_sourced() >= LEAST_WELL_SOURCED


def test_every_rule_and_every_diagnostic_has_one_subject() -> None:
    assert sorted(r.code for s in subjects() for r in s.rules) == [r.code for r in RULES]
    assert sorted(e.code for s in catalogue() for e in s.entries) == [e.code for e in entries()]
    keys = [s.key for s in catalogue()]
    assert len(set(keys)) == len(keys) and not set(keys) & {e.name for e in entries()}
    assert all(s.title and not s.title.endswith(".") for s in catalogue())


@pytest.mark.parametrize("one", RULES, ids=lambda r: r.name)
def test_limits_by_family_are_those_of_the_practice(one: Rule) -> None:
    for limit in limits_of(one):
        families = [f for h in limit.held for f in (h.value.family, *h.borrowers) if f in PARENTS]
        if limit.held[0].value.family != "common":
            assert sorted((*families, *limit.without)) == sorted(PARENTS)
        for held in limit.held:
            assert held.text and held.value.source and held.value.seen in SEEN
            for family in held.borrowers:
                assert practice(family).entry(limit.key) == held.value


def test_a_borrowed_limit_is_told_once_with_its_borrowers() -> None:
    (limit,) = [x for x in limits_of(rule("joint-too-narrow")) if x.key == "joint-min-stone"]
    assert [(h.value.family, h.borrowers, h.text) for h in limit.held] == [
        ("EN", ("DE", "US", "AU"), "2 mm"),
        ("UK", (), "2 mm"),
    ]


def test_a_rule_counts_by_its_best_verification() -> None:
    assert verification(rule("joint-too-narrow")) == "body"         # NHBC Standards 9.1.7
    assert verification(rule("tiling-too-heavy-for-base")) == "restated"
    assert verification(rule("base-of-another-surface")) == ""      # plain sense, without a source
    assert sum(count().values()) == len(RULES)
    assert well_sourced([rule("joint-too-narrow"), rule("tiling-too-heavy-for-base")]) == 1


def test_the_page_of_all_rules_is_up_to_date() -> None:
    assert RULES_PAGE.read_text(encoding="utf-8") == page(), f"grammar/RULES.md is stale; make it again: {COMMAND}"


def test_the_page_shows_every_rule_with_its_samples() -> None:
    text = page()
    for r in RULES:
        assert f"### {r.code} {r.name}\n" in text and r.bad.strip("\n") in text and r.good.strip("\n") in text
