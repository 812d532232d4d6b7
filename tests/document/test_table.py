"""Tables and text on a terminal: as wide as it is, and nothing lost."""

from __future__ import annotations

import random

import pytest

from tilespec.diagnostics.printable import width, wrapped
from tilespec.document.show import NARROW
from tilespec.document.table import filled, table
from tilespec.document.terminal import cells, plain, render

WORDS = ("tile", "floor-field-porcelain", f"12.5{NARROW}kg", "浴室", "a", "generic-mirror-adhesive",
         f"24{NARROW}ft² (2.23{NARROW}m²)", "")


def test_without_a_width_a_row_is_a_line() -> None:
    rows = [("tile white", f"2{NARROW}kg"), ("grout", f"12.5{NARROW}kg")]
    assert list(table(("what", "net"), rows, (False, True))) == [
        "what            net",
        "tile white     2 kg",
        "grout       12.5 kg",
    ]


def test_columns_break_and_numbers_keep_their_unit() -> None:
    rows = [("adhesive for large tiles", f"24.6{NARROW}ft² (2.29{NARROW}m²)")]
    assert list(table(("what", "net"), rows, (False, True), 22)) == [
        "what               net",
        "adhesive      24.6 ft²",
        "for large    (2.29 m²)",
        "tiles",
    ]


def test_feet_stand_above_inches_rather_than_no_table() -> None:
    rows = [("tape", f"48{NARROW}ft{NARROW}5{NARROW}5/8{NARROW}in")]
    assert list(table(("what", "net"), rows, (False, True), 15)) == ["what        net", "tape      48 ft", "       5 5/8 in"]


def test_where_there_is_no_room_a_row_is_a_list() -> None:
    rows = [("floor tile", f"12.5{NARROW}kg", "")]
    assert list(table(("what", "net", "none"), rows, (False, True, False), 14)) == ["floor tile", "  net: 12.5 kg"]


@pytest.mark.parametrize("seed", range(200))
def test_any_table_fits_and_holds_every_letter(seed: int) -> None:
    rng = random.Random(seed)
    count, columns = rng.randint(1, 6), rng.randint(8, 100)
    row = [[" ".join(rng.choices(WORDS, k=rng.randint(0, 4))) for _ in range(count)] for _ in range(rng.randint(1, 5))]
    head = rng.choices(("no.", "what", "Allowance"), k=count)
    lines = list(table(head, row, rng.choices((True, False), k=count), columns))
    assert all(width(line) <= columns and line == line.rstrip() for line in lines)
    said = "".join(lines)
    for letter in "kgft²浴室0123456789":
        assert said.count(letter) >= sum(cell.count(letter) for r in row for cell in r)


def test_long_words_are_cut_at_a_hyphen() -> None:
    assert wrapped("generic-mirror-adhesive", 10) == ["generic-", "mirror-", "adhesive"]
    assert wrapped("abcdefgh", 3) == ["abc", "def", "gh"]
    assert wrapped("浴室浴室", 5) == ["浴室", "浴室"]
    assert filled("one two three", 9, 1, 2) == [" one two", "   three"]


def test_markdown_is_read_as_people_read_it() -> None:
    assert plain(r"**4.21 m²^W21^** a\*b\|c\^W1\^") == "4.21 m² a*b|c^W1^"
    assert cells(r"| a\|b | **2**^L3^ | |") == ["a|b", "2", ""]
    assert plain("a\x1b[31m") == "a<U+001B>[31m"
    text = "## 3 Title {: #part-x}\n\n::: form\n| a | b | c |\n|---|--:|---|\n| x | 10 | |\n| y | 2 | |\n:::\n\n- one two three\n"
    assert render(text, 12) == "3 Title\n\n  a   b\n  x  10\n  y   2\n\n- one two\n  three\n"
