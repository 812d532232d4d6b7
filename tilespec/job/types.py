"""The typed, frozen job: what the spec says, resolved, with defaults applied and marked. Later stages only compute.

Coordinates
- Plan: origin at the corner where the first wall of the walk (A) starts; x runs along wall A to the right,
  y runs down the page, away from wall A. Walls run clockwise seen from above. Lengths in metres (exact).
- Wall: seen from inside the room; origin at its lower left corner at finished floor level; x to the right, y up.
- Floor surface: the plan coordinates.
All outlines are to the bare wall, unless `Job.measured_to` says otherwise.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from datetime import date, time
from fractions import Fraction
from functools import cached_property

from tilespec.quantity import Quantity
from tilespec.source import Span

Point = tuple[Fraction, Fraction]  # metres


@dataclass(frozen=True, slots=True)
class Words:
    """Text that a person wrote in the spec, with its place. Never markup."""

    text: str
    span: Span = field(compare=False)

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class Question:
    """Something the spec does not say, with the value assumed meanwhile (if any).

    topic     stable key such as "tile-thickness"; the wording is in templates
    about     what it is about: a surface id, a tile or product name, a room name or "job"
    value     the default in use, or None where nothing can be assumed
    ask       "survey", "data sheet", "client" or "designer"
    limits    what the answer is held against, where the practice has it: the wording of the topic says which is which
    each      what is answered one by one, as printed ("wall A"); none: there is one answer
    """

    topic: str
    about: str
    ask: str
    text: str
    value: Quantity | None = None
    span: Span | None = field(default=None, compare=False)
    limits: tuple[Quantity, ...] = ()
    each: tuple[str, ...] = ()


# ---------------------------------------------------------------- products


@dataclass(frozen=True, slots=True)
class WaitData:
    """A product's wait: at least `minimum`, at most `maximum` (then `overrun` says what to do).

    before    what may start after it: "membrane", "second-coat", "tiling", "grouting", "walking", "sealing",
              "water", "priming", "use", "heating", "coats" (between coats), "impregnating"
    """

    before: str
    minimum: Quantity
    maximum: Quantity | None = None
    overrun: Words | None = None


@dataclass(frozen=True, slots=True)
class Product:
    """A product of one class, declared in the spec or a stock file, or generic.

    kind      adhesive grout primer membrane tape collar sealant backer heating trim mirror-adhesive impregnator
              sealer leveller clips cleaner board
    cls       designation as its standard writes it: ("C2", "TE", "S1"), ("CG2", "WA"), ("DM", "O1"), ("XS1", "25LM")
    generic   True for the built-in stock: to be confirmed on the data sheet
    flags     plain words that matter for safety and fitness: "solvent", "epoxy", "polyurethane", "acetoxy", "neutral",
              "cement", "fast", "dispersion", "white", "grey"
    consumption  kg/m2: a coat of primer, membrane, impregnator, sealer; the whole bed of an adhesive
    density      kg of dry powder a litre (= a square metre and millimetre): adhesive, grout, leveller
    """

    name: str
    kind: str
    cls: tuple[str, ...]
    generic: bool
    flags: tuple[str, ...] = ()
    colour: str | None = None
    pack: Quantity | None = None  # mass, volume, length, count or area of one pack
    consumption: Quantity | None = None
    density: Quantity | None = None
    water: Quantity | None = None  # L/kg
    maturing: Quantity | None = None
    pot_life: Quantity | None = None
    open_time: Quantity | None = None
    coats: Quantity | None = None
    film: Quantity | None = None  # dry film, all coats
    notch: Quantity | None = None
    width: Quantity | None = None  # tape, trim, backer diameter
    temperature_min: Quantity | None = None
    temperature_max: Quantity | None = None
    movement: Quantity | None = None  # sealant: fraction of joint width
    output: Quantity | None = None  # heating, W/m2
    voltage: Quantity | None = None
    resistance: Quantity | None = None  # heating: of one mat or cable, as its label says
    carries: Quantity | None = None  # board: kg/m2 of tiling it can hold
    packed: date | None = None
    keeps: Quantity | None = None  # from the day it was packed
    height: Quantity | None = None  # trim
    thick: tuple[Quantity, Quantity] | None = None  # clips: thinnest and thickest tile
    waits: tuple[WaitData, ...] = ()
    for_: tuple[str, ...] = ()  # "floor", "walls", or tile names
    note: Words | None = None
    span: Span | None = field(default=None, compare=False)

    def wait(self, before: str) -> WaitData | None:
        return next((w for w in self.waits if w.before == before), None)


@dataclass(frozen=True, slots=True)
class Tile:
    """A tile or mosaic sheet. Width and height as laid (landscape, upright or as written)."""

    name: str  # "tile" when unnamed
    named: bool
    width: Quantity
    height: Quantity
    thickness: Quantity
    body: str  # "porcelain", "ceramic", "stone", "glass", "not stated"
    mosaic: bool
    rectified: bool
    translucent: bool
    stone: bool
    porous: bool  # stone, cement or unglazed: sealed before grouting
    orientation: str  # "landscape", "upright", "square", "as written"
    weight: Quantity | None  # kg/m2
    box: Quantity | None  # pieces a box
    chip_width: Quantity | None  # mosaic
    chip_height: Quantity | None
    chip_joint: Quantity | None
    work_width: Quantity | None  # measured size of the delivery
    work_height: Quantity | None
    absorption: Quantity | None
    barefoot: str | None  # "A", "B", "C"
    slip: str | None  # "R10" ...
    dcof: Quantity | None
    pendulum: Quantity | None
    words: tuple[str, ...] = ()
    span: Span | None = field(default=None, compare=False)

    @property
    def long_side(self) -> Quantity:
        return self.width if self.width.value >= self.height.value else self.height


# ---------------------------------------------------------------- surfaces


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle on a surface: left, bottom (for floors: top edge, y runs down), width, height."""

    x: Quantity
    y: Quantity
    width: Quantity
    height: Quantity
    span: Span | None = field(default=None, compare=False)

    @property
    def right(self) -> Fraction:
        return self.x.value + self.width.value

    @property
    def top(self) -> Fraction:
        return self.y.value + self.height.value


