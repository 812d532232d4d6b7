"""A quantity and its *why*: where it was said, which limit it is, what was assumed, or how it was worked out."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from tilespec.quantity.unit import Kind, Unit
from tilespec.source import Span


@dataclass(frozen=True, slots=True)
class Given:
    """Said in a spec or in a stock file, at this place."""

    span: Span


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit or planning value of a practice family.

    key       name of the limit in the practice data, such as `joint-min-floor`
    family    the family that set it (a borrowed limit names its owner)
    asked     the family of the job, when it borrows
    source    document and clause, in words
    seen      "body", "press", "restated" or "memory": how the source was checked
    note      condition or caution that must be printed with it
    """

    key: str
    family: str
    asked: str
    source: str
    seen: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Default:
    """Assumed, because the spec does not say: to be confirmed.

    question  what to ask, in the job's words ("Thickness of tile floor-tile?")
    basis     why this value is a fair start, with its source or "common practice"
    ask       who would know: "survey", "data sheet", "client", "designer"
    """

    question: str
    basis: str
    ask: str = "survey"


@dataclass(frozen=True, slots=True)
class Counted:
    """A count of things in the job, such as the pipes through a wall."""

    of: str
    spans: tuple[Span, ...] = ()


@dataclass(frozen=True, slots=True)
class Worked:
    """Worked out by this formula from these quantities.

    formula   readable text with the inputs' names in it, exactly what was evaluated
    inputs    (name in the formula, quantity)
    source    where the formula comes from
    """

    formula: str
    inputs: tuple[tuple[str, Quantity], ...]
    source: str


Why = Given | Limit | Default | Counted | Worked


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact value in coherent base units (m, m2, m3, kg, s, K, W ...), with the unit to show it in and its why.

    Two quantities are equal when value and kind are: unit shown and why are left out.
    """

    value: Fraction
    kind: Kind
    shown: Unit = field(compare=False)
    why: Why = field(compare=False)

    def in_unit(self, unit: Unit) -> Fraction:
        """The number in another unit of the same kind. ValueError when the kinds differ."""
        if unit.kind is not self.kind:
            raise ValueError(f"{self.kind.name} cannot be shown in {unit.symbol}")
        return (self.value - unit.offset) / unit.factor

    @property
    def number(self) -> Fraction:
        """The number in the unit shown."""
        return self.in_unit(self.shown)

    @property
    def mm(self) -> Fraction:
        """Length in millimetres. ValueError for anything but a length."""
        if self.kind is not Kind.LENGTH:
            raise ValueError(f"{self.kind.name} is not a length")
        return self.value * 1000

    @property
    def hours(self) -> Fraction:
        """Time in hours. ValueError for anything but a time."""
        if self.kind is not Kind.TIME:
            raise ValueError(f"{self.kind.name} is not a time")
        return self.value / 3600

    def shown_in(self, unit: Unit) -> Quantity:
        """The same quantity, printed in another unit of its kind."""
        if unit.kind is not self.kind:
            raise ValueError(f"{self.kind.name} cannot be shown in {unit.symbol}")
        return Quantity(self.value, self.kind, unit, self.why)
