"""Working out a quantity: the formula that is printed is the one that is evaluated.

A formula is an expression over named quantities, for example
`work("tiled_area * consumption * (1 + allowance)", "kg", source=..., tiled_area=a, consumption=c, allowance=w)`.
Dimensions are checked while it is evaluated, so a formula that mixes kinds cannot be printed.
Functions: ceil, floor, round, max, min, abs, sqrt, sin, power, exp, ln. Numbers in a formula are dimensionless.
sqrt, sin, power, exp and ln are rounded to twelve significant digits; the last three are reckoned in decimals, not in the
machine's floating point.
"""

from __future__ import annotations

import ast
import math
import re
from dataclasses import dataclass
from decimal import Context, Decimal, DecimalException
from fractions import Fraction
from functools import lru_cache

from tilespec.quantity.trace import Counted, Given, Quantity, Worked
from tilespec.quantity.unit import UNITS
from tilespec.source import Span

_PLAIN = (0, 0, 0, 0, 0)


class FormulaError(Exception):
    """A formula of ours is wrong: a bug in tilespec, never the user's mistake."""


@dataclass(frozen=True, slots=True)
class _Value:
    value: Fraction
    dim: tuple[int, ...]


def _exact(x: float) -> Fraction:
    # Twelve significant digits: enough for any measure on site, and the same on every machine.
    return Fraction(f"{x:.12g}")


# Wide enough that nothing is lost before the rounding to twelve digits.
_WIDE, _SHORT = Context(prec=34), Context(prec=12)


def _decimal(x: Fraction) -> Decimal:
    return _WIDE.divide(Decimal(x.numerator), Decimal(x.denominator))


def _rounded(x: Decimal, where: str) -> Fraction:
    if not x.is_finite():
        raise FormulaError(f"{where} has no value here")
    return Fraction(_SHORT.plus(x))


def _power(base: Fraction, exponent: Fraction) -> Fraction:
    try:
        return _rounded(_WIDE.power(_decimal(base), _decimal(exponent)), "power")
    except DecimalException:
        raise FormulaError(f"no power {exponent} of {base}") from None


def _curve(name: str, x: Fraction) -> Fraction:
    """exp or ln."""
    try:
        return _rounded(_WIDE.exp(_decimal(x)) if name == "exp" else _WIDE.ln(_decimal(x)), name)
    except DecimalException:
        raise FormulaError(f"no {name} of {x}") from None


def _plain(v: _Value, where: str) -> Fraction:
    if v.dim != _PLAIN:
        raise FormulaError(f"{where} needs a plain number")
    return v.value


