"""Formulas in the notes of messages, as one says them."""

from __future__ import annotations

import pytest

from tilespec.quantity.work import worded


@pytest.mark.parametrize(
    ("formula", "said"),
    [
        ("tile + bed", "tile + bed"),
        ("start + ceil((head − start) ÷ (tile + joint)) × tile", "start + ((head − start) ÷ (tile + joint), rounded up) × tile"),
        ("sill − floor(sill ÷ tile) × tile", "sill − (sill ÷ tile, rounded down) × tile"),
        ("min(declared × share, most)", "the smaller of declared × share and most"),
        ("min(width, max(width × share, least))", "the smaller of width and (the larger of width × share and least)"),
        ("max(a, b, c) + min(a, b)", "(the largest of a, b and c) + (the smaller of a and b)"),
    ],
)
def test_a_formula_in_words(formula: str, said: str) -> None:
    assert worded(formula) == said
