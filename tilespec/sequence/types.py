"""What the sequence returns: operations, what each waits for, and the points where work stops."""

from __future__ import annotations

from dataclasses import dataclass, field

from tilespec.job.types import Product, Words
from tilespec.quantity import Quantity
from tilespec.source import Span


@dataclass(frozen=True, slots=True)
class Wait:
    """Time that must pass after the predecessor ends.

    why       wording key: "primer-dry", "between-coats", "membrane-cure", "adhesive-set", "grout-cure", "sealant-cure" ...
    maximum   not later than this, where the product has a limit; `overrun` is a wording key or the maker's own words
    """

    minimum: Quantity
    why: str
    maximum: Quantity | None = None
    overrun: Words | str | None = None
    product: Product | None = None


@dataclass(frozen=True, slots=True)
class Link:
    """This operation comes after `operation`."""

    operation: str
    wait: Wait | None = None


@dataclass(frozen=True, slots=True)
class Test:
    """One thing checked at a hold or witness point.

    what      wording key ("flatness", "moisture", "membrane-thickness", "insulation-resistance" ...)
    limit     acceptance limit with its source; None: looked at
    compare   "at most", "at least", "between", "none"
    places    surfaces that it is done on; empty: wherever the operation is
    """

    what: str
    limit: Quantity | None = None
    upper: Quantity | None = None
    compare: str = "none"
    recorded: Quantity | None = None    # a reading already in the spec
    recorded_by: Words | None = None
    places: tuple[str, ...] = ()
    values: tuple[tuple[str, Quantity], ...] = ()   # what the limit holds for, for the wording

    def value(self, name: str) -> Quantity | None:
        return dict(self.values).get(name)


@dataclass(frozen=True, slots=True)
class Point:
    """A hold point (work stops until it is released) or a witness point (others are told and may attend)."""

    kind: str                           # "hold" or "witness"
    releases: str                       # "tiler", "site manager", "client", "licensed electrician", "licensed plumber",
                                        # "asbestos surveyor", "lead assessor"
    tests: tuple[Test, ...]
    signed: Words | None = None         # already signed, by a record in the spec


@dataclass(frozen=True, slots=True)
class Lift:
    """One load of the job under the revised NIOSH lifting equation."""

    what: str                           # wording key: "bag", "tile-box", "single-tile"
    name: str                           # product or tile
    load: Quantity
    limit: Quantity                     # recommended weight limit
    index: Quantity                     # load / limit
    measure: str                        # wording key: "alone", "two-people", "three-people" (each also with "-cups"),
                                        # "frame", "split-or-aid"


@dataclass(frozen=True, slots=True)
class Operation:
    """One step of the work.

    kind      wording key: "prime", "membrane-first-coat", "wall-tiles" ...; templates hold what, how and how to check
    stage     coarse stage, in the order of the sequence: see sequence.stages.STAGES
    places    surface ids, or room names for work on a whole room
    values    named quantities that the wording uses
    facts     plain wording keys that switch sentences on ("back-butter", "solid-bed", "two-colours")
    labour    work content in person-time (Quantity of TIME), worked from a rate
    loads     what is lifted here and is too much for one person
    """

    id: str
    kind: str
    stage: str
    room: str | None
    places: tuple[str, ...]
    after: tuple[Link, ...]
    trade: str = "tiler"
    products: tuple[Product, ...] = ()
    values: tuple[tuple[str, Quantity], ...] = ()
    facts: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    point: Point | None = None
    labour: Quantity | None = None
    title: Words | None = None          # for steps written in the spec
    span: Span | None = field(default=None, compare=False)
    loads: tuple[Lift, ...] = ()

    def value(self, name: str) -> Quantity | None:
        return dict(self.values).get(name)


@dataclass(frozen=True, slots=True)
class Hazard:
    """A hazard of this job: said once, marked at the steps.

    key       wording key; `values` are limits its wording uses
    licensed  trade that alone may do part of it, or ""
    """

    key: str
    operations: tuple[str, ...]
    values: tuple[tuple[str, Quantity], ...] = ()
    licensed: str = ""


@dataclass(frozen=True, slots=True)
class Dust:
    """One kind of dusty work by one method, all of it done by one worker.

    work        wording key: "snapped-cuts", "sawn-cuts", "shaped-cuts", "holes", "mixing", "break-out"; "all-cuts" in comparisons
    method      as `Cutter`, or "wet-core", "mixing", "break-out"
    low, high   what it adds to the eight-hour value of silica; None: no figure was seen
    respirator  protection factor by the family's table, nought where it asks for none; None: the family has no row for it
    """

    work: str
    method: str
    outdoors: bool
    time: Quantity
    a_day: Quantity
    low: Quantity | None = None
    high: Quantity | None = None
    respirator: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Exposure:
    """Silica dust by way of working: for comparing methods, never a promise.

    planned     as the job is cut; instead: all its cuts by methods with figures
    low, high   of what is planned and has a figure, together
    table_hours hours a shift above which the family's table asks for more; None: it has no table
    by_area     cuts are reckoned from areas, not from a set-out
    """

    planned: tuple[Dust, ...]
    instead: tuple[Dust, ...]
    limit: Quantity
    action: Quantity | None
    low: Quantity | None
    high: Quantity | None
    table_hours: Quantity | None
    by_area: bool


@dataclass(frozen=True, slots=True)
class Thrown:
    """Empty packs of one kind to take away. what: wording key "bag", "bucket", "can", "cartridge", "box" ...

    hazardous   of resins, solvents and what else must not go with rubble
    """

    what: str
    packs: Quantity
    hazardous: bool


@dataclass(frozen=True, slots=True)
class Waste:
    """What is left over: packs, solids of the wet saw's slurry, and the water that carries them."""

    thrown: tuple[Thrown, ...]
    slurry: Quantity | None
    water: Quantity | None


@dataclass(frozen=True, slots=True)
class StepFault:
    """A step written in the spec that cannot stand where it was put.

    kind     "cycle": it would have to come after itself; "unknown-stage": no stage is called that
    step     title of the step
    words    what the spec says, such as the stage's name
    chain    cycle: titles of the step and stage names of the operations, in the order in which each waits for the next
    nearest  unknown stage: the nearest known one, or None
    """

    kind: str
    step: Words
    words: Words
    chain: tuple[str, ...] = ()
    nearest: str | None = None


@dataclass(frozen=True, slots=True)
class Sequence:
    operations: tuple[Operation, ...]   # in working order: a topological order of `after`
    hazards: tuple[Hazard, ...]
    lifts: tuple[Lift, ...]
    faults: tuple[StepFault, ...] = ()
    exposure: Exposure | None = None
    waste: Waste | None = None

    def operation(self, id: str) -> Operation:
        return next(o for o in self.operations if o.id == id)
