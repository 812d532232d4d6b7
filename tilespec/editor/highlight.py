"""What stands where in a spec, as patterns for highlighting: every word from the grammar and the vocabulary, none written here.

The patterns are tried in their order, from left to right; they are plain enough for Python's `re` and for Oniguruma alike.
Highlighting is a guess by looks: what a word means is known by the parser only.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from tilespec import vocabulary
from tilespec.practice.lookup import NAMES as FAMILIES
from tilespec.quantity.unit import SPELLINGS, UNITS
from tilespec.resources import data_text
from tilespec.sequence.stages import WORDS as STAGES
from tilespec.syntax.words import ATTRIBUTES, BOTH, PRODUCTS, STATEMENTS, WITH_ZONE

FRACTIONS = "½¼¾⅛⅜⅝⅞"
# A word ends before anything that is no part of a name.
END = r"(?![\w'./+-])"
NUMBER = rf"[+-]?(?:[0-9]+(?:\.[0-9]+)?(?: ?/ ?[0-9]+)?[{FRACTIONS}]?|[{FRACTIONS}])"
DATE = r"[0-9]{4}-[0-9]{2}-[0-9]{2}(?![0-9])"
CLOCKS = r"[0-9]{1,2}:[0-9]{2}[ \t]*[-–][ \t]*[0-9]{1,2}:[0-9]{2}"
FALL = r"1 ?: ?[0-9]+(?:\.[0-9]+)?"
TIMES = rf"[xX×](?=[ \t]*[0-9{FRACTIONS}])"
NAME = r"[^\W\d_][\w'./+-]*"


@dataclass(frozen=True, slots=True)
class Words:
    """The language's own words by what they do, each list sorted.

    statements   what starts a statement at the margin
    naming       of these, what a name follows
    attributes   what starts a saying about it
    joining      what stands inside one: `from`, `up`, `wall`
    describing   plain words of the trade: bases, bonds, colours, stages of work
    units        longest first
    """

    statements: tuple[str, ...]
    naming: tuple[str, ...]
    attributes: tuple[str, ...]
    joining: tuple[str, ...]
    describing: tuple[str, ...]
    units: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern and the kind of each of its groups, or of the whole where it has none. Groups stand side by side."""

    regex: str
    kinds: tuple[str, ...]


# Every kind, and what it is for.
KINDS = (
    "comment", "text", "date", "number", "unit", "times", "mark", "statement", "name", "attribute", "joining", "describing",
    "word",
)


def _rules() -> str:
    """The grammar without its remarks."""
    return re.sub(r"^\s*//.*$", "", data_text("grammar/tilespec.lark"), flags=re.M)


def grammar_words() -> set[str]:
    """Every word that stands in quotes in the grammar; what is in slashes is a pattern."""
    return set(re.findall(r'"([a-z][a-z-]*)"', re.sub(r"/(?:\\.|[^/\n\\])+/", "", _rules())))


def _naming() -> set[str]:
    (statement,) = re.findall(r"^\?statement:(.*?)\n\n", _rules(), re.M | re.S)
    return {*re.findall(r'"([a-z]+)" (?:NAME|\(STRING \| NAME)', statement), *PRODUCTS}


def movement() -> str:
    """How the grammar knows a sealant's class of movement, which begins with a number."""
    (found,) = re.findall(r"^MOVEMENT\S*: /(.*)/$", _rules(), re.M)
    return str(found)


def _plain() -> set[str]:
    said = (
        *vocabulary.BASES, *vocabulary.PLAIN_WORDS, *vocabulary.SIDES, *vocabulary.STARTS, *vocabulary.MIDDLES, *vocabulary.WAYS,
        *vocabulary.PATTERNS_OF_PLANES, *vocabulary.RECORDS, *vocabulary.WAITS, *vocabulary.DAYS, *(s.word for s in STAGES),
        *FAMILIES,
    )
    return {word for words in said for word in words.split()}


def words() -> Words:
    statements = {*STATEMENTS, *BOTH}
    attributes = {*ATTRIBUTES, *BOTH}
    joining = (grammar_words() | statements) - attributes
    units = {u for u in (*UNITS, *SPELLINGS) if u and u not in ("count", "year", "slope")}
    return Words(
        tuple(sorted(statements)), tuple(sorted(_naming())), tuple(sorted(attributes)), tuple(sorted(joining)),
        tuple(sorted(_plain() - attributes - joining)), tuple(sorted(units, key=lambda u: (-len(u), u))),
    )


def any_of(listed: Iterable[str]) -> str:
    return f"(?:{'|'.join(map(re.escape, listed))})"


def patterns() -> tuple[Pattern, ...]:
    w = words()
    own = any_of(w.statements)
    only = any_of(s for s in STATEMENTS if s not in WITH_ZONE)
    unit = rf"{any_of(w.units)}(?![A-WYZa-wyz0-9²/%]|[xX](?![ \t]*[0-9]))(?![ \t]+corner)"
    return (
        Pattern("#.*", ("comment",)),
        Pattern(r'(?<![0-9])"[^"\n]*"', ("text",)),
        # `tile on left` names no tile.
        Pattern(rf"(^{any_of(w.naming)})([ \t]+)(?!on[ \t])({NAME})", ("statement", "", "name")),
        Pattern(rf"^{own}{END}", ("statement",)),
        # After a `;` only words that are nothing but statements: the rest may go on with the statement before.
        Pattern(rf"(?<=; ){only}{END}", ("statement",)),
        Pattern(DATE, ("date",)),
        Pattern(CLOCKS, ("date",)),
        Pattern(movement(), ("word",)),
        Pattern(FALL + r"(?![0-9:])", ("number",)),
        # Feet with inches behind them.
        Pattern(rf"([0-9]+)( ?)(ft|[′'])(?=[ -]?[0-9{FRACTIONS}])", ("number", "", "unit")),
        Pattern(rf"({NUMBER})([ \u00a0-]?)({unit})", ("number", "", "unit")),
        Pattern(NUMBER, ("number",)),
        Pattern(TIMES, ("times",)),
        Pattern("[;,]", ("mark",)),
        Pattern(any_of(w.attributes) + END, ("attribute",)),
        Pattern(any_of(w.joining) + END, ("joining",)),
        Pattern(any_of(w.describing) + END, ("describing",)),
        Pattern(NAME, ("word",)),
    )
