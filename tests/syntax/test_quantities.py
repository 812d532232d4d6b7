"""What the grammar takes for a number is what `quantity.read` reads, for every spelling of every unit."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tilespec.quantity.read import read
from tilespec.quantity.unit import SPELLINGS, UNITS
from tilespec.resources import data_text
from tilespec.source import Source
from tilespec.syntax.nodes import Atom
from tilespec.syntax.parse import parse
from tilespec.syntax.table import build

QTY = re.compile(next(t.pattern.value for t in build(data_text("grammar/tilespec.lark")).terminals if t.name == "QTY"))
WRITTEN = [u for u in (*UNITS, *SPELLINGS) if u not in ("", "count", "year", "slope")]
# Feet and inches with a sign are joined to the number when they stand alone, too.
NUMBERS = ("3", "0.3", "-3", "+3", "1/2", "10 1/2", "10\u00a01/2", "1 / 2", "½", "10½", "999999999.999999999")


def atoms(text: str) -> tuple[Atom, ...]:
    outcome = parse(Source("job.tilespec", text))
    assert not outcome.diagnostics, [d.message for d in outcome.diagnostics]
    return tuple(x for a in outcome.value.statements[0].lines[0].attributes for x in a.args)


@pytest.mark.parametrize("unit", WRITTEN)
@pytest.mark.parametrize("gap", ["", " ", "\u00a0"])
def test_every_spelling_of_every_unit(unit: str, gap: str) -> None:
    for number in NUMBERS:
        text = f"{number}{gap}{unit}"
        assert QTY.fullmatch(text), text
        reading = read(text)
        assert reading.unit is UNITS[SPELLINGS.get(unit, unit)]
        assert reading.number == read(number).number


@pytest.mark.parametrize("unit", WRITTEN)
def test_a_unit_ends_where_a_letter_follows(unit: str) -> None:
    if unit[-1].isalpha() and unit[-1].isascii():
        m = QTY.match(f"3 {unit}q")
        assert m and not m[0].endswith(unit)


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("2400 mm", Fraction(2400), "mm"),
        ("7 ft 10 1/2 in", Fraction(189, 2), "in"),
        ("7ft 10 1/2in", Fraction(189, 2), "in"),
        ("7ft10in", Fraction(94), "in"),
        ("7ft10 1/2in", Fraction(189, 2), "in"),
        ("7'10½\"", Fraction(189, 2), "in"),
        ("7′ 10½″", Fraction(189, 2), "in"),
        ("7 ft-10 in", Fraction(94), "in"),
        ("7 ft  10  in", Fraction(94), "in"),
        ("7 ft - 10 in", Fraction(94), "in"),
        ("7 ft -10 in", Fraction(94), "in"),
        ("-1 ft 2 in", Fraction(-14), "in"),
        ("12 in", Fraction(12), "in"),
        ("3/8 in", Fraction(3, 8), "in"),
        ("1:60", Fraction(1, 60), "slope"),
        ("1 : 60", Fraction(1, 60), "slope"),
        ("1:66.7", Fraction(10, 667), "slope"),
        ("60 %", Fraction(60), "%"),
        ("72 %RH", Fraction(72), "%RH"),
        ("72 RH%", Fraction(72), "%RH"),
        ("1.6 CM%", Fraction(8, 5), "CM%"),
        ("1.6 CM-%", Fraction(8, 5), "CM%"),
        ("-5 °C", Fraction(-5), "C"),
        ("20 kg/m²", Fraction(20), "kg/m2"),
    ],
)
def test_readings(text: str, number: Fraction, unit: str) -> None:
    assert QTY.fullmatch(text)
    reading = read(text)
    assert (reading.number, reading.unit) == (number, UNITS[unit])


@pytest.mark.parametrize(
    "text", ["", "mm", "2..4", ".5", "2.", "1/0", "1 1 1", "2,4", "٣", "1:0", "1/2/3", "0x10", "1e3", "--1", "10 0/0 in", "½½"]
)
def test_refused(text: str) -> None:
    with pytest.raises(ValueError):
        read(text)


@pytest.mark.parametrize("x", ["x", "X", "×"])
@pytest.mark.parametrize(("before", "after"), [("", ""), (" ", " "), (" ", ""), ("\u00a0", "\t")])
@pytest.mark.parametrize("unit", ["", "mm", " mm", " in"])
def test_sides_of_a_size(x: str, before: str, after: str, unit: str) -> None:
    found = atoms(f"floor 2400{unit}{before}{x}{after}1800{unit}{before}{x}{after}9{unit}\n")
    assert [(a.kind, read(a.text).number) for a in found] == [("quantity", 2400), ("quantity", 1800), ("quantity", 9)]
    assert {read(a.text).unit for a in found} == {UNITS[unit.strip()] if unit else None}


def test_in_before_corner_is_a_word_of_place() -> None:
    found = parse(Source("job.tilespec", "shower 0.9 x 0.9 in corner D A\n")).value.statements[0].lines[0].attributes
    assert [a.kind for a in found] == ["size", "in_corner"]
