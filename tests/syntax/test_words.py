"""The lists of words, the schema of the job stage and the grammar say the same: each way round."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from lark.grammar import Terminal

from tilespec.job import schema
from tilespec.resources import data_text
from tilespec.syntax.table import build
from tilespec.syntax.words import ATTRIBUTES, BOTH, PRODUCTS, STATEMENTS, WITH_ZONE, starts_attribute, starts_statement

PARSER = build(data_text("grammar/tilespec.lark"))
SPELLED = {t.name: t.pattern.value for t in PARSER.terminals}
# Terminals that are no word of the language: numbers, names, dates.
OPEN = {"QTY", "NAME", "STRING", "DATE", "CLOCKS", "REFERENCE", "MOVEMENT", "_X", "_COMMA"}


def openings(*rules: str) -> Iterator[tuple[str, str]]:
    """The kind and the first terminal of every alternative of these rules."""
    for rule in PARSER.rules:
        if rule.origin.name in rules and rule.expansion and isinstance(rule.expansion[0], Terminal):
            yield rule.alias or rule.origin.name, rule.expansion[0].name


def words(*rules: str) -> set[str]:
    found: set[str] = set()
    for _, terminal in openings(*rules):
        if terminal == "PRODUCT":
            found.update(PRODUCTS)
        elif terminal not in OPEN:
            found.add(SPELLED[terminal])
    return found


def kinds(*rules: str) -> set[str]:
    """Names of the nodes that the rules make."""
    return {str(r.alias or r.origin.name) for r in PARSER.rules if r.origin.name in rules}


def test_statement_words() -> None:
    assert words("statement") == {*STATEMENTS, *BOTH}


def test_attribute_words() -> None:
    assert words("attribute", "list") == {*ATTRIBUTES, *BOTH, *WITH_ZONE}


def test_no_word_stands_in_two_lists() -> None:
    listed = (*STATEMENTS, *BOTH, *ATTRIBUTES)
    assert len(set(listed)) == len(listed)


def test_the_terminal_of_products_spells_the_products() -> None:
    assert SPELLED["PRODUCT"] == f"(?:{'|'.join(PRODUCTS)})(?![\\w-])"


@pytest.mark.parametrize("first", [*STATEMENTS, *BOTH])
def test_what_starts_a_statement(first: str) -> None:
    assert starts_statement(first, "") and not starts_statement(first.upper(), "")
    assert starts_attribute(first, "") == (first in BOTH)


@pytest.mark.parametrize("first", WITH_ZONE)
def test_a_zone_is_no_statement(first: str) -> None:
    assert not starts_statement(first, "zone") and starts_attribute(first, "zone")
    assert starts_statement(first, "in") and not starts_attribute(first, "in")


def test_the_schema_knows_every_statement() -> None:
    assert set(schema.STATEMENTS) == kinds("statement")


def test_every_attribute_belongs_to_something() -> None:
    """A kind of attribute that the schema takes nowhere could never be said; one that the grammar lacks could never be read."""
    taken = {kind for own, items in schema.STATEMENTS.values() for kind in (*own, *items)}
    taken |= {kind for said in schema.ITEMS.values() for kind in said}
    # Words and sizes are rules of their own.
    read = kinds("attribute", "list") | {"words"}
    assert taken - read == set()
    assert read - taken == set()


def test_every_item_is_an_attribute_that_some_statement_holds() -> None:
    held = {kind for _, items in schema.STATEMENTS.values() for kind in items}
    assert set(schema.ITEMS) == held
    assert set(schema.HOME) <= kinds("attribute", "list") | {"words"}
