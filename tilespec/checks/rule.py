"""What a rule of fitness is, what it looks at, and what it finds."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import TypeVar, cast

from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.model import Diagnostic, Fix, Label, Severity
from tilespec.job.types import Job, Room, Surface, Tile
from tilespec.practice.lookup import Practice, Word, entries
from tilespec.quantity import UNITS, Given, Kind, Limit, Quantity, Worked
from tilespec.quantity.typed import typed
from tilespec.quantity.work import worded
from tilespec.sequence.types import Sequence
from tilespec.setout.said import Stated, stated
from tilespec.source import Span
from tilespec.takeoff.types import TakeOff

T = TypeVar("T")

_CUSTOMARY = ("in", "ft", "yd")

INJURY, WATERPROOFING, QUALITY = "injury", "waterproofing", "quality"


@dataclass(frozen=True)
class Context:
    """What rules look at. The take-off and the sequence are missing while somebody types: rules that need them then wait.

    one_of_several   the job is one room of a job with several, looked at alone
    """

    job: Job
    practice: Practice
    takeoff: TakeOff | None = None
    sequence: Sequence | None = None
    one_of_several: bool = False

    @property
    def several(self) -> bool:
        return self.one_of_several or len(self.job.rooms) > 1

    @cached_property
    def starts(self) -> tuple[Stated, ...]:
        """Every start of a set-out that the spec states."""
        return tuple(stated(self.job, self.practice))

    @cached_property
    def _made(self) -> dict[str, object]:
        return {}

    def once(self, what: str, make: Callable[[Context], T]) -> T:
        """What several rules look at: made by the first of them."""
        if what not in self._made:
            self._made[what] = make(self)
        return cast(T, self._made[what])

    def room(self, surface: Surface) -> Room:
        return self._rooms[surface.room]

    @cached_property
    def _rooms(self) -> dict[str, Room]:
        return {r.name: r for r in self.job.rooms}

    def name(self, surface: Surface) -> str:
        """The surface in words; with its room where there are several."""
        title = "the floor" if surface.kind == "floor" else f"wall {surface.letter}"
        return f"{title} in {surface.room}" if self.several else title

    def span(self, *spans: Span | None) -> Span:
        """The first place that is known; else the start of the spec."""
        return next((s for s in spans if s is not None), Span(self.job.files[0] if self.job.files else "", 0, 0))

    def where(self, surface: Surface) -> Span:
        return self.span(surface.span, self.room(surface).span)


def said_at(q: Quantity | None) -> Span | None:
    """Where a quantity was written, if it was."""
    return q.why.span if q is not None and isinstance(q.why, Given) else None


def cited(limit: Quantity | Word) -> str:
    """The limit for a note: what it limits, its document, whose it is, and how far it can be trusted."""
    why = limit.why
    value = limit.text if isinstance(limit, Word) else both(limit)
    if not isinstance(why, Limit):
        return f"Limit: {value}, the firm's own."
    what = entries(why.family)[why.key].what
    note = f"; {noted(why.note)}" if why.note else ""
    return f"Limit: {what[:1].lower()}{what[1:]}, {value} ({owner(why)}): {why.source}{note}."


def owner(why: Limit) -> str:
    """Whose limit it is."""
    return why.family if why.family == why.asked or why.family == "common" else f"{why.family}, which {why.asked} borrows"


def both(q: Quantity) -> str:
    """As typed; a length that a family borrows from one with another tape reads in its own unit, with the limit's behind it."""
    if not isinstance(q.why, Limit) or q.kind is not Kind.LENGTH:
        return typed(q)
    own = _own(q, q.why.asked)
    return typed(q) if own.shown is q.shown else f"{typed(own)} ({typed(q)})"


def local(context: Context, q: Quantity) -> str:
    """A length that was worked out, in the unit that the family measures in."""
    return typed(_own(q, context.practice.family) if q.kind is Kind.LENGTH else q)


