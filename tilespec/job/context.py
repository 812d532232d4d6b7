"""What the builders of the job share while it is built: what was found wrong, what was assumed, how numbers are read."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction

from tilespec.diagnostics.catalogue import problem
from tilespec.diagnostics.model import Diagnostic, Edit, Fix, Label
from tilespec.diagnostics.suggest import nearest
from tilespec.job.slot import SLOTS, Slot
from tilespec.job.types import Question, Words
from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Default, Given, Kind, Limit, Quantity
from tilespec.quantity.read import read
from tilespec.quantity.unit import Unit
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement

# Units that people mix up, in the order in which a slip is guessed.
_SLIPS = ("mm", "cm", "m", "in", "ft")


@dataclass(slots=True)
class Context:
    """Grows while the job is built; nothing of it outlives the building but its two lists."""

    practice: Practice
    sizes_in_mm: bool = False
    diagnostics: list[Diagnostic] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)

    # ------------------------------------------------------------ saying what is wrong

    def report(
        self,
        name: str,
        span: Span,
        message: str,
        *,
        label: str = "",
        help: str = "",
        fixes: tuple[Fix, ...] = (),
        notes: tuple[str, ...] = (),
        secondary: tuple[Label, ...] = (),
    ) -> None:
        self.diagnostics.append(problem(name, span, message, label, help, fixes, notes, secondary))

    def write(self, span: Span, text: str) -> tuple[Fix, ...]:
        """The fix that puts `text` there."""
        return (Fix(f"write {text}", (Edit(span, text),)),)

    def unknown(self, name: str, span: Span, message: str, word: str, known: tuple[str, ...], listed: str = "") -> None:
        """A word that is not known, with the nearest that is, or else all that could stand there."""
        near = nearest(word, known)
        if near:
            self.report(name, span, message, help=f"Did you mean `{near}`?", fixes=self.write(span, near))
        else:
            self.report(name, span, message, help=listed or "It can be: " + ", ".join(dict.fromkeys(known)) + ".")

    # ------------------------------------------------------------ reading

    def words(self, st: Statement, atom: Atom) -> Words:
        return Words(atom.text, st.span(atom))

    def slot(self, key: str) -> Slot:
        slot = SLOTS[key]
        if slot.room and self.sizes_in_mm:
            return replace(slot, unit=UNITS["mm"])
        return slot

    def number(self, st: Statement, atom: Atom, key: str, unit: Unit | None = None) -> Quantity | None:
        """A quantity in a slot; what cannot be meant is reported and read as None.

        `unit` is the unit written with another side of the same size ("1200 x 900 mm").
        """
        slot = self.slot(key)
        span = st.span(atom)
        try:
            reading = read(atom.text)
        except ValueError:
            self.report(
                "bad-number",
                span,
                f"`{atom.text}` is not a number that can be read.",
                help="Write it as in `2.4` or `10 1/2 in`.",
            )
            return None
        written = reading.unit or unit
        if written is not None and written.kind is not slot.kind:
            written = _same_family(written, slot) or written
        if written is not None and written.kind is not slot.kind:
            example = f"{_plain(reading.number)} {slot.unit.symbol}".strip() if slot.kind is not Kind.SLOPE else "1:60"
            said = written.kind.words if written.symbol != "slope" else "fall"
            self.report(
                "wrong-unit",
                span,
                f"`{atom.text}` is a {said}, but {slot.words} is a {slot.kind.words}.",
                label=f"{said} here",
                help=f"Write it in {_units_of(slot.kind)}, for example `{example}`.",
            )
            return None
        u = written or slot.unit
        value = reading.number * u.factor + u.offset
        if not slot.low <= value <= slot.high:
            self._implausible(atom, span, slot, reading.number, u, value)
            return None
        return Quantity(value, u.kind, u, Given(span))

    def _implausible(self, atom: Atom, span: Span, slot: Slot, number: Fraction, u: Unit, value: Fraction) -> None:
        low, high = (_plain((bound - u.offset) / u.factor) for bound in (slot.low, slot.high))
        guess = None
        if u.kind is Kind.LENGTH:
            fits = [s for s in _SLIPS if s != u.symbol and slot.low <= number * UNITS[s].factor <= slot.high]
            metric = u.symbol in ("mm", "cm", "m")
            fits.sort(key=lambda s: (s in ("in", "ft")) == metric)
            guess = fits[0] if fits else None
        shown = f"{_plain(number)} {u.symbol if u.symbol not in ('count', 'year', 'slope') else ''}".strip()
        which = "more" if value > slot.high else "less"
        bound = high if value > slot.high else low
        unit_word = u.symbol if u.symbol not in ("count", "year", "slope") else ""
        limit = f"{bound} {unit_word}".strip()
        if guess:
            text = f"{_plain(number)} {guess}"
            self.report(
                "implausible-value",
                span,
                f"{shown} is {which} than {slot.words} can be ({limit}): {text}?",
                label=f"read as {shown}",
                help=f"Write `{text}` if that is meant.",
                fixes=self.write(span, text),
            )
        else:
            self.report(
                "implausible-value",
                span,
                f"{shown} is {which} than {slot.words} can be ({limit}).",
                label=f"read as {shown}",
                help=f"Write a value from {low} to {high} {unit_word}".rstrip() + ".",
            )

    def size(self, st: Statement, atoms: tuple[Atom, ...], key: str, third: str | None = None) -> tuple[Quantity | None, ...]:
        """Two or three sides; a unit written once serves the sides that have none."""
        sides = tuple(a for a in atoms if a.kind == "quantity")
        units: list[Unit | None] = []
        for a in sides:
            try:
                units.append(read(a.text).unit)
            except ValueError:
                units.append(None)
        shared = next((u for u in reversed(units) if u), None)
        result = []
        for n, a in enumerate(sides):
            slot = third if n == 2 and third else key
            later = next((u for u in units[n:] if u), None) or shared
            result.append(self.number(st, a, slot, later))
        return tuple(result)

    def day(self, st: Statement, atom: Atom) -> date | None:
        try:
            return date.fromisoformat(atom.text)
        except ValueError:
            self.report(
                "bad-date",
                st.span(atom),
                f"There is no day `{atom.text}`.",
                help="Write year-month-day, for example `2026-03-09`.",
            )
            return None

    # ------------------------------------------------------------ assuming

    def assume(self, key: str, topic: str, about: str, question: str, ask: str = "survey", span: Span | None = None) -> Quantity:
        """The practice's planning value in place of what the spec does not say: marked, and asked."""
        limit = self.practice.limit(key)
        basis = limit.why.source if isinstance(limit.why, Limit) else "the firm's own value"
        q = Quantity(limit.value, limit.kind, limit.shown, Default(question, basis, ask))
        self.ask(topic, about, question, ask, q, span)
        return q

    def ask(
        self, topic: str, about: str, question: str, ask: str = "survey", value: Quantity | None = None, span: Span | None = None
    ) -> None:
        if not any(q.topic == topic and q.about == about for q in self.questions):
            self.questions.append(Question(topic, about, ask, question, value, span))


