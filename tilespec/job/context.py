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
from tilespec.quantity.read import Reading, read
from tilespec.quantity.unit import Unit, units_of
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.syntax.words import ATTRIBUTES
from tilespec.vocabulary import elsewhere

# Units that people mix up, in the order in which a slip is guessed.
_SLIPS = {
    Kind.LENGTH: ("mm", "cm", "m", "in", "ft"),
    Kind.TEMPERATURE: ("C", "F"),
    Kind.TIME: ("min", "h", "d"),
    Kind.MASS: ("kg", "g", "lb"),
}
_METRIC = ("mm", "cm", "m")
# What is said of a statement only where all of it could be read.
# One wrong name is one mistake, in however many places it is used.
_NAMES = ("unknown-tile", "unknown-product", "unknown-room")
_PLACES_SHOWN = 3
_DOUBTED = (
    "missing-detail", "no-tile", "said-twice", "misplaced-attribute", "place-needed", "unknown-description", "outside-surface",
    "openings-overlap", "tile-larger-than-surface",
)
# What to do about a number of one kind where one of another is needed.
_INSTEAD = {
    (Kind.MASS, Kind.MASS_PER_AREA): "Divide it by the area that it covers and write kg/m2 or lb/ft2, for example `20 kg/m2`.",
    (Kind.VOLUME, Kind.WATER_RATE): "Divide it by the weight of the bag: 6.5 L for 25 kg is `0.26 L/kg`.",
}


