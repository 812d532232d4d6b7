"""What is compared, and what a comparison returns."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

from tilespec.diagnostics.model import Diagnostic, Severity
from tilespec.job.types import Job
from tilespec.programme.types import Programme
from tilespec.quantity import Quantity
from tilespec.sequence.types import Operation, Sequence
from tilespec.setout.types import SetOut
from tilespec.takeoff.types import TakeOff

# What can be said of a thing. A text is words of the spec or of ours: never markup.
Value = Quantity | str | date | datetime

Titled = Callable[[Operation, Iterable[str]], str]
"""How the print calls a step, at places that are called so."""


@dataclass(frozen=True, slots=True)
class Stages:
    """A sound job with all that follows from it."""

    job: Job
    setout: SetOut
    takeoff: TakeOff
    sequence: Sequence
    programme: Programme


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two that are compared. `stages` is None where nothing follows: the spec has errors or holds stock only."""

    name: str
    stages: Stages | None
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Renamed:
    """Names of tiles, and of products with their kind, on the old side, and what they are on the new one."""

    tiles: Mapping[str, str] = field(default_factory=dict)
    products: Mapping[tuple[str, str], str] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.tiles or self.products)


@dataclass(frozen=True, slots=True)
class Fact:
    what: str
    value: Value


@dataclass(frozen=True, slots=True)
class Came:
    """There is something that was not there. `about`: from the room down to the thing itself."""

    about: tuple[str, ...]
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Gone:
    about: tuple[str, ...]
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Changed:
    """Something said of a thing that is on both sides; None where one side does not say it.

    difference  new less old, where both are quantities of a kind, or dates
    """

    about: tuple[str, ...]
    what: str
    old: Value | None
    new: Value | None
    difference: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Moved:
    """A step that is done at another point of the work. Each side: the step before it, "" where it is the first."""

    about: tuple[str, ...]
    old: str
    new: str


Change = Came | Gone | Changed | Moved


@dataclass(frozen=True, slots=True)
class Told:
    """A diagnostic that only one side has: `new` on the new side, else it is cleared."""

    new: bool
    severity: Severity
    code: str
    name: str
    message: str


@dataclass(frozen=True, slots=True)
class Part:
    """The changes of one subject. key: the name of the field of `Comparison`."""

    key: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """What changed from one spec to another, as the job: how they are written makes no difference.

    old, new   names of the two
    family     practice family in which quantities are shown: that of the new one
    unsound    sides from which nothing follows, "old" or "new": then only diagnostics are compared
    """

    old: str
    new: str
    family: str
    unsound: tuple[str, ...] = ()
    job: tuple[Change, ...] = ()            # title, dates, crew, hours, conditions
    rooms: tuple[Change, ...] = ()          # sizes, openings, what is built in
    bases: tuple[Change, ...] = ()
    tiling: tuple[Change, ...] = ()         # which tile is laid where and how; products of each surface
    tiles: tuple[Change, ...] = ()
    products: tuple[Change, ...] = ()
    set_out: tuple[Change, ...] = ()        # starts, full and cut tiles
    quantities: tuple[Change, ...] = ()     # what is to be ordered
    working: tuple[Change, ...] = ()        # mixes, trowels, heating
    steps: tuple[Change, ...] = ()
    programme: tuple[Change, ...] = ()      # hours, days, finish
    points: tuple[Change, ...] = ()         # hold and witness points
    deviations: tuple[Change, ...] = ()
    records: tuple[Change, ...] = ()
    questions: tuple[Change, ...] = ()
    diagnostics: tuple[Told, ...] = ()

    @property
    def parts(self) -> Iterator[Part]:
        """The subjects in their order, those without a change left out."""
        for part in (
            Part("job", self.job), Part("rooms", self.rooms), Part("bases", self.bases), Part("tiling", self.tiling),
            Part("tiles", self.tiles), Part("products", self.products), Part("set_out", self.set_out),
            Part("quantities", self.quantities), Part("working", self.working), Part("steps", self.steps),
            Part("programme", self.programme), Part("points", self.points), Part("deviations", self.deviations),
            Part("records", self.records), Part("questions", self.questions),
        ):
            if part.changes:
                yield part

    @property
    def same(self) -> bool:
        """Nothing changed in the job. Of a spec with errors that cannot be said."""
        return not self.unsound and not self.diagnostics and not any(True for _ in self.parts)
