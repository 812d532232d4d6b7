"""Words of a spec as Markdown text: never markup, always on one line."""

from __future__ import annotations

import re

_PUNCTUATION = re.compile(r"([!-/:-@\[-`{-~])")
_CONTROLS = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029]+")
# What Markdown, with the tables, strikethrough, links and formulas that reviews know, reads as something else inside a line.
_READ = re.compile(
    r"""
      \\ (?= [!-/:-@\[-`{-~] | $ )                     # before punctuation it would hide it
    | ` | \[ | \$
    | (?<! [^\W_] ) _ | _ (?! [^\W_] )                  # inside a word it is a letter
    | (?<! \s ) [*~] | [*~] (?! \s )                    # a sign between blanks marks nothing
    | < (?= [A-Za-z/!?] )
    | & (?= \#? [A-Za-z0-9]+ ; )
    | (?<= [A-Za-z] ) : (?= // )                         # addresses
    | (?<= [Ww]{3} ) \.
    | (?<= [\w.+-] ) @ (?= \w )
    """, re.VERBOSE,
)


def md_words(text: str, cell: bool = False) -> str:
    """Words inside a line, for those who read the Markdown itself: a backslash only before what would be read otherwise there.

    cell  in a cell of a table, where a bar ends it
    """
    words = _READ.sub(r"\\\g<0>", _CONTROLS.sub(" ", text).strip())
    return words.replace("|", "\\|") if cell else words


def md_escape(text: str) -> str:
    """A backslash before all ASCII punctuation; control characters and line breaks become a blank."""
    return _PUNCTUATION.sub(r"\\\1", _CONTROLS.sub(" ", text).strip())