def _same_family(written: Unit, slot: Slot) -> Unit | None:
    """A unit that is written short for the slot's own: `%` of moisture or humidity, `kg` of a bag for a pack."""
    if written.symbol == "%" and slot.kind in (Kind.MOISTURE, Kind.HUMIDITY):
        return slot.unit
    if written.symbol == "%" and slot.kind is Kind.SLOPE:
        return Unit("slope", Kind.SLOPE, Fraction(1, 100))
    if written.kind is Kind.COUNT and slot.kind is Kind.NUMBER:
        return slot.unit
    return None


def _units_of(kind: Kind) -> str:
    names = [u.symbol for u in UNITS.values() if u.kind is kind and u.symbol not in ("count", "year", "")]
    return ", ".join(names) if names else "a plain number"


def _plain(x: Fraction) -> str:
    text = f"{float(x):.4f}".rstrip("0").rstrip(".")
    return text or "0"


@dataclass(frozen=True, slots=True)
class Item:
    """Something of its own within a line (an opening, a base, a tile ...) with what is said about it."""

    opener: Attribute
    said: tuple[Attribute, ...]
    line: int

    @property
    def kind(self) -> str:
        return self.opener.kind

    def get(self, kind: str) -> Attribute | None:
        return next((a for a in self.said if a.kind == kind), None)

    def all(self, kind: str) -> tuple[Attribute, ...]:
        return tuple(a for a in self.said if a.kind == kind)


@dataclass(frozen=True, slots=True)
class Parts:
    """A statement taken apart: its own attributes, and its items."""

    own: tuple[Attribute, ...]
    items: tuple[Item, ...]

    def get(self, kind: str) -> Attribute | None:
        return next((a for a in self.own if a.kind == kind), None)

    def all(self, kind: str) -> tuple[Attribute, ...]:
        return tuple(a for a in self.own if a.kind == kind)

    def items_of(self, *kinds: str) -> tuple[Item, ...]:
        return tuple(i for i in self.items if i.kind in kinds)
