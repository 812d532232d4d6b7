"""What the grammar expected, in a tiler's words. No name of a terminal ever reaches a user."""

from __future__ import annotations

from collections.abc import Iterable

_WORDS = {
    "MOVEMENT": "a movement class such as `25LM`",
    "QTY": "a number such as `2.4` or `300 mm`",
    "NAME": "a name or word",
    "STRING": 'a text in quotes, such as "Shower room"',
    "DATE": "a date such as `2026-03-09`",
    "CLOCKS": "hours such as `07:30-16:00`",
    "REFERENCE": "a reference such as `BH-07`",
    "_X": "`x` and the other side, as in `2.4 x 1.8`",
    "PRODUCT": "a product such as `adhesive`",
    "BUILD_UP": "`build-up`",
    "BACKER_BOARD": "`backer board`",
    "_COMMA": "a comma",
    "$END": "the end of the line",
}


def expected(terminals: Iterable[str]) -> str:
    """The accepted tokens as a phrase; long lists of attributes fold into one."""
    names = sorted(set(terminals))
    own = [n for n in names if n not in _WORDS]
    if len(own) > 12:
        return "`;` and the next attribute, or the end of the line"
    parts = [
        _WORDS[n] for n in ("QTY", "NAME", "STRING", "DATE", "CLOCKS", "REFERENCE", "_X", "PRODUCT", "BUILD_UP") if n in names
    ]
    parts += [f"`{n.lower().replace('_', '-')}`" for n in own]
    if "_COMMA" in names and not parts:
        parts.append(_WORDS["_COMMA"])
    if "$END" in names:
        parts.append(_WORDS["$END"])
    if len(parts) < 2:
        return parts[0] if parts else "the end of the line"
    return ", ".join(parts[:-1]) + " or " + parts[-1]
