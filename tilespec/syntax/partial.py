"""What a piece says up to the place where it cannot be read."""

from __future__ import annotations

from dataclasses import dataclass

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedInput


@dataclass(frozen=True, slots=True)
class Partial:
    """words   of the language in the attribute (or statement) that is not whole yet
    number  it has, and
    open    whether one of the words stands last
    kinds   of what is whole, in order
    """

    words: tuple[str, ...] = ()
    number: str = ""
    open: bool = False
    kinds: tuple[str, ...] = ()


def partial(lark: Lark, text: str, entry: str) -> Partial:
    """What has been read of `text` by the rule `entry`."""
    parser = lark.parse_interactive(text, start=entry)
    try:
        parser.exhaust_lexer()
    except UnexpectedInput:
        return Partial()
    plain = {t.name: t.pattern.value for t in lark.terminals if t.pattern.type == "str" and t.pattern.value[:1].isalpha()}
    words: list[str] = []
    kinds: list[str] = []
    number, last = "", ""
    for value in parser.parser_state.value_stack:
        if isinstance(value, Token):
            last = value.type
            if value.type in plain or value.type in ("PRODUCT", "BUILD_UP"):
                words.append(str(value))
            elif value.type == "QTY":
                number = str(value)
        elif isinstance(value, Tree):
            last = ""
            below = value.iter_subtrees_topdown()  # type: ignore[no-untyped-call]
            kinds += [str(t.data) for t in below if not str(t.data).startswith("_")]
    return Partial(tuple(words), number, last in plain or last in ("PRODUCT", "BUILD_UP"), tuple(kinds))