def _own(q: Quantity, family: str) -> Quantity:
    """The length in a unit of the family's tape; what no mark of it shows stays as it is."""
    customary = q.shown.symbol in _CUSTOMARY
    if family == "US":
        return q if customary else _inches(q)
    if not customary:
        return q
    unit = UNITS["mm" if q.shown.symbol == "in" else "m"]
    step = Fraction(1, 100) if unit.symbol == "m" else Fraction(1, 1000) if q.value * 20 >= 1 else Fraction(1, 10000)
    return Quantity(round(q.value / step) * step or q.value, q.kind, unit, q.why)


def _inches(q: Quantity) -> Quantity:
    """To the sixteenth, as it is read off a tape, a limit to half of that.

    A limit that this would bend takes decimals, and one of the room's length feet; what would vanish stays as it is.
    """
    inch = UNITS["in"]
    if not isinstance(q.why, Limit):
        near = Fraction(round(q.value / inch.factor * 16), 16) * inch.factor
        return Quantity(near or q.value, q.kind, inch, q.why)
    if q.value > 10 * UNITS["ft"].factor:
        near = Fraction(round(q.value / UNITS["ft"].factor * 10), 10) * UNITS["ft"].factor
        return Quantity(near, q.kind, UNITS["ft"], q.why)
    for parts in (32, 100):
        near = Fraction(round(q.value / inch.factor * parts), parts) * inch.factor
        if abs(near - q.value) * 10 <= q.value:
            return Quantity(near, q.kind, inch, q.why)
    return q


def noted(note: str) -> str:
    """The note of a limit as one reads it: what is to be checked is not confirmed yet."""
    return re.sub(r"^check\b", "to be confirmed", note)


def reckoned(name: str, q: Quantity, context: Context | None = None) -> str:
    """How a quantity was worked out, with what went in: for a note. With a context, lengths are in the family's unit."""

    def shown(part: Quantity) -> str:
        return both(part) if isinstance(part.why, Limit) or context is None else local(context, part)

    if not isinstance(q.why, Worked):
        return f"{name}: {shown(q)}."
    return f"{name}: {worded(q.why.formula)}, with {', '.join(f'{n} {shown(i)}' for n, i in q.why.inputs)}."


def upper(text: str) -> str:
    """The text as the start of a sentence."""
    return text[:1].upper() + text[1:]


def called(tile: Tile) -> str:
    """The tile by its name, or as the only one there is."""
    return f"tile {tile.name}" if tile.named else "the tile"


@dataclass(frozen=True, slots=True)
class Finding:
    """A diagnostic and the places it is about: surface ids or room names; a deviation silences it only if it covers all."""

    diagnostic: Diagnostic
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of fitness: one file in this folder.

    guards       "injury", "waterproofing" or "quality": only what guards quality can be deviated from, with a reason
    needs        "job", "takeoff" or "sequence": the last stage it looks at
    explanation  the docstring of its file
    bad, good    a short spec that has the fault, and the nearest one that has not
    limits       keys of the practice data that it rests on: `explain` shows them by family, with their sources
    whole        it looks at several rooms together, or at what is said of the job besides conditions, records and deliveries: an
                 editor then cannot look at the changed room alone
    """

    code: str
    name: str
    severity: Severity
    title: str
    guards: str
    needs: str
    explanation: str | None
    find: Callable[[Context], Iterable[Finding]] = field(compare=False)
    bad: str
    good: str
    limits: tuple[str, ...] = ()
    whole: bool = False

    @property
    def entry(self) -> Entry:
        return Entry(self.code, self.name, self.severity, self.title, (self.explanation or "").strip(), self.bad, self.good)

    def at(
        self,
        places: tuple[str, ...],
        span: Span,
        message: str,
        *,
        label: str = "",
        help: str = "",
        fixes: tuple[Fix, ...] = (),
        notes: tuple[str, ...] = (),
        secondary: tuple[Label, ...] = (),
    ) -> Finding:
        elsewhere = tuple(s for s in secondary if s.span != span)
        return Finding(self.entry.at(span, upper(message), label, help, fixes, notes, elsewhere), places)