def _call(name: str, args: list[_Value]) -> _Value:
    if name in ("max", "min"):
        if len({a.dim for a in args}) != 1:
            raise FormulaError(f"{name} of different kinds")
        pick = max if name == "max" else min
        return _Value(pick(a.value for a in args), args[0].dim)
    first = args[0]
    if name == "abs":
        return _Value(abs(first.value), first.dim)
    if name == "sqrt":
        if any(d % 2 for d in first.dim):
            raise FormulaError("square root of an odd dimension")
        return _Value(_exact(math.sqrt(first.value)), tuple(d // 2 for d in first.dim))
    if name == "ceil":
        return _Value(Fraction(math.ceil(_plain(first, name))), _PLAIN)
    if name == "floor":
        return _Value(Fraction(math.floor(_plain(first, name))), _PLAIN)
    if name == "round":
        return _Value(Fraction(round(_plain(first, name))), _PLAIN)
    if name == "sin":
        return _Value(_exact(math.sin(math.radians(_plain(first, name)))), _PLAIN)
    if name in ("exp", "ln"):
        return _Value(_curve(name, _plain(first, name)), _PLAIN)
    if name == "power":
        return _Value(_power(_plain(first, name), _plain(args[1], name)), _PLAIN)
    raise FormulaError(f"no function {name}")


def _evaluate(node: ast.expr, names: dict[str, _Value]) -> _Value:
    if isinstance(node, ast.Name):
        return names[node.id]
    if isinstance(node, ast.Constant):
        return _Value(Fraction(str(node.value)), _PLAIN)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        v = _evaluate(node.operand, names)
        return _Value(-v.value, v.dim)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return _call(node.func.id, [_evaluate(a, names) for a in node.args])
    if isinstance(node, ast.BinOp):
        a, b = _evaluate(node.left, names), _evaluate(node.right, names)
        if isinstance(node.op, (ast.Add, ast.Sub)):
            if a.dim != b.dim:
                raise FormulaError(f"adds {a.dim} and {b.dim}")
            return _Value(a.value + b.value if isinstance(node.op, ast.Add) else a.value - b.value, a.dim)
        if isinstance(node.op, ast.Mult):
            return _Value(a.value * b.value, tuple(x + y for x, y in zip(a.dim, b.dim)))
        if isinstance(node.op, ast.Div):
            return _Value(a.value / b.value, tuple(x - y for x, y in zip(a.dim, b.dim)))
        if isinstance(node.op, ast.Pow):
            if a.dim != _PLAIN and (b.value.denominator != 1):
                raise FormulaError("a dimension to a broken power")
            if b.value.denominator == 1:
                n = int(b.value)
                return _Value(a.value**n, tuple(x * n for x in a.dim))
            return _Value(_power(a.value, b.value), _PLAIN)
    raise FormulaError(f"cannot evaluate {ast.dump(node)}")


@lru_cache(maxsize=512)
def _parsed(formula: str) -> ast.expr:
    return ast.parse(formula, mode="eval").body


def work(formula: str, shown: str, *, source: str, **inputs: Quantity) -> Quantity:
    """Evaluate a formula of ours over quantities and remember it.

    `shown` is the unit's symbol (see `quantity.unit.UNITS`); `source` names the rule's origin.
    Raises FormulaError when dimensions do not agree or a name is missing: that is a bug.
    """
    names = {n: _Value(q.value, q.kind.exponents) for n, q in inputs.items()}
    try:
        result = _evaluate(_parsed(formula), names)
    except KeyError as missing:
        raise FormulaError(f"formula {formula!r} lacks {missing}") from None
    u = UNITS[shown]
    if result.dim != u.kind.exponents:
        raise FormulaError(f"formula {formula!r} does not give {shown}")
    why = Worked(readable(formula), tuple((n.replace("_", " "), q) for n, q in inputs.items()), source)
    return Quantity(result.value, u.kind, u, why)


def readable(formula: str) -> str:
    """The formula as printed: words for names, × and ÷."""
    text = formula.replace("**", "^").replace("*", "×").replace("/", "÷").replace("_", " ").replace("-", "−")
    return " ".join(text.split())


_WORDED = {
    "ceil": ("", ", rounded up"), "floor": ("", ", rounded down"), "round": ("", ", rounded"), "min": ("the smaller of ", ""),
    "max": ("the larger of ", ""),
}
_CALL = re.compile(r"(?<!\w)(ceil|floor|round|min|max)\(")


def worded(formula: str) -> str:
    """A printed formula as one says it: what is rounded, and which of two counts, in words."""
    whole = _CALL.match(formula)
    if whole and _closed(formula, whole.end()) == len(formula) - 1:
        return _said(whole[1], formula[whole.end() : -1])
    found = _CALL.search(formula)
    if not found:
        return formula
    end = _closed(formula, found.end())
    said = _said(found[1], formula[found.end() : end])
    return f"{formula[: found.start()]}({said}){worded(formula[end + 1 :])}"


def _said(name: str, inside: str) -> str:
    """A call in words; what it is of is worded too."""
    parts, depth, start = [], 0, 0
    for n, sign in enumerate(inside):
        depth += (sign == "(") - (sign == ")")
        if sign == "," and not depth:
            parts.append(inside[start:n].strip())
            start = n + 1
    parts.append(inside[start:].strip())
    # A choice within a choice stands in brackets, so that it is seen which belong together.
    shown = [f"({worded(p)})" if len(parts) > 1 and _CALL.match(p) else worded(p) for p in parts]
    before, behind = _WORDED[name]
    before = before.replace("smaller", "smallest").replace("larger", "largest") if len(parts) > 2 else before
    return before + (", ".join(shown[:-1]) + " and " if len(shown) > 1 else "") + shown[-1] + behind


def _closed(text: str, at: int) -> int:
    """Where the bracket that was opened before `at` is closed."""
    depth = 1
    while depth:
        depth += (text[at] == "(") - (text[at] == ")")
        at += 1
    return at - 1


def counted(number: int, of: str, *spans: Span) -> Quantity:
    """A count of things in the job. `of` says what was counted."""
    u = UNITS["count"]
    return Quantity(Fraction(number), u.kind, u, Counted(of, spans))


def given(number: Fraction | int | str, shown: str, span: Span) -> Quantity:
    """A value that was said in the spec at `span`."""
    u = UNITS[shown]
    return Quantity(Fraction(number) * u.factor + u.offset, u.kind, u, Given(span))
