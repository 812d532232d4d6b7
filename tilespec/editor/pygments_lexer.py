"""Highlighting with Pygments, for documents and web pages that show specs. Pygments finds it by its entry point; tilespec
itself does not need it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pygments.lexer import RegexLexer, bygroups
from pygments.token import (
    Comment,
    Keyword,
    Literal,
    Name,
    Number,
    Operator,
    Punctuation,
    String,
    Text,
    Whitespace,
)

from tilespec.editor.highlight import patterns

TOKENS = {
    "comment": Comment.Single,
    "text": String.Double,
    "date": Literal.Date,
    "number": Number,
    "unit": Keyword.Type,
    "times": Operator,
    "mark": Punctuation,
    "statement": Keyword.Declaration,
    "name": Name.Class,
    "attribute": Keyword,
    "joining": Operator.Word,
    "describing": Name.Constant,
    "word": Name,
    "": Whitespace,
}


def _rules() -> Iterator[tuple[str, object]]:
    yield r"\s+", Whitespace
    for pattern in patterns():
        kinds = [TOKENS[kind] for kind in pattern.kinds]
        yield pattern.regex, kinds[0] if len(kinds) == 1 else bygroups(*kinds)
    # A text that is not closed is the one thing that spoils the rest of its line; references may hold any sign.
    yield r'[^\s;,"#]', Text


class TilespecLexer(RegexLexer):  # type: ignore[misc, unused-ignore]  # Pygments ships no types
    """A wet-room tiling job in the language of tilespec."""

    name = "tilespec"
    aliases = ["tilespec"]
    filenames = ["*.tilespec"]
    flags = re.MULTILINE
    tokens = {"root": list(_rules())}