@dataclass(frozen=True, slots=True)
class Opening:
    kind: str  # "window", "door", "opening"
    rect: Rect
    reveal: Quantity | None = None  # depth tiled inside the opening; None: reveals are not tiled
    threshold: Quantity | None = None  # door, or opening to the floor: how high it stands above the finished floor of the room
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Niche:
    rect: Rect
    depth: Quantity
    tile: Tile | None = None  # when another tile lines it
    span: Span | None = field(default=None, compare=False)
    start: Start = field(default_factory=lambda: Start())  # only `follows` ("field") is said of a niche


@dataclass(frozen=True, slots=True)
class Penetration:
    """A pipe, valve, outlet, socket or drain that passes through the surface."""

    kind: str  # "pipe", "valve", "outlet", "socket", "drain", "channel", "shower head"
    x: Quantity
    y: Quantity
    diameter: Quantity | None = None
    length: Quantity | None = None  # linear drain
    along: str | None = None  # linear drain: wall it runs along
    label: Words | None = None
    span: Span | None = field(default=None, compare=False)
    covers: tuple[Quantity, Quantity] | None = None  # valve: thinnest and thickest bed and tile it can be built in behind
    flange: Quantity | None = None  # drain: width that the membrane can bond to
    flow: Quantity | None = None  # drain: what it takes away


@dataclass(frozen=True, slots=True)
class Fitting:
    """Something fixed to or standing on a finished surface: mirror, rail, WC, unit, screen."""

    kind: str  # "mirror", "fitting", "fixture" (floor: stands on it, no heating below)
    label: Words | None
    rect: Rect
    span: Span | None = field(default=None, compare=False)
    glued: bool = False  # not screwed through tile and membrane


@dataclass(frozen=True, slots=True)
class Zone:
    """A wet area on a surface. exposure: "shower", "bath", "splash", "wet floor"."""

    exposure: str
    rect: Rect | None  # None: the whole surface
    cause: str  # "shower in corner D A", "said in the spec" ...
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class MembraneArea:
    """Where the membrane goes. rect None: the whole surface (less openings)."""

    rect: Rect | None
    reason: str  # key: "shower", "bath", "splash", "floor", "upstand", "said"
    basis: Quantity | None = None  # the limit that set its height or reach, where one did


