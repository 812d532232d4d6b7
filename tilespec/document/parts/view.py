"""The job and what follows from it, seen as things that can be printed."""

from __future__ import annotations

from collections.abc import Iterable
from collections.abc import Sequence as Seq
from datetime import date, datetime
from functools import cached_property

from tilespec.checks import RULES
from tilespec.checks.deviation import UNUSED
from tilespec.checks.deviation import named as named_rule
from tilespec.checks.register import steps_of
from tilespec.diagnostics.model import Diagnostic
from tilespec.document.model import Area, DeviationRow, Named, ProductCard, TileCard, WaitRule, Where
from tilespec.document.text import Moment, Ref, Said, date_ref, time_ref
from tilespec.document.trace import file_letters
from tilespec.job.types import Job, Product, Rect, Tile, Words
from tilespec.practice.lookup import Practice
from tilespec.programme.types import Programme
from tilespec.quantity import Quantity
from tilespec.sequence.types import Sequence
from tilespec.setout.types import OffcutPlan, SetOut
from tilespec.source import Source, Span
from tilespec.takeoff.types import SurfaceMeasure, TakeOff


class View:
    """Look-ups over all stages; holds nothing that is not in them."""

    def __init__(
        self,
        job: Job,
        practice: Practice,
        setout: SetOut,
        offcuts: tuple[OffcutPlan, ...],
        takeoff: TakeOff,
        sequence: Sequence,
        programme: Programme,
        diagnostics: tuple[Diagnostic, ...],
        sources: tuple[Source, ...],
    ) -> None:
        self.job, self.practice, self.setout, self.offcuts, self.takeoff = job, practice, setout, offcuts, takeoff
        self.sequence, self.programme = sequence, programme
        self.diagnostics, self.sources = diagnostics, sources
        self._titles = {s.id: s.title for s in job.surfaces}
        self._rooms = {s.id: s.room for s in job.surfaces}
        self._numbers = {op.id: Ref(str(i), "step") for i, op in enumerate(sequence.operations, 1)}
        self._products: dict[int, tuple[Product, ProductCard]] = {}
        self._tiles: dict[int, tuple[Tile, TileCard]] = {}
        self._letters = file_letters(sources)
        self._by_name = {s.name: s for s in sources}
        self._measures = {m.place: m for m in takeoff.surfaces}
        self._days = {d.on: d.number for d in programme.days}
        self.hazard_letters = {h.key: Ref(_small_letter(i), "letter") for i, h in enumerate(sequence.hazards)}

    # ------------------------------------------------------------ places

    def place(self, id: str) -> Said:
        """A surface as printed, with its room where there are several; a room, or the job, by its name."""
        title = self._titles.get(id)
        if title is None:
            return Said(id)
        return Said(title if len(self.job.rooms) == 1 else f"{self._rooms[id]}, {title}")

    def short_place(self, id: str) -> Said:
        """A surface without what is in it: `wall A`; with its room where there are several."""
        title = self._titles.get(id)
        if title is None:
            return Said(id)
        short = title.partition(",")[0]
        return Said(short if len(self.job.rooms) == 1 else f"{self._rooms[id]} {short}")

    def places(self, ids: Iterable[str]) -> tuple[Said, ...]:
        return tuple(dict.fromkeys(self.place(id) for id in ids))

    def where(self, ids: Iterable[str]) -> tuple[Where, ...]:
        """Places, room by room, short enough for one line."""
        wanted = tuple(dict.fromkeys(ids))
        if len(wanted) == 1:
            return (Where(self.place(wanted[0]), None, False, ()),)
        single = len(self.job.rooms) == 1
        result = []
        for room in self.job.rooms:
            here = [s for s in room.surfaces if s.id in wanted]
            if here or room.name in wanted:
                walls = tuple(Ref(s.letter, "letter") for s in here if s.kind == "wall")
                name = None if single and here else Said(room.name)
                result.append(Where(None, name, any(s.kind == "floor" for s in here), walls))
        return tuple(result)

    def measure(self, place: str) -> SurfaceMeasure | None:
        return self._measures.get(place)

    # ------------------------------------------------------------ steps and time

    def number(self, operation: str) -> Ref:
        return self._numbers[operation]

    def has_step(self, operation: str) -> bool:
        return operation in self._numbers

    def moment(self, at: datetime) -> Moment:
        return Moment(Ref(str(self._day(at.date())), "step"), date_ref(at.date()) if self.programme.dated else None, time_ref(at))

    def _day(self, on: date) -> int:
        """The working day, or the next one for a moment between two of them."""
        if (number := self._days.get(on)) is not None:
            return number
        later = [number for day, number in self._days.items() if day > on]
        return min(later) if later else max(self._days.values(), default=0) + 1

    def starts(self, operation: str) -> Moment | None:
        return next((self.moment(s.start) for d in self.programme.days for s in d.slots if s.operation == operation), None)

    def ends(self, operation: str) -> Moment | None:
        return next(
            (self.moment(s.end) for d in self.programme.days for s in d.slots if s.operation == operation and s.last), None
        )

    # ------------------------------------------------------------ deviations

    @cached_property
    def deviations(self) -> tuple[tuple[DeviationRow, tuple[str, ...]], ...]:
        """Each with the ids of the steps at which it is told: none where it silences nothing."""
        idle = {d.primary.span for d in self.diagnostics if d.name == UNUSED.name}
        rows = []
        for d in self.job.deviations:
            rule = named_rule(d, RULES)
            steps = () if rule is None or d.rule.span in idle else tuple(op.id for op in steps_of(d, rule, self.sequence))
            title = Ref(rule.title, "source") if rule is not None else None
            row = DeviationRow(
                Ref(d.rule.text, "code"), self.place(d.place), Said(d.reason.text), self.line(d.span), title,
                tuple(self.number(id) for id in steps),
            )
            rows.append((row, steps))
        return tuple(rows)

    # ------------------------------------------------------------ products and tiles

    def product(self, p: Product) -> ProductCard:
        known = self._products.get(id(p))
        if known is None:
            known = self._products[id(p)] = (p, product_card(p))
        return known[1]

    def tile(self, t: Tile) -> TileCard:
        known = self._tiles.get(id(t))
        if known is None:
            known = self._tiles[id(t)] = (t, _tile(t))
        return known[1]

    # ------------------------------------------------------------ places in the texts

    def line(self, span: Span | None) -> Ref | None:
        """The mark of the line that a span starts on; None where there is no such text."""
        if span is None or span.file not in self._by_name:
            return None
        line, _ = self._by_name[span.file].line_column(span.start)
        return Ref(f"L{self._letters[span.file]}{line}", "mark")