@dataclass(slots=True)
class Context:
    """Grows while the job is built; nothing of it outlives the building but its two lists."""

    practice: Practice
    sizes_in_mm: bool = False
    # Names whose declaration could not be read: what names them is no second mistake.
    lost: set[str] = field(default_factory=set)
    # Statements of which a part could not be read: what they seem to lack may stand in that part.
    doubtful: list[Span] = field(default_factory=list)
    # A statement that could not be read at all: it may be the floor, wall or room that seems to be missing.
    unread: bool = False
    diagnostics: list[Diagnostic] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)
    # What is asked of what, so that nothing is asked twice.
    asked: set[tuple[str, str]] = field(default_factory=set)
    # Something depends on which names are lost.
    asked_lost: bool = False

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
        sure: bool = False,
    ) -> None:
        """Say what is wrong. `sure`: also where a part of the statement could not be read, as it cannot be why."""
        if not sure and name in _DOUBTED and any(d.file == span.file and d.start <= span.start < d.end for d in self.doubtful):
            return
        self._add(problem(name, span, message, label, help, fixes, notes, secondary))

    def _add(self, found: Diagnostic) -> None:
        if found.name in _NAMES:
            for n, before in enumerate(self.diagnostics):
                if (before.name, before.message) == (found.name, found.message):
                    self.diagnostics[n] = _again(before, found)
                    return
        self.diagnostics.append(found)

    def doubts(self, statements: tuple[Statement, ...]) -> tuple[Span, ...]:
        """Which of the doubtful statements these are."""
        if not self.doubtful:
            return ()
        bases = {(st.file, st.base) for st in statements}
        return tuple(d for d in self.doubtful if (d.file, d.start) in bases)

    def apart(self, doubtful: tuple[Span, ...], unread: bool) -> Context:
        """A context for a part of the job, that knows of this one what concerns it: what comes of it may be kept, and taken up
        again."""
        return Context(self.practice, self.sizes_in_mm, set(self.lost), list(doubtful), unread)

    def take(self, part: Context) -> None:
        """Add what was found in a part of the job. What is lost in one part is lost there only."""
        if part.doubtful:
            self.doubtful += [d for d in part.doubtful if d not in self.doubtful]
        for found in part.diagnostics:
            self._add(found)
        if part.questions:
            self.questions += [q for q in part.questions if (q.topic, q.about) not in self.asked]
            self.asked.update((q.topic, q.about) for q in part.questions)

    def is_lost(self, name: str) -> bool:
        """Whether the declaration of a name could not be read."""
        self.asked_lost = True
        return name in self.lost

    @property
    def any_lost(self) -> bool:
        self.asked_lost = True
        return bool(self.lost)

    def doubt(self, st: Statement) -> None:
        """A part of this statement could not be read, and is reported."""
        self.doubtful.append(Span(st.file, st.base, st.base + st.end))

    def write(self, span: Span, text: str) -> tuple[Fix, ...]:
        """The fix that puts `text` there."""
        return (Fix(f"write {text}", (Edit(span, text),)),)

    def unknown(self, name: str, span: Span, message: str, word: str, known: tuple[str, ...], listed: str = "") -> None:
        """A word that is not known, with the nearest that is, or else all that could stand there."""
        if name in _NAMES and self.is_lost(word):
            return
        near = nearest(word, known)
        if near:
            self.report(name, span, message, help=f"Did you mean `{near}`?", fixes=self.write(span, near))
        else:
            self.report(name, span, message, help=listed or "It can be: " + ", ".join(dict.fromkeys(known)) + ".")

    def unknown_wall(self, span: Span, message: str, letter: str, walls: tuple[str, ...], listed: str = "") -> None:
        """A wall that is not there. Letters are no slips of each other: only the small letter is mended."""
        if letter.upper() in walls:
            right = letter.upper()
            self.report("unknown-wall", span, message, help=f"Write `{right}`.", fixes=self.write(span, right))
        else:
            self.report("unknown-wall", span, message, help=listed or "Its walls are " + ", ".join(walls) + ".")

    # ------------------------------------------------------------ reading

    def described(
        self, st: Statement, atoms: tuple[Atom, ...], known: tuple[str, ...], what: str, listed: str = ""
    ) -> tuple[Atom, ...]:
        """The words of a description that are known.

        An attribute whose own word is misspelt reads as a description, with what it says behind it: one mistake, not two.
        """
        found: list[Atom] = []
        for a in atoms:
            if a.text.lower() in known:
                found.append(a)
                continue
            span = st.span(a)
            if there := elsewhere(a.text):
                self.report("unknown-description", span, f"`{a.text}` does not describe {what}.", help=there)
                continue
            word = nearest(a.text, ATTRIBUTES) if len(a.text) > 2 and not nearest(a.text, known) else None
            if word and a is not atoms[-1]:
                self.report(
                    "unknown-word",
                    span,
                    f"`{a.text}` is not a word that can stand here.",
                    help=f"Did you mean `{word}`?",
                    fixes=self.write(span, word),
                )
                break
            self.unknown("unknown-description", span, f"`{a.text}` does not describe {what}.", a.text, known, listed)
        return tuple(found)

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
            self.report(
                "wrong-unit",
                span,
                f"`{atom.text}` is {_a(_said(written))}, but {_needed(slot)}.",
                label=f"{_said(written)} here",
                help=_instead(reading.number, written, slot),
                fixes=self.write(span, f"{_plain(reading.number)} min") if _minutes(reading.number, written, slot) else (),
            )
            return None
        u = written or slot.unit
        value = reading.number * u.factor + u.offset
        if not slot.low <= value <= slot.high:
            self._implausible(atom, span, slot, reading.number, u, value)
            return None
        return Quantity(value, u.kind, u, Given(span))

    def _implausible(self, atom: Atom, span: Span, slot: Slot, number: Fraction, u: Unit, value: Fraction) -> None:
        guess = next(iter(_guesses(slot, u, (number,))), None)
        shown = _shown(number, u)
        which = "more" if value > slot.high else "less"
        bound = _shown(((slot.high if value > slot.high else slot.low) - u.offset) / u.factor, u)
        limit = f"at {'most' if value > slot.high else 'least'} {bound}"
        if guess:
            text = f"{_plain(number)} {guess}"
            self.report(
                "implausible-value",
                span,
                f"{shown} is {which} than {slot.words} can be ({limit}). Is it {text}?",
                label=f"read as {shown}",
                help=f"Write `{text}` if that is meant." + self._throughout(slot, guess),
                fixes=self.write(span, text),
            )
        else:
            low, high = (_shown((b - u.offset) / u.factor, u) for b in (slot.low, slot.high))
            self.report(
                "implausible-value",
                span,
                f"{shown} is {which} than {slot.words} can be ({limit}).",
                label=f"read as {shown}",
                help=f"Write a value from {low} to {high}.",
            )

    def _throughout(self, slot: Slot, guess: str) -> str:
        if slot.room and guess == "mm" and not self.sizes_in_mm:
            return " `sizes in mm` in the job statement makes that hold for all room sizes."
        return ""

    def size(self, st: Statement, atoms: tuple[Atom, ...], key: str, third: str | None = None) -> tuple[Quantity | None, ...]:
        """Two or three sides; a unit written once serves the sides that have none. A slip of unit in all is one mistake."""
        sides = tuple(a for a in atoms if a.kind == "quantity")
        slots = [self.slot(third if n == 2 and third else key) for n in range(len(sides))]
        readings: list[Reading | None] = []
        for a in sides:
            try:
                readings.append(read(a.text))
            except ValueError:
                readings.append(None)
        numbers = [r.number for r in readings if r is not None and r.unit is None]
        if sides and len(numbers) == len(sides):
            values = [(n * s.unit.factor + s.unit.offset, s) for n, s in zip(numbers, slots, strict=True)]
            if any(not s.low <= v <= s.high for v, s in values):
                guesses = [set(_guesses(s, s.unit, (n,))) for n, s in zip(numbers, slots, strict=True)]
                common = [g for g in _guesses(slots[0], slots[0].unit, (numbers[0],)) if all(g in other for other in guesses)]
                if common:
                    self._size_implausible(st, sides, slots, numbers, common[0])
                    return (None,) * len(sides)
        units = [r.unit if r else None for r in readings]
        shared = next((u for u in reversed(units) if u), None)
        result = []
        for n, a in enumerate(sides):
            later = next((u for u in units[n:] if u), None) or shared
            result.append(self.number(st, a, third if n == 2 and third else key, later))
        return tuple(result)

    def _size_implausible(
        self, st: Statement, sides: tuple[Atom, ...], slots: list[Slot], numbers: list[Fraction], guess: str
    ) -> None:
        """All sides in one other unit make sense: one message, and the unit written once."""
        number, slot = next(
            (n, s) for n, s in zip(numbers, slots, strict=True) if not s.low <= n * s.unit.factor + s.unit.offset <= s.high
        )
        value = number * slot.unit.factor
        which, word, bound = ("more", "most", slot.high) if value > slot.high else ("less", "least", slot.low)
        span = st.span(sides[0]).to(st.span(sides[-1]))
        text = " x ".join(_plain(n) for n in numbers) + f" {guess}"
        limit = f"at {word} {_shown(bound / slot.unit.factor, slot.unit)}"
        self.report(
            "implausible-value",
            span,
            f"{_shown(number, slot.unit)} is {which} than {slot.words} can be ({limit}). Is it {text}?",
            label=f"read in {slot.unit.symbol}",
            help=f"Write `{text}` if that is meant." + self._throughout(slot, guess),
            fixes=self.write(span, text),
        )

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
        if (topic, about) not in self.asked:
            self.asked.add((topic, about))
            self.questions.append(Question(topic, about, ask, question, value, span))


