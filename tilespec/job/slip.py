"""A misspelt attribute reads as a describing word with strangers behind it. Here the slip is seen, so that it is told once."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.diagnostics.suggest import nearest
from tilespec.job.schema import ITEMS, STATEMENTS
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.syntax.words import PRODUCTS
from tilespec.vocabulary import PLAIN_WORDS

# The word that an attribute starts with, where its kind is called otherwise.
_KEYWORDS: dict[str, tuple[str, ...]] = {
    "build_up": ("build-up",),
    "measured": ("rooms",),
    "product": PRODUCTS,
    "shower_head": ("head",),
    "zone_bath": ("bath",),
    "zone_shower": ("shower",),
}
_NO_KEYWORD = ("words", "size", "from_side", "from_wall", "up", "above", "below", "high", "wide", "deep", "long", "on_date")
# What else an attribute's own text would read as, when its word is misspelt.
_READ_AS = {
    "chips": ("size",), "work_size": ("size",), "barefoot": ("class",), "slip": ("class",), "date": ("on_date",),
    "begin": ("on_date",), "laid": ("on_date",), "closed": ("on_date",),
}


@dataclass(frozen=True, slots=True)
class Slip:
    """A word that stands for no description.

    right    the attribute's word it is a slip for, or None
    opens    whether it would have named something of its own (a window, a base, a tile)
    takes    kinds of the attributes that belong to it; None: all that follow on the line
    """

    word: Atom
    right: str | None
    opens: bool
    takes: tuple[str, ...] | None


def _keywords(kind: str) -> tuple[str, ...]:
    if kind in _NO_KEYWORD:
        return ()
    return _KEYWORDS.get(kind, (kind.split("_")[0],))


def openers(statement: str) -> tuple[str, ...]:
    """The words that a line below a statement may start with, products left out."""
    return tuple(dict.fromkeys(w for kind in STATEMENTS[statement][1] if kind != "product" for w in _keywords(kind)))


def slip(st: Statement, attribute: Attribute, opener: Attribute | None, follows: bool) -> Slip | None:
    """The slip in a description, if its first word is one. `follows`: something stands behind it on the line."""
    word = attribute.args[0]
    text = word.text.lower()
    if text in PLAIN_WORDS or text == "none":
        return None
    own, items = STATEMENTS[st.kind]
    said = ITEMS[opener.kind] if opener is not None else ()
    kinds = (*items, *said, *own)
    by_word = {w: kind for kind in reversed(kinds) for w in _keywords(kind)}
    if len(text) > 2 and (right := nearest(text, (*by_word, *PLAIN_WORDS))) and right in by_word:
        kind = by_word[right]
        if kind in items:
            return Slip(word, right, True, (*ITEMS[kind], "words", "at"))
        return Slip(word, right, False, _READ_AS.get(kind, ()))
    if nearest(text, PLAIN_WORDS) or not (follows or len(attribute.args) > 1):
        return None
    return Slip(word, None, True, None)