@dataclass(frozen=True, slots=True)
class Base:
    """What is tiled on.

    kind      key: "cement-screed", "calcium-sulfate-screed", "concrete", "gypsum-plaster", "gypsum-plasterboard",
              "gypsum-fibreboard", "cement-render", "cement-board", "tile-backer-board", "timber", "plywood", "old-tiles",
              "painted", "not-stated"
    """

    kind: str
    words: Words | None
    thickness: Quantity | None = None
    laid: date | None = None
    skim: bool | None = None  # plasterboard with a plaster skim
    joists: Quantity | None = None  # centres
    boards: Quantity | None = None  # thickness of deck
    span_length: Quantity | None = None
    absorbency: str = "normal"  # "normal", "high", "dense"
    gypsum: bool = False
    carries: Quantity | None = None  # kg/m2 of tiling, where a limit is known
    weight_limit_key: str | None = None
    deflection: Quantity | None = None  # of a timber floor under its load, as its designer reckons it
    existing: bool = False  # an old surface that stays: sounded, asbestos and lead asked
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Pattern:
    """How tiles lie to each other.

    upright   offset bonds: the courses stand, and each column is moved upwards against the one before
    double    herringbone and basket weave: tiles in pairs
    turned    by half a right angle to the surface's edges (always so for "diagonal"; the usual herringbone)
    second    modular: the other tile, one beside each first one
    """

    name: str  # "straight", "half", "third", "quarter", "run", "diagonal", "herringbone", "basket", "stack", "modular"
    stepped: bool = False  # steps on, or back and forth
    run: Quantity | None = None
    given: bool = True
    span: Span | None = field(default=None, compare=False)
    upright: bool = False
    double: bool = False
    turned: bool = False
    second: Tile | None = None


@dataclass(frozen=True, slots=True)
class Start:
    """Where the set-out starts, per direction.

    across  "tile on centre", "joint on centre", "from left", "from right", "full tile at door" and "full tile at window" (walls:
            the first full tile beside the opening, on its left), "tile on window", "joint on window" and the same on "door" and
            "drain", "point", "found" (none said)
    up      "full tile at datum", "full tile at floor", "full tile at top", "from top", "tile on centre", "joint on centre",
            "tile on drain", "joint on drain", "tile on window", "joint on window", "point", "found".
            Floors: "full tile at floor" is at the side of least y (wall A's), "full tile at top" at the side across from it.
    A floor's door counts in the direction that it is in: "full tile at door" square to its wall (first full tile at that wall),
    "tile on door" and "joint on door" along it (on its middle); so each of them is `across` or `up`. What is named (the
    window, the door, the drain) is there, once: on a wall one of its `openings`, on a floor the one door of the room's walls
    (else the one opening down to the floor) and its own drain or channel.
    x, y    "point": where the lower left corner of a full tile stands on the surface (floors: the corner of least x and least y;
            tiles laid slantwise: the corner where both their sides begin)
    follows what its joints shall run on from: "floor", "wall A", "field" (a niche with the field around it)
    """

    across: str = "found"
    up: str = "found"
    span: Span | None = field(default=None, compare=False)
    up_span: Span | None = field(default=None, compare=False)  # where both are said: `span` is that of `across`
    x: Quantity | None = None
    y: Quantity | None = None
    follows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Covering:
    """One tile laid over one region of a surface. The first covers the field; others (bands, panels) lie in it."""

    tile: Tile
    joint: Quantity
    pattern: Pattern
    start: Start
    region: Rect | None  # None: the whole tiled field
    role: str  # "field", "band", "panel", "border"
    span: Span | None = field(default=None, compare=False)
    border: Quantity | None = None  # role "border": how wide the frame is that it makes round the surface


