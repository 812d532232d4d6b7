"""Which tiles are light stone: what is dark or wet behind them shows for good."""

from __future__ import annotations

from tilespec.job.types import Tile

# Sold light unless a colour says otherwise.
LIGHT_STONES = ("marble", "limestone", "travertine")
LIGHT = ("light", "white", "beige", "yellow", "clear")
DARK = ("dark", "black", "grey", "brown", "green", "red", "blue")


def light(tile: Tile) -> bool:
    """Natural stone that is light, by its colour or else by its kind."""
    words = tuple("grey" if w == "gray" else w for w in tile.words)
    if not tile.stone:
        return False
    if any(w in LIGHT for w in words):
        return True
    return any(w in LIGHT_STONES for w in words) and not any(w in DARK for w in words)
