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


def wrapped(text: str, columns: int, hang: int = 0) -> list[str]:
    """Text in lines of at most so many columns (less `hang` from the second on); a word that is longer is cut."""
    lines: list[str] = []
    line, used = "", 0
    for word in filter(None, text.split(" ")):
        limit = max(columns - (hang if lines else 0), 1)
        size = width(word)
        if line and used + 1 + size <= limit:
            line, used = f"{line} {word}", used + 1 + size
            continue
        if line:
            lines.append(line)
            limit = max(columns - hang, 1)
        while size > limit:
            piece = _start(word, limit)
            lines.append(piece)
            word = word[len(piece) :]
            size, limit = width(word), max(columns - hang, 1)
        line, used = word, size
    if line or not lines:
        lines.append(line)
    return lines


def _start(word: str, columns: int) -> str:
    """As much of a word as there is room for, to a hyphen where it has one; one character at least, so that there is an end."""
    used = 0
    for n, c in enumerate(word):
        used += width(c)
        if used > columns and n:
            return word[: word.rfind("-", 1, n) + 1] or word[:n]
    return word
