"""The parser of the grammar, built once per process."""

from __future__ import annotations

from lark import Lark

from tilespec.resources import data_text

STARTS = ["head", "attributes"]


def parser() -> Lark:
    """A parser with entry rules `head` and `attributes`."""
    return Lark(
        data_text("grammar/tilespec.lark"), parser="lalr", lexer="contextual", start=STARTS, keep_all_tokens=True,
        maybe_placeholders=False,
    )
