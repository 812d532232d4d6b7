"""What can stand next in a piece that is being typed, as the grammar has it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from lark import Lark
from lark.exceptions import UnexpectedInput

from tilespec.syntax.parse import grammar

# A number may stand first in what follows a word of the language.
NUMBER = "QTY"


@dataclass(frozen=True, slots=True)
class Ahead:
    """words   of the language that can stand next
    kinds   of other tokens: "NAME", "QTY", "STRING", "DATE", "CLOCKS", "REFERENCE", "PRODUCT", "MOVEMENT"
    ends    the piece can end here
    """

    words: frozenset[str]
    kinds: frozenset[str]
    ends: bool


def ahead(text: str, entry: str) -> Ahead | None:
    """What can follow the text of a piece, from the rule `head` or `attributes`. None where the text itself cannot be read."""
    parser = grammar().parse_interactive(text, start=entry)
    try:
        parser.exhaust_lexer()
        accepted: set[str] = parser.accepts()  # type: ignore[no-untyped-call]
    except UnexpectedInput:
        return None
    words = _words(grammar())
    found = {words[name] for name in accepted if name in words} | ({"x"} if "_X" in accepted else set())
    return Ahead(
        frozenset(found),
        frozenset(name for name in accepted if name not in words and not name.startswith("_") and name != "$END"),
        "$END" in accepted,
    )


def started_by() -> Mapping[str, frozenset[str]]:
    """The kinds of attributes that a word starts."""
    return _attributes()[0]


def behind_number() -> Mapping[str, frozenset[str]]:
    """The kinds of attributes that begin with a number, by the word that follows it."""
    return _attributes()[1]


def _words(lark: Lark) -> dict[str, str]:
    """The words of the language by their terminals."""
    return {t.name: t.pattern.value for t in lark.terminals if t.pattern.type == "str" and t.pattern.value[:1].isalpha()}


@lru_cache(maxsize=1)
def _attributes() -> tuple[Mapping[str, frozenset[str]], Mapping[str, frozenset[str]]]:
    lark = grammar()
    words = _words(lark)
    first: dict[str, set[str]] = {}
    second: dict[str, set[str]] = {}
    for rule in lark.rules:
        if rule.origin.name not in ("attribute", "list"):
            continue
        names = [symbol.name for symbol in rule.expansion]
        kind = rule.alias or rule.origin.name
        if names[0] in words:
            first.setdefault(words[names[0]], set()).add(kind)
        elif names[0] == NUMBER and len(names) > 1 and names[1] in words:
            second.setdefault(words[names[1]], set()).add(kind)
    return tuple({word: frozenset(kinds) for word, kinds in found.items()} for found in (first, second))  # type: ignore[return-value]
