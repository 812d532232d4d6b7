"""Words of a spec as Markdown text: never markup, always on one line."""

from __future__ import annotations

import re

_PUNCTUATION = re.compile(r"([!-/:-@\[-`{-~])")
_CONTROLS = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029]+")


def md_escape(text: str) -> str:
    """A backslash before all ASCII punctuation; control characters and line breaks become a blank."""
    return _PUNCTUATION.sub(r"\\\1", _CONTROLS.sub(" ", text).strip())