def said(words: Words | None) -> Said | None:
    return Said(words.text) if words is not None else None


def area(rect: Rect | None) -> Area | None:
    return Area(rect.x, rect.y, rect.width, rect.height) if rect is not None else None


def named(values: Seq[tuple[str, Quantity]]) -> tuple[Named, ...]:
    return tuple(Named(name, q) for name, q in values)


def _small_letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else _small_letter(index // 26 - 1) + _small_letter(index % 26)


def product_card(p: Product) -> ProductCard:
    return ProductCard(
        p.kind,
        Said(p.name),
        Ref(" ".join(p.cls), "class"),
        p.generic,
        p.flags,
        Said(p.colour) if p.colour else None,
        p.pack,
        p.consumption,
        p.density,
        p.water,
        p.maturing,
        p.pot_life,
        p.open_time,
        p.coats,
        p.film,
        p.notch,
        p.width,
        p.temperature_min,
        p.temperature_max,
        p.movement,
        p.output,
        p.voltage,
        p.resistance,
        p.carries,
        p.packed.isoformat() if p.packed else None,
        p.keeps,
        p.height,
        p.thick[0] if p.thick else None,
        p.thick[1] if p.thick else None,
        tuple(WaitRule(w.before, w.minimum, w.maximum, said(w.overrun)) for w in p.waits),
        said(p.note),
    )


def _tile(t: Tile) -> TileCard:
    return TileCard(
        Said(t.name),
        t.named,
        t.width,
        t.height,
        t.thickness,
        t.body,
        t.mosaic,
        t.rectified,
        t.translucent,
        t.stone,
        t.porous,
        t.orientation,
        t.weight,
        t.box,
        Ref(t.barefoot, "class") if t.barefoot else None,
        Ref(t.slip, "class") if t.slip else None,
        t.dcof,
        t.pendulum,
    )
