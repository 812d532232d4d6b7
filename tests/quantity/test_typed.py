"""Quantities as a person types them."""

from fractions import Fraction as F

import pytest

from tilespec.quantity import UNITS, Quantity, given, work
from tilespec.quantity.read import read
from tilespec.quantity.typed import typed
from tilespec.source import Span

HERE = Span("job.tilespec", 0, 1)


@pytest.mark.parametrize(("number", "unit", "text"), [
    (3, "mm", "3 mm"), (F("1.5"), "mm", "1.5 mm"), (F(1, 16), "in", "1/16 in"), (F(5, 2), "in", "2 1/2 in"), (12, "in", "12 in"),
    (F("1.8"), "CM%", "1.8 CM%"), (75, "%RH", "75 %RH"),
    (F(1, 60), "slope", "1:60"), (F(1, 50), "slope", "1:50"), (50, "F", "50 F"),
    (-5, "C", "-5 C"), (3, "count", "3"), (F("0.42"), "", "0.42"), (F("2.4"), "m", "2.4 m"),
])
def test_typed_reads_back(number: F, unit: str, text: str) -> None:
    q = given(number, unit, HERE)
    assert typed(q) == text
    again = read(text)
    assert again.base(UNITS[unit]) == q.value


def test_what_was_worked_out_is_rounded() -> None:
    third: Quantity = work("a / 3", "kg/m2", source="test", a=given(100, "kg/m2", HERE))
    assert typed(third) == "33.3 kg/m2"
    assert typed(work("a / 3", "mm", source="test", a=given(100, "mm", HERE))) == "33.3 mm"
    assert typed(work("a - a", "slope", source="test", a=given(F(1, 60), "slope", HERE))) == "level"
