"""How much room lettering takes, in the font that prints use (DejaVu Sans)."""

from __future__ import annotations

FONT = "DejaVu Sans"
# 7 pt is 2.469 mm: nothing on paper is smaller.
SMALL = 2.5
PLAIN = 2.7
LARGE = 3.2
# Height above and below the base line, and the capitals' height, as shares of the size.
ABOVE, BELOW, CAPITAL = 0.76, 0.24, 0.729
PITCH = 1.3

# Advance widths of U+0020 to U+007E in 1/2048 of the size (the font's own table).
_WIDTHS = (
    651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690, 1303, 1303, 1303, 1303, 1303, 1303, 1303, 1303,
    1303, 1303, 690, 690, 1716, 1716, 1716, 1087, 2048, 1401, 1405, 1430, 1577, 1294, 1178, 1587, 1540, 604, 604, 1343, 1141, 1767, 1532,
    1612, 1235, 1612, 1423, 1300, 1251, 1499, 1401, 2025, 1403, 1251, 1403, 799, 690, 799, 1716, 1024, 1024, 1255, 1300, 1126, 1300, 1260,
    721, 1300, 1298, 569, 569, 1186, 569, 1995, 1298, 1253, 1300, 1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212, 1075, 1303, 690,
    1303, 1716,
)
_SIGNS = {"×": 1716, "±": 1716, "−": 1716, "·": 651, "…": 2048, "ø": 1253, "″": 765, "′": 465, "–": 1024, "“": 1061, "”": 1061, "↑": 1716, "↓": 1716}
_OTHER_LATIN = 1700     # wider than nearly every letter of the Latin and Greek alphabets
_OTHER = 2300
_BOLD = 1.17            # bold letters are at most this much wider, letter for letter of what is set in bold


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
            word = word[len(part):]
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
