"""How much room lettering takes, in the font that prints use (DejaVu Sans Condensed)."""

from __future__ import annotations

# In a browser the page brings no font: then the narrow ones that it is likely to have.
FONT = "Tilespec Sans, DejaVu Sans Condensed, Arial, sans-serif"
# 7 pt is 2.469 mm: nothing on paper is smaller.
SMALL = 2.5
PLAIN = 2.7
# Height above and below the base line, and the capitals' height, as shares of the size.
ABOVE, BELOW, CAPITAL = 0.76, 0.24, 0.729
PITCH = 1.3

# Advance widths of U+0020 to U+007E in 1/2048 of the size (the font's own table).
# fmt: off
_WIDTHS = (
    585, 738, 847, 1544, 1172, 1751, 1437, 506, 719, 719, 921, 1544, 585, 665, 585, 621, 1172, 1172, 1172, 1172, 1172, 1172,
    1172, 1172, 1172, 1172, 621, 621, 1544, 1544, 1544, 978, 1843, 1260, 1264, 1287, 1419, 1164, 1060, 1428, 1386, 543, 543,
    1208, 1026, 1590, 1378, 1450, 1111, 1450, 1280, 1170, 1125, 1349, 1260, 1822, 1262, 1125, 1262, 719, 621, 719, 1544, 921,
    921, 1129, 1170, 1013, 1170, 1134, 648, 1170, 1168, 512, 512, 1067, 512, 1795, 1168, 1127, 1170, 1170, 757, 960, 722,
    1168, 1090, 1507, 1090, 1090, 967, 1172, 621, 1172, 1544,
)
# fmt: on
# fmt: off
_SIGNS = {
    "×": 1544, "±": 1544, "−": 1544, "·": 585, "…": 1843, "ø": 1127, "″": 688, "′": 418, "–": 921, "“": 954, "”": 954, "↑": 1544,
    "↓": 1544,
}
# fmt: on
# No narrower than nearly every letter of the Latin and Greek alphabets, and of all others.
_OTHER_LATIN = 2000
_OTHER = 2400
_BOLD = 1.27  # no bold letter is wider than this times the plain one


def width(text: str, size: float, bold: bool = False) -> float:
    """Width of one line in the unit of `size`. No less than it prints, for Latin, Greek and Cyrillic text."""
    total = 0
    for sign in text:
        code = ord(sign)
        if 32 <= code < 127:
            total += _WIDTHS[code - 32]
        else:
            total += _SIGNS.get(sign, _OTHER_LATIN if code < 0x400 else _OTHER)
    return total / 2048 * size * (_BOLD if bold else 1)


def known(text: str) -> bool:
    """Whether the width is that of the font, and no estimate on the safe side."""
    return all(32 <= ord(sign) < 127 or sign in _SIGNS for sign in text)


def shorten(text: str, limit: float, size: float) -> str:
    """The text, or its beginning and an ellipsis when it is wider than `limit`."""
    if width(text, size) <= limit:
        return text
    kept = text
    while kept and width(kept.rstrip() + "…", size) > limit:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def wrap(text: str, limit: float, size: float, most: int) -> tuple[str, ...]:
    """The text in lines no wider than `limit`; at most `most` of them, the last one shortened where more is left."""
    pieces: list[str] = []
    for word in text.split():
        # A word that no line holds is broken rather than lost.
        while width(word, size) > limit:
            part = word
            while width(part, size) > limit:
                part = part[:-1]
            if not part:
                break
            pieces.append(part)
            word = word[len(part) :]
        if word:
            pieces.append(word)
    lines: list[str] = []
    for at, piece in enumerate(pieces):
        if lines and width(f"{lines[-1]} {piece}", size) <= limit:
            lines[-1] += f" {piece}"
        elif len(lines) < most:
            lines.append(piece)
        else:
            lines[-1] = shorten(" ".join([lines[-1], *pieces[at:]]), limit, size)
            break
    return tuple(lines)
