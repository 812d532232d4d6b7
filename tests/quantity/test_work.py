"""Formulas: what is printed is what was evaluated, dimensions agree, and a faulty one is never printed."""

from __future__ import annotations

import math
from fractions import Fraction as F

import pytest
from hypothesis import given as any_of
from hypothesis import strategies as st

from tilespec.quantity import Counted, Given, Kind, Quantity, Worked, counted, given, work
from tilespec.quantity.total import total
from tilespec.quantity.work import FormulaError, readable
from tilespec.source import Span

SPAN = Span("job.tilespec", 3, 9)


def q(number: str, unit: str) -> Quantity:
    return given(F(number), unit, SPAN)


def test_a_product_of_kinds() -> None:
    area = q("4.32", "m2")
    result = work("area * rate * (1 + waste)", "kg", source="by area", area=area, rate=q("1.5", "kg/m2"), waste=q("10", "%"))
    assert (result.kind, result.number) == (Kind.MASS, F("7.128"))
    assert isinstance(result.why, Worked)
    assert result.why.formula == "area × rate × (1 + waste)"
    assert [name for name, _ in result.why.inputs] == ["area", "rate", "waste"]
    assert result.why.inputs[0][1] is area and result.why.source == "by area"


def test_names_are_printed_as_words() -> None:
    assert readable("tiled_area * 2 / pitch - 1") == "tiled area × 2 ÷ pitch − 1"


@pytest.mark.parametrize(
    ("formula", "unit", "number"),
    [
        ("ceil(a / b)", "", "3"),
        ("floor(a / b)", "", "2"),
        ("max(a, b) - min(a, b)", "m", "1.4"),
        ("abs(b - a)", "m", "1.4"),
        ("sqrt(a * a + b * b)", "m", "2.6"),
        ("a * b", "m2", "2.4"),
        ("a ** 2 * b", "m3", "5.76"),
        ("-a + 2 * b", "m", "-0.4"),
        ("round(a / b * 10) / 10", "", "2.4"),
    ],
)
def test_functions(formula: str, unit: str, number: str) -> None:
    assert work(formula, unit, source="test", a=q("2.4", "m"), b=q("1", "m")).number == F(number)


@pytest.mark.parametrize(
    ("formula", "unit"),
    [
        ("a + t", "m"),             # metres and hours
        ("a * b", "m"),             # an area is no length
        ("a", "m2"),
        ("ceil(a)", ""),            # only a plain number is rounded
        ("max(a, t)", "m"),
        ("sqrt(a)", "m"),           # half a dimension
        ("a ** (1 / 2)", "m"),
        ("a + missing", "m"),
        ("tan(a / b)", ""),         # no such function
        ("a if a else b", "m"),
        ("a.real", "m"),
        ("a[0]", "m"),
        ("a < b", ""),
    ],
)
def test_faulty_formulas_are_our_bugs(formula: str, unit: str) -> None:
    with pytest.raises(FormulaError):
        work(formula, unit, source="test", a=q("2.4", "m"), b=q("1", "m"), t=q("2", "h"))


# Twelve significant digits of published tables of logarithms and powers; e and ln 2 as everywhere.
@pytest.mark.parametrize(
    ("formula", "number"),
    [
        ("exp(1)", "2.71828182846"),
        ("ln(2)", "0.693147180560"),
        ("ln(10)", "2.30258509299"),
        ("exp(0)", "1"),
        ("ln(1)", "0"),
        ("exp(-1)", "0.367879441171"),
        ("power(2, 1 / 2)", "1.41421356237"),
        ("2 ** (1 / 2)", "1.41421356237"),
        ("power(10, 3)", "1000"),
        ("power(0, 1.1)", "0"),
        ("power(3, -1)", "0.333333333333"),
    ],
)
def test_curves_are_rounded_to_twelve_digits(formula: str, number: str) -> None:
    assert work(f"{formula} * a / a", "", source="test", a=q("1", "m")).number == F(number)


@pytest.mark.parametrize("formula", ["ln(0)", "ln(-1)", "power(-2, 0.5)", "power(0, -1)", "exp(9999999999999999999999)"])
def test_where_a_curve_has_no_value(formula: str) -> None:
    with pytest.raises(FormulaError):
        work(f"{formula} * a / a", "", source="test", a=q("1", "m"))


@any_of(st.fractions("0.001", 1000, max_denominator=1000))
def test_ln_undoes_exp_and_agrees_with_the_machine(x: F) -> None:
    got = work("ln(exp(x))", "", source="test", x=given(x / 10, "", SPAN)).number
    assert abs(got - x / 10) <= (1 + x) * F(1, 10**11)
    ln = work("ln(x)", "", source="test", x=given(x, "", SPAN))
    assert float(ln.number) == pytest.approx(math.log(x), rel=1e-11, abs=1e-11)


@any_of(st.lists(st.fractions(0, 100, max_denominator=1000), min_size=1, max_size=8))
def test_sums_are_exact(numbers: list[F]) -> None:
    terms = [(f"part_{n}", given(x, "mm", SPAN)) for n, x in enumerate(numbers)]
    summed = total(terms, "m", of="parts")
    assert summed.value == sum(numbers, F(0)) / 1000
    assert summed.shown.symbol == "m"


def test_nothing_added_up_is_a_counted_nought() -> None:
    assert isinstance(total([], "m", of="joints").why, Counted)
    with pytest.raises(FormulaError):
        total([("time", q("1", "h")), ("length", q("1", "m"))], "m", of="joints")


def test_counts_and_givens_keep_their_places() -> None:
    pipes = counted(3, "pipes through wall A", SPAN)
    assert (pipes.number, pipes.why) == (3, Counted("pipes through wall A", (SPAN,)))
    assert q("68", "F").value == 20 and q("68", "F").why == Given(SPAN)