@dataclass(frozen=True, slots=True)
class MovementJoint:
    """A joint in the tiling itself, sealed, right across the surface: at x (upright) or at y (level), to its middle."""

    x: Quantity | None
    y: Quantity | None
    width: Quantity
    span: Span | None = field(default=None, compare=False)
    depth: Quantity | None = None  # of the sealant, where it is said


@dataclass(frozen=True, slots=True)
class Surface:
    """A floor or a wall that is tiled (or said to be). `products` maps kind to the product in use here."""

    id: str  # "Shower room/wall A"; unique in the job
    room: str
    kind: str  # "floor" or "wall"
    letter: str  # "A"; "" for the floor
    title: str  # "wall A, shower" as printed
    width: Quantity
    height: Quantity  # floor: depth of the bounding box
    outline: tuple[Point, ...]
    base: Base
    coverings: tuple[Covering, ...]
    tiled_height: Quantity | None  # wall: when tiling stops below the top
    openings: tuple[Opening, ...] = ()
    niches: tuple[Niche, ...] = ()
    untiled: tuple[Rect, ...] = ()
    penetrations: tuple[Penetration, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    zones: tuple[Zone, ...] = ()
    membrane_areas: tuple[MembraneArea, ...] = ()
    products: tuple[Product, ...] = ()
    measured_heights: tuple[Quantity, Quantity] | None = None  # left, right
    out_of_plumb: Quantity | None = None
    trims: tuple[TrimRun, ...] = ()
    movement_joints: tuple[MovementJoint, ...] = ()
    base_joints: tuple[MovementJoint, ...] = ()  # structural joints of the base below the tiling
    perimeter_joint: Quantity | None = None  # floor: its width, where it is said
    sunlit: bool = False  # floor: the sun shines on it
    refused: tuple[tuple[str, Span], ...] = field(default=(), compare=False)  # kinds of product, and where `none` stands
    named: tuple[tuple[str, Span], ...] = field(default=(), compare=False)  # kinds of product that are named here, and where
    span: Span | None = field(default=None, compare=False)

    def product(self, kind: str) -> Product | None:
        return next((p for p in self.products if p.kind == kind), None)

    def refusal(self, kind: str) -> Span | None:
        """Where the spec refuses a product of this kind here (`membrane none`); None where it does not."""
        return next((span for refused, span in self.refused if refused == kind), None)

    def named_at(self, kind: str) -> Span | None:
        """Where a product of this kind is named: on the surface itself, else for its room or the job."""
        return next((span for k, span in self.named if k == kind), None)

    @property
    def field(self) -> Covering | None:
        return next((c for c in self.coverings if c.role == "field"), None)

    @property
    def wet(self) -> bool:
        return bool(self.zones)


@dataclass(frozen=True, slots=True)
class TrimRun:
    place: str  # "left", "right", "top", "openings", "external corner", "niche"
    length: Quantity
    product: Product
    span: Span | None = field(default=None, compare=False)


# ---------------------------------------------------------------- rooms


@dataclass(frozen=True, slots=True)
class Corner:
    """Where two walls meet, in walk order; `internal` turns right, external left."""

    before: str  # wall that ends here
    after: str  # wall that starts here
    point: Point
    internal: bool


@dataclass(frozen=True, slots=True)
class WallLine:
    """A side of the room in plan, tiled or not."""

    letter: str
    start: Point
    end: Point
    length: Quantity
    stated: bool  # has a `wall` statement


@dataclass(frozen=True, slots=True)
class Shower:
    walls: tuple[str, ...]  # letters
    rect: Rect  # plan
    head_height: Quantity
    valve_wall: str | None
    tray: bool  # False: level, part of the floor
    screen: bool
    span: Span | None = field(default=None, compare=False)
    flow: Quantity | None = None  # of its head, all outlets together


@dataclass(frozen=True, slots=True)
class Bath:
    walls: tuple[str, ...]
    rect: Rect
    rim: Quantity
    shower_over: bool
    span: Span | None = field(default=None, compare=False)
    head_height: Quantity | None = None  # of the shower over it
    screen: bool = False


@dataclass(frozen=True, slots=True)
class Basin:
    wall: str
    x: Quantity
    width: Quantity
    rim: Quantity
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Boxing:
    """Boxed-in pipes in a corner or on a wall: plan rectangle and height; makes external corners to trim."""

    rect: Rect
    height: Quantity
    walls: tuple[str, ...]
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Fall:
    slope: Quantity  # as a ratio, 1/60
    planes: str  # "four", "one", "two"
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Heating:
    kind: str  # "mat" (in the adhesive), "cable" (in the leveller), "pipes" (in the screed)
    product: Product
    sensor_wall: str | None
    keep_out: tuple[Rect, ...]  # plan rectangles left without heating
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Levels:
    """Heights in metres against the finished floor (0). build_up: (layer, thickness), bottom first, tile included."""

    build_up: tuple[tuple[str, Quantity], ...]
    total: Quantity | None  # thickness above the structural floor
    hall: Quantity | None  # hall floor above (+) or below (-) this finished floor
    datum: Quantity  # above finished floor
    drain_grate: Quantity | None  # against finished floor at the edge that its fall starts from (negative)


# No slots: what follows from its surfaces is put together once, also where a room is lent to the next version of its job.
@dataclass(frozen=True)
class Room:
    name: str
    words: Words | None
    height: Quantity
    levels: Levels
    walls: tuple[WallLine, ...]
    corners: tuple[Corner, ...]
    floor: Surface | None  # None: the floor is not tiled
    wall_surfaces: tuple[Surface, ...]
    not_stated: tuple[str, ...]  # letters of walls nobody described
    showers: tuple[Shower, ...] = ()
    baths: tuple[Bath, ...] = ()
    basins: tuple[Basin, ...] = ()
    boxings: tuple[Boxing, ...] = ()
    fall: Fall | None = None
    heating: Heating | None = None
    diagonals: tuple[Quantity, Quantity] | None = None
    rcd: Quantity | None = None  # residual current at which its circuits trip
    span: Span | None = field(default=None, compare=False)

    @cached_property
    def surfaces(self) -> tuple[Surface, ...]:
        return ((self.floor,) if self.floor else ()) + self.wall_surfaces

    @cached_property
    def tiled(self) -> tuple[Surface, ...]:
        return tuple(s for s in self.surfaces if s.coverings)

    @cached_property
    def products(self) -> tuple[Product, ...]:
        """Every product in use, once, in the order of first use."""
        seen: dict[tuple[str, str], Product] = {}
        for surface in self.surfaces:
            for p in surface.products:
                seen.setdefault((p.kind, p.name), p)
            for t in surface.trims:
                seen.setdefault((t.product.kind, t.product.name), t.product)
        if self.heating:
            seen.setdefault(("heating", self.heating.product.name), self.heating.product)
        return tuple(seen.values())

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """Every tile in use, once, in the order of first use."""
        seen: dict[str, Tile] = {}
        for s in self.surfaces:
            for c in s.coverings:
                seen.setdefault(c.tile.name, c.tile)
                if c.pattern.second:
                    seen.setdefault(c.pattern.second.name, c.pattern.second)
            for n in s.niches:
                if n.tile:
                    seen.setdefault(n.tile.name, n.tile)
        return tuple(seen.values())

    def surface(self, letter: str) -> Surface | None:
        return next((s for s in self.surfaces if s.letter == letter), None)

    @property
    def drains(self) -> tuple[Penetration, ...]:
        return tuple(p for p in (self.floor.penetrations if self.floor else ()) if p.kind in ("drain", "channel"))


# ---------------------------------------------------------------- job


@dataclass(frozen=True, slots=True)
class Hours:
    days: tuple[int, ...]  # 0 = Monday
    start: time
    end: time
    given: bool
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Conditions:
    air: Quantity
    humidity: Quantity
    surface: Quantity


@dataclass(frozen=True, slots=True)
class TradeStep:
    """A step that another trade (or the client) does, where the spec puts it.

    after, before  keys of the sequence's stages ("sealing", "membrane", "tiling", "grouting", "second fix" ...)
    """

    title: Words
    trade: Words
    after: Words | None
    before: Words | None
    takes: Quantity | None
    room: str | None
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Deviation:
    rule: Words
    place: str  # surface id or room name
    reason: Words
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Record:
    """A dated reading or sign-off. kind: one of vocabulary.RECORDS.

    depth     of a moisture reading below the surface
    over      length of the straightedge of a reading of flatness
    samples   tiles lifted, places measured
    lasted    how long a test lasted; `fell`: how far its water level fell
    work_by   who did the work that is signed for
    """

    kind: Words
    place: str
    on: date
    by: Words
    reading: Quantity | None
    depth: Quantity | None
    result: str | None  # "pass", "fail" or None
    span: Span | None = field(default=None, compare=False)
    over: Quantity | None = None
    samples: Quantity | None = None
    lasted: Quantity | None = None
    fell: Quantity | None = None
    work_by: Words | None = None


@dataclass(frozen=True, slots=True)
class Delivery:
    """What came of one tile: shade and caliber as the boxes say them; smallest and largest side measured; how far bowed."""

    tile: Tile
    on: date | None
    shade: Words | None
    caliber: Words | None
    width: tuple[Quantity, Quantity] | None
    height: tuple[Quantity, Quantity] | None
    warp: Quantity | None
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Note:
    """What the writer wants read: `about` is the statement it stands at, as written. A hole's note stands at the hole."""

    about: Words
    text: Words


@dataclass(frozen=True, slots=True)
class FirmLimit:
    key: str
    value: Quantity
    reason: Words | None
    span: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Cutter:
    """A way of cutting tile that the work is planned with.

    method    "snap", "wet-saw", "wet-hand-saw", "extraction-saw", "extraction-grinder", "dry-saw", "dry-grinder"
    outdoors  said to be used in the open; else in the room, or near enough to it
    """

    method: str
    outdoors: bool = False
    span: Span | None = field(default=None, compare=False)


# What the work is planned with where the spec does not say: what makes least dust.
PLANNED = (Cutter("snap"), Cutter("wet-saw"))


# No slots: what follows from its rooms is put together once.
@dataclass(frozen=True)
class Job:
    title: Words | None
    reference: Words | None
    revision: Words | None
    date: datetime.date | None
    site: Words | None
    client: Words | None
    firm: Words | None
    author: Words | None
    family: str  # "EN", "DE", "UK", "US", "AU"
    family_given: bool
    begin: datetime.date | None
    hours: Hours
    crew: tuple[tuple[str, Quantity], ...]  # ("tiler", 1), ("helper", 1)
    closed: tuple[datetime.date, ...]
    built: Quantity | None  # year the building was built
    occupied: bool | None
    measured_to: str  # "bare wall" or "tile face"
    paper: str  # "A4" or "Letter"
    notice: Quantity  # before a hold point
    conditions: Conditions
    rooms: tuple[Room, ...]
    steps: tuple[TradeStep, ...]
    deviations: tuple[Deviation, ...]
    records: tuple[Record, ...]
    firm_limits: tuple[FirmLimit, ...]
    questions: tuple[Question, ...]
    files: tuple[str, ...]  # files read, the spec first
    notes: tuple[Note, ...] = ()
    deliveries: tuple[Delivery, ...] = ()
    declared: tuple[Product, ...] = ()  # every product the spec and its stock declare, in use or not
    cutting: tuple[Cutter, ...] = PLANNED
    aids: tuple[str, ...] = ()  # for lifting tiles: "suction-lifters", "lifting-frame"

    @cached_property
    def surfaces(self) -> tuple[Surface, ...]:
        return tuple(s for r in self.rooms for s in r.surfaces)

    @cached_property
    def tiled(self) -> tuple[Surface, ...]:
        return tuple(s for r in self.rooms for s in r.tiled)

    @cached_property
    def products(self) -> tuple[Product, ...]:
        """Every product in use, once, in the order of first use."""
        seen: dict[tuple[str, str], Product] = {}
        for room in self.rooms:
            for p in room.products:
                seen.setdefault((p.kind, p.name), p)
        return tuple(seen.values())

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """Every tile in use, once, in the order of first use."""
        seen: dict[str, Tile] = {}
        for room in self.rooms:
            for t in room.tiles:
                seen.setdefault(t.name, t)
        return tuple(seen.values())
