"""The parser of the grammar. Its table takes longer to build than a job to read, so it is kept in the user's own private folder.

The kept table is named for everything it depends on: the grammar's text, Lark's and Python's versions.
"""

from __future__ import annotations

import hashlib
import sys
from io import BytesIO

import lark
from lark import Lark

from tilespec.resources import data_text, keep, kept

STARTS = ["head", "attributes"]


def build(grammar: str) -> Lark:
    """A parser made from the grammar's text."""
    return Lark(grammar, parser="lalr", lexer="contextual", start=STARTS, keep_all_tokens=True, maybe_placeholders=False)


def parser() -> Lark:
    """A parser with entry rules `head` and `attributes`."""
    grammar = data_text("grammar/tilespec.lark")
    made_of = "\n".join((grammar, lark.__version__, sys.version))
    name = f"table-{hashlib.sha256(made_of.encode()).hexdigest()[:24]}"
    data = kept(name)
    if data is not None:
        try:
            return Lark.load(BytesIO(data))
        except Exception:  # noqa: BLE001 - whatever is wrong with a kept table, building a new one is right
            pass
    made = build(grammar)
    out = BytesIO()
    made.save(out)
    keep(name, out.getvalue())
    return made
