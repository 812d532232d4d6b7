"""What may reach a terminal: text without anything that the terminal would obey, and how wide it stands there."""

from __future__ import annotations

import unicodedata

# Control, format (bidirectional marks, zero widths), surrogate, private, unassigned; line and paragraph separators.
_HIDDEN = frozenset(("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"))


def visible(character: str) -> str:
    """The character itself, or what stands for one that must not reach a terminal (`<U+001B>`)."""
    if character.isascii() and character.isprintable():
        return character
    return f"<U+{ord(character):04X}>" if unicodedata.category(character) in _HIDDEN else character


def printable(text: str) -> str:
    """One line that is safe on a terminal: line breaks and tabs become blanks, other hidden characters are shown by number."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(" " if c in "\n\r\t" else visible(c) for c in text)


def width(text: str) -> int:
    """Columns that printable text takes on a terminal: East Asian wide characters two, combining marks none."""
    if text.isascii():
        return len(text)
    return sum(_width(c) for c in text)


def _width(character: str) -> int:
    if unicodedata.category(character) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1