def _again(first: Diagnostic, later: Diagnostic) -> Diagnostic:
    """The same wrong name in one more place: shown beside the first, and mended with it."""
    spans = [first.primary.span, *(label.span for label in first.secondary)]
    new = [s for s in (later.primary.span, *(label.span for label in later.secondary)) if s not in spans]
    if not new:
        return first
    spans = sorted((*spans, *new), key=lambda s: (s.file, s.start))
    fixes = tuple(
        replace(a, edits=(*a.edits, *b.edits)) if a.title == b.title else a
        for a, b in zip(first.fixes, later.fixes, strict=False)
    )
    shown = tuple(Label(span, "here too") for span in spans[1 : 1 + _PLACES_SHOWN])
    more = ("It stands in more places than are shown.",) if len(spans) > 1 + _PLACES_SHOWN else first.notes or later.notes
    return replace(first, primary=replace(first.primary, span=spans[0]), secondary=shown, notes=more, fixes=fixes)


def _same_family(written: Unit, slot: Slot) -> Unit | None:
    """A unit that is written short for the slot's own: `%` of moisture or humidity, `kg` of a bag for a pack."""
    if written.symbol == "%" and slot.kind in (Kind.MOISTURE, Kind.HUMIDITY):
        return slot.unit
    if written.symbol == "%" and slot.kind is Kind.SLOPE:
        return Unit("slope", Kind.SLOPE, Fraction(1, 100))
    if written.kind is Kind.COUNT and slot.kind is Kind.NUMBER:
        return slot.unit
    return None


def _guesses(slot: Slot, u: Unit, numbers: tuple[Fraction, ...]) -> tuple[str, ...]:
    """Other units in which the numbers would make sense in their slot, the likeliest first."""
    fits = [
        s for s in _SLIPS.get(u.kind, ())
        if s != u.symbol and all(slot.low <= n * UNITS[s].factor + UNITS[s].offset <= slot.high for n in numbers)
    ]
    if u.kind is Kind.LENGTH:
        fits.sort(key=lambda s: (s in _METRIC) != (u.symbol in _METRIC))
    return tuple(fits)


def _sign(u: Unit) -> str:
    return {"count": "", "year": "", "slope": "", "%RH": "%"}.get(u.symbol, u.symbol)


def _shown(number: Fraction, u: Unit) -> str:
    """A number as it would be typed in a unit."""
    if u.symbol == "slope":
        return f"1:{_plain(1 / number)}" if number else "no fall"
    return f"{_plain(number)} {_sign(u)}".strip()


def _said(u: Unit) -> str:
    return u.kind.words


def _a(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def _needed(slot: Slot) -> str:
    """What a slot takes, without saying that a time is a time."""
    kind = slot.kind.words
    if kind in slot.words:
        return f"{_a(kind)} is needed here"
    return f"{slot.words} is {_a(kind)}"


def _minutes(number: Fraction, written: Unit, slot: Slot) -> bool:
    return written.symbol == "m" and slot.kind is Kind.TIME and slot.low <= number * 60 <= slot.high


def _instead(number: Fraction, written: Unit, slot: Slot) -> str:
    if _minutes(number, written, slot):
        return f"`m` is metres. Minutes are written `{_plain(number)} min`."
    if (written.kind, slot.kind) in _INSTEAD:
        return _INSTEAD[written.kind, slot.kind]
    if slot.kind is Kind.SLOPE:
        return f"Write it {units_of(Kind.SLOPE)}."
    units = units_of(slot.kind)
    if not units:
        return "Write a plain number, without a unit."
    value = number * slot.unit.factor + slot.unit.offset
    example = f", for example `{_plain(number)} {_sign(slot.unit)}`" if slot.low <= value <= slot.high else ""
    return f"Write it in {units}{example}."


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
