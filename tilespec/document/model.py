"""The document: twelve parts, each printable alone, with everything resolved but the wording.

Only five things are printable: quantities and words of the practice (with their reference marks), `Said`, `Ref`, and plain
keys without digits that the templates turn into words. Lengths, areas and times are never plain numbers here.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from tilespec.document.text import Moment, Ref, Said
from tilespec.document.trace import File, Traces
from tilespec.practice.lookup import Word
from tilespec.quantity import Quantity

FORMAT_VERSION = "1.0"

# The twelve parts by key, in their order.
PARTS = (
    "title",
    "scope",
    "materials",
    "tools",
    "hazards",
    "inspection",
    "sequence",
    "set-out",
    "programme",
    "checklist",
    "hand-over",
    "sources",
)


# ---------------------------------------------------------------- what several parts speak of


@dataclass(frozen=True, slots=True)
class WaitRule:
    """A product's own wait, as its data say."""

    before: str
    minimum: Quantity
    maximum: Quantity | None
    overrun: Said | None


@dataclass(frozen=True, slots=True)
class ProductCard:
    """A product as printed.

    cls         the designation of its standard
    resistance  of one mat or cable, as its label says
    packed      the day, ISO; `keeps`: how long from then
    thinnest, thickest  tile that clips are made for
    """

    kind: str
    name: Said
    cls: Ref
    generic: bool
    flags: tuple[str, ...]
    colour: Said | None
    pack: Quantity | None
    consumption: Quantity | None
    density: Quantity | None
    water: Quantity | None
    maturing: Quantity | None
    pot_life: Quantity | None
    open_time: Quantity | None
    coats: Quantity | None
    film: Quantity | None
    notch: Quantity | None
    width: Quantity | None
    temperature_min: Quantity | None
    temperature_max: Quantity | None
    movement: Quantity | None
    output: Quantity | None
    voltage: Quantity | None
    resistance: Quantity | None
    carries: Quantity | None
    packed: str | None
    keeps: Quantity | None
    height: Quantity | None
    thinnest: Quantity | None
    thickest: Quantity | None
    waits: tuple[WaitRule, ...]
    note: Said | None

    def wait(self, before: str) -> WaitRule | None:
        return next((w for w in self.waits if w.before == before), None)


@dataclass(frozen=True, slots=True)
class TileCard:
    name: Said
    named: bool
    width: Quantity
    height: Quantity
    thickness: Quantity
    body: str
    mosaic: bool
    rectified: bool
    translucent: bool
    stone: bool
    porous: bool
    orientation: str
    weight: Quantity | None
    box: Quantity | None
    barefoot: Ref | None
    slip: Ref | None
    dcof: Quantity | None
    pendulum: Quantity | None


@dataclass(frozen=True, slots=True)
class Area:
    """An upright rectangle on a surface: from the left, up from the finished floor (floors: from wall A)."""

    x: Quantity
    y: Quantity
    width: Quantity
    height: Quantity


@dataclass(frozen=True, slots=True)
class Where:
    """Places in one room, for a short list. `only`: the one place by its full title; else the room, its floor, its walls.

    `room` is None where the job has one room and speaks of its surfaces.
    """

    only: Said | None
    room: Said | None
    floor: bool
    walls: tuple[Ref, ...]


@dataclass(frozen=True, slots=True)
class Named:
    """A quantity that wording asks for by name."""

    name: str
    quantity: Quantity


# ---------------------------------------------------------------- 1 title


@dataclass(frozen=True, slots=True)
class TiledRow:
    """A tiled surface, by its name within its room."""

    place: Said
    tiles: tuple[Said, ...]
    area: Quantity


@dataclass(frozen=True, slots=True)
class TiledRoom:
    room: Said
    rows: tuple[TiledRow, ...]


@dataclass(frozen=True, slots=True)
class NotStated:
    """Walls that nobody described, or a room's floor: they are not tiled."""

    room: Said
    walls: tuple[Ref, ...]
    floor: bool


@dataclass(frozen=True, slots=True)
class KeyPlan:
    room: Said
    drawing: Ref


@dataclass(frozen=True, slots=True)
class Crew:
    role: str
    number: Quantity


@dataclass(frozen=True, slots=True)
class TitlePart:
    title: Said | None
    reference: Said | None
    revision: Said | None
    date: Ref | None
    site: Said | None
    client: Said | None
    firm: Said | None
    author: Said | None
    family: str
    family_name: str
    family_given: bool
    begin: Ref | None
    finish: Moment | None
    days: tuple[str, ...]
    hours_from: Ref
    hours_to: Ref
    crew: tuple[Crew, ...]
    measured_to: str
    air: Quantity
    humidity: Quantity
    surface: Quantity
    notice: Quantity
    tiled: tuple[TiledRoom, ...]
    not_stated: tuple[NotStated, ...]
    key_plans: tuple[KeyPlan, ...]
    steps: Quantity
    holds: Quantity
    working_days: Quantity
    person_hours: Quantity
    questions: Quantity
    warnings: Quantity
    fingerprint: Ref
    git: Ref | None
    version: Ref


# ---------------------------------------------------------------- 2 scope


@dataclass(frozen=True, slots=True)
class BaseRow:
    kind: str
    words: Said | None
    thickness: Quantity | None
    laid: Ref | None
    existing: bool


@dataclass(frozen=True, slots=True)
class CoveringRow:
    tile: TileCard
    joint: Quantity
    pattern: str
    stepped: bool
    upright: bool
    double: bool
    turned: bool
    second: TileCard | None
    run: Quantity | None
    across: str
    up: str
    role: str
    region: Area | None
    border: Quantity | None
    area: Quantity | None


@dataclass(frozen=True, slots=True)
class ZoneRow:
    exposure: str
    cause: Said
    area: Area | None
    cls: Word | None = None     # the family's class of exposure, where it has one


@dataclass(frozen=True, slots=True)
class MembraneRow:
    reason: str
    area: Area | None
    basis: Quantity | None


@dataclass(frozen=True, slots=True)
class SurfaceRow:
    place: Said
    kind: str
    width: Quantity
    height: Quantity
    tiled_height: Quantity | None
    base: BaseRow
    coverings: tuple[CoveringRow, ...]
    zones: tuple[ZoneRow, ...]
    membrane: tuple[MembraneRow, ...]
    gross: Quantity
    openings: Quantity
    untiled: Quantity
    tiled: Quantity
    membrane_area: Quantity | None


@dataclass(frozen=True, slots=True)
class Layer:
    name: str
    thickness: Quantity


@dataclass(frozen=True, slots=True)
class LevelRow:
    room: Said
    layers: tuple[Layer, ...]
    total: Quantity | None
    hall: Quantity | None
    datum: Quantity
    drain_grate: Quantity | None
    fall: Quantity | None
    planes: str


@dataclass(frozen=True, slots=True)
class QuestionRow:
    """Something the spec does not say. `line`: where it could have been said; `limits`: what the answer is held against;
    `each`: what is answered one by one, or nothing where there is one answer.
    """

    topic: str
    about: Said
    text: Said
    ask: str
    value: Quantity | None
    line: Ref | None
    limits: tuple[Quantity, ...]
    each: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class DeviationRow:
    """A deviation that the spec asks for. `title`: what the rule is about; `steps`: where the work meets it."""

    rule: Ref
    place: Said
    reason: Said
    line: Ref | None
    title: Ref | None
    steps: tuple[Ref, ...]


@dataclass(frozen=True, slots=True)
class RecordRow:
    kind: Said
    place: Said
    on: Ref
    by: Said
    reading: Quantity | None
    depth: Quantity | None
    result: str | None
    line: Ref | None
    over: Quantity | None = None
    samples: Quantity | None = None
    lasted: Quantity | None = None
    fell: Quantity | None = None
    work_by: Said | None = None


@dataclass(frozen=True, slots=True)
class DeliveryRow:
    """What came of one tile; widths and heights are the smallest and the largest that were measured."""

    tile: Said
    on: Ref | None
    shade: Said | None
    caliber: Said | None
    width: tuple[Quantity, Quantity] | None
    height: tuple[Quantity, Quantity] | None
    warp: Quantity | None
    line: Ref | None


@dataclass(frozen=True, slots=True)
class WarningRow:
    """What tilespec has to say about the spec, at a line."""

    code: Ref
    name: str
    severity: str
    message: Said
    help: Said
    line: Ref | None


@dataclass(frozen=True, slots=True)
class NoteRow:
    about: Said
    text: Said
    line: Ref | None


@dataclass(frozen=True, slots=True)
class ScopePart:
    surfaces: tuple[SurfaceRow, ...]
    levels: tuple[LevelRow, ...]
    questions: tuple[QuestionRow, ...]
    generic: tuple[ProductCard, ...]
    deviations: tuple[DeviationRow, ...]
    notes: tuple[NoteRow, ...]
    records: tuple[RecordRow, ...]
    deliveries: tuple[DeliveryRow, ...]
    warnings: tuple[WarningRow, ...]


# ---------------------------------------------------------------- 3 materials


@dataclass(frozen=True, slots=True)
class Share:
    """One surface's share of a material. `role`: what it does there, a wording key; "" where there is one only."""

    place: Said
    role: str
    measure: Quantity
    net: Quantity


@dataclass(frozen=True, slots=True)
class MaterialRow:
    kind: str
    role: str
    name: Said
    product: ProductCard | None
    tile: TileCard | None
    shares: tuple[Share, ...]
    net: Quantity
    allowance: Quantity | None
    gross: Quantity
    pack: Quantity | None
    packs: Quantity | None
    weight: Quantity | None
    pieces: Quantity | None
    whole: Quantity | None
    cut: Quantity | None
    left: Quantity | None


@dataclass(frozen=True, slots=True)
class SawRow:
    """Cuts of one tile: their length, the time if all are made at the wet saw; of the length, what can be snapped."""

    tile: TileCard
    length: Quantity
    time: Quantity
    snap: Quantity | None
    saw: Quantity | None
    shaped: Quantity | None
    holes: Quantity | None


@dataclass(frozen=True, slots=True)
class MissingRow:
    """What could not be worked out, because nobody said it. `lacks`: a wording key."""

    kind: str
    name: Said
    lacks: str
    places: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class MixRow:
    product: ProductCard
    pack: Quantity
    water: Quantity
    maturing: Quantity | None
    pot_life: Quantity | None
    within_pot_life: Quantity | None
    mixes: Quantity | None
    share: Quantity | None
    powder: Quantity | None
    mix_water: Quantity | None


@dataclass(frozen=True, slots=True)
class HeatingRow:
    room: Said
    product: ProductCard
    kind: str
    free_area: Quantity
    power: Quantity
    current: Quantity | None
    resistance: Quantity | None
    resistance_low: Quantity | None
    resistance_high: Quantity | None


@dataclass(frozen=True, slots=True)
class AskRow:
    """A class or a property that a place asks for. `because`: wording keys; `over`: the size from which it is asked."""

    because: tuple[str, ...]
    asked: Word
    over: Quantity | None


@dataclass(frozen=True, slots=True)
class LeastRow:
    """A number that is asked of a product. `what`, `fit`: wording keys."""

    what: str
    limit: Quantity
    fit: str


@dataclass(frozen=True, slots=True)
class WhyRow:
    """Why a product is used at these places: what they ask of it, the governing class first, and whether it has that.

    fit      "fits", "below", "not-said", "other-standard"
    """

    kind: str
    product: ProductCard
    tiles: tuple[Said, ...]
    where: tuple[Where, ...]
    asks: tuple[AskRow, ...]
    least: tuple[LeastRow, ...]
    fit: str


@dataclass(frozen=True, slots=True)
class MaterialsPart:
    lines: tuple[MaterialRow, ...]
    missing: tuple[MissingRow, ...]
    mixes: tuple[MixRow, ...]
    heating: tuple[HeatingRow, ...]
    why: tuple[WhyRow, ...]


# ---------------------------------------------------------------- 4 tools


@dataclass(frozen=True, slots=True)
class NotchRow:
    place: Said
    tile: Said
    notch: Quantity
    bed: Quantity
    back_butter: bool
    contact: Quantity


@dataclass(frozen=True, slots=True)
class ToolsPart:
    """`kinds`: the kinds of steps in the job, each once; the wording knows what each needs."""

    notches: tuple[NotchRow, ...]
    sawing: tuple[SawRow, ...]
    kinds: tuple[str, ...]
    facts: tuple[str, ...]


# ---------------------------------------------------------------- 5 hazards


@dataclass(frozen=True, slots=True)
class HazardRow:
    """A hazard, said once; its letter stands at the steps that carry it."""

    letter: Ref
    key: str
    steps: tuple[Ref, ...]
    values: tuple[Named, ...]
    licensed: str

    def value(self, name: str) -> Quantity | None:
        return next((v.quantity for v in self.values if v.name == name), None)


@dataclass(frozen=True, slots=True)
class LiftRow:
    what: str
    name: Said
    load: Quantity
    limit: Quantity
    index: Quantity
    measure: str


@dataclass(frozen=True, slots=True)
class DustRow:
    """Dusty work by one method, all of it by one worker. No low figure: none was seen. `over` the limit: "may-be" or "is".

    guidance  the respirator's row is from memory: to be checked before it is relied on
    """

    work: str
    method: str
    outdoors: bool
    time: Quantity
    a_day: Quantity
    low: Quantity | None
    high: Quantity | None
    respirator: Quantity | None
    guidance: bool
    over: str


@dataclass(frozen=True, slots=True)
class DustTable:
    """Silica by way of working, for comparison; `table_hours`: hours above which the family's own table asks for more."""

    planned: tuple[DustRow, ...]
    instead: tuple[DustRow, ...]
    limit: Quantity
    action: Quantity | None
    low: Quantity | None
    high: Quantity | None
    table_hours: Quantity | None
    said: bool
    over: str


@dataclass(frozen=True, slots=True)
class ThrownRow:
    what: str
    packs: Quantity
    hazardous: bool


@dataclass(frozen=True, slots=True)
class WasteTable:
    thrown: tuple[ThrownRow, ...]
    slurry: Quantity | None
    water: Quantity | None


@dataclass(frozen=True, slots=True)
class HazardsPart:
    hazards: tuple[HazardRow, ...]
    lifts: tuple[LiftRow, ...]
    licensed: tuple[Said, ...]
    dust: DustTable | None
    waste: WasteTable | None


# ---------------------------------------------------------------- 6 inspection, 7 sequence


@dataclass(frozen=True, slots=True)
class TestRow:
    what: str
    limit: Quantity | None
    upper: Quantity | None
    compare: str
    recorded: Quantity | None
    recorded_by: Said | None
    where: tuple[Where, ...]
    values: tuple[Named, ...]

    def value(self, name: str) -> Quantity | None:
        return next((v.quantity for v in self.values if v.name == name), None)


@dataclass(frozen=True, slots=True)
class PointRow:
    kind: str
    step: Ref
    releases: str
    tests: tuple[TestRow, ...]
    signed: Said | None
    planned: Moment | None


@dataclass(frozen=True, slots=True)
class HazardMark:
    letter: Ref
    key: str


@dataclass(frozen=True, slots=True)
class WaitRow:
    """A wait that starts when its step ends. `before`: the steps that it holds back."""

    why: str
    minimum: Quantity
    maximum: Quantity | None
    overrun: Said | None
    overrun_key: str
    product: ProductCard | None
    before: tuple[Ref, ...]
    until: Moment | None


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work, as the wording sees it: names are those of `sequence.types.Operation`."""

    number: Ref
    id: Ref
    kind: str
    stage: str
    room: Said | None
    of_room: Said | None           # the room where there are several, for titles that would read alike
    places: tuple[Said, ...]
    where: tuple[Where, ...]
    trade: Said
    by_tiler: bool
    title: Said | None
    products: tuple[ProductCard, ...]
    values: tuple[Named, ...]
    facts: tuple[str, ...]
    hazards: tuple[HazardMark, ...]
    after: tuple[Ref, ...]
    waits: tuple[WaitRow, ...]
    point: PointRow | None
    labour: Quantity | None
    starts: Moment | None
    line: Ref | None
    deviations: tuple[DeviationRow, ...]
    loads: tuple[LiftRow, ...]

    def value(self, name: str) -> Quantity | None:
        return next((v.quantity for v in self.values if v.name == name), None)

    def product(self, kind: str) -> ProductCard | None:
        return next((p for p in self.products if p.kind == kind), None)


@dataclass(frozen=True, slots=True)
class InspectionPart:
    points: tuple[PointRow, ...]
    notice: Quantity


@dataclass(frozen=True, slots=True)
class SequencePart:
    steps: tuple[Step, ...]


# ---------------------------------------------------------------- 8 set-out


@dataclass(frozen=True, slots=True)
class Position:
    """One thing to find or to leave out on a surface. What has no width is a point."""

    kind: str
    label: Said | None
    x: Quantity
    y: Quantity
    width: Quantity | None
    height: Quantity | None


@dataclass(frozen=True, slots=True)
class WayRow:
    """How a start is said; where it has no better name, by a measure before the words. `lead`: what that is."""

    words: str
    cut: Quantity | None
    lead: str


@dataclass(frozen=True, slots=True)
class CriterionRow:
    """`differs`: it is not nought in every start that is listed."""

    letter: Ref
    name: str
    differs: bool


@dataclass(frozen=True, slots=True)
class SearchRow:
    """A start that was searched for, and the next best, each with its values of the criteria in their order."""

    place: Said
    role: str
    start: tuple[WayRow, ...]
    values: tuple[Quantity | None, ...]
    runner_up: tuple[WayRow, ...]
    runner_up_values: tuple[Quantity | None, ...]


@dataclass(frozen=True, slots=True)
class CutOutRow:
    """What is cut out of a piece, and where."""

    at: str
    width: Quantity
    height: Quantity


@dataclass(frozen=True, slots=True)
class HoleRow:
    """A hole in a piece: its centre from the left and from the lower edge of the piece as it lies in the cut list.

    outside   how far the centre lies left of that edge, and below the lower one, where it does: the hole bites into the edge
    """

    name: Said
    x: Quantity
    y: Quantity
    diameter: Quantity
    outside: tuple[Quantity | None, Quantity | None] = (None, None)


@dataclass(frozen=True, slots=True)
class FoldRow:
    """A cut across a piece, both parts of which are laid: from (left, low) to (left, low) of the piece."""

    from_x: Quantity
    from_y: Quantity
    to_x: Quantity
    to_y: Quantity


@dataclass(frozen=True, slots=True)
class ChipRow:
    """Whole chips of a cut mosaic sheet in one direction, and what is left of the next."""

    direction: str
    whole: Quantity
    rest: Quantity


@dataclass(frozen=True, slots=True)
class CutRow:
    """Pieces of one shape: one setting of the saw. `ends`: lengths of a piece with a sloping cut at its two ends.

    plain    width and height say all
    thin     narrower somewhere than is worth cutting
    """

    number: Ref
    kind: str
    plain: bool
    thin: bool
    count: Quantity
    width: Quantity
    height: Quantity
    ends: tuple[Quantity, ...]
    cut_outs: tuple[CutOutRow, ...]
    holes: tuple[HoleRow, ...]
    folds: tuple[FoldRow, ...]
    chips: tuple[ChipRow, ...]


@dataclass(frozen=True, slots=True)
class LaidRow:
    """One tile on one face: how it starts, how many stay whole, and its cuts. `face`: "" for the surface itself."""

    face: str
    number: Ref
    side: str
    covering: CoveringRow
    across: WayRow
    up: WayRow
    found: tuple[str, ...]
    full: Quantity
    cuts: tuple[CutRow, ...]


@dataclass(frozen=True, slots=True)
class LineUpRow:
    """Joints that run through from here to another surface, or by how much they miss."""

    kind: str
    other: Said
    off: Quantity
    asked: bool
    meets: bool


@dataclass(frozen=True, slots=True)
class HeightRow:
    place: str
    letter: str
    height: Quantity


@dataclass(frozen=True, slots=True)
class PlaneRow:
    side: str
    run: Quantity
    fall: Quantity


@dataclass(frozen=True, slots=True)
class FallRow:
    planes: tuple[PlaneRow, ...]
    heights: tuple[HeightRow, ...]
    envelope: bool
    threshold_bed: Quantity | None


@dataclass(frozen=True, slots=True)
class FromRow:
    """Pieces that come from one tile: number in the cut list of a surface, how many."""

    number: Ref
    count: Quantity


@dataclass(frozen=True, slots=True)
class FromPlace:
    place: Said
    rows: tuple[FromRow, ...]


@dataclass(frozen=True, slots=True)
class CuttingRow:
    tiles: Quantity
    pieces: tuple[FromPlace, ...]


@dataclass(frozen=True, slots=True)
class PlanRow:
    """Which pieces of an article come from which tiles. `gap`: what a better plan could save at most.

    alone    pieces that take a tile each, with how many
    """

    tile: TileCard
    whole: Quantity
    cut: Quantity
    bound: Quantity
    gap: Quantity
    first_fit: Quantity
    proven: bool
    kerf: Quantity
    cuttings: tuple[CuttingRow, ...]
    alone: tuple[FromPlace, ...]


@dataclass(frozen=True, slots=True)
class MoreRow:
    """A second drawing: of a room unfolded, of faces outside a surface's plane."""

    drawing: Ref
    title: Said


@dataclass(frozen=True, slots=True)
class Sheet:
    """One surface on one page. `sizes`: those written in its drawing."""

    place: Said
    kind: str
    drawing: Ref
    title: Said
    scale: Ref | None
    coverings: tuple[CoveringRow, ...]
    positions: tuple[Position, ...]
    sizes: tuple[Quantity, ...]
    datum: Quantity | None
    laid: tuple[LaidRow, ...]
    cuts: bool
    plain: bool
    thin: bool
    faces: bool
    line_up: tuple[LineUpRow, ...]
    fall: FallRow | None
    more: tuple[MoreRow, ...]


@dataclass(frozen=True, slots=True)
class SetOutPart:
    sheets: tuple[Sheet, ...]
    measured_to: str
    criteria: tuple[CriterionRow, ...]
    searched: tuple[SearchRow, ...]
    poor_share: Quantity
    poor_size: Quantity
    small_share: Quantity
    plans: tuple[PlanRow, ...]


# ---------------------------------------------------------------- 9 programme, 10 checklist


@dataclass(frozen=True, slots=True)
class SlotRow:
    start: Ref
    end: Ref
    step: Ref
    last: bool
    critical: bool


@dataclass(frozen=True, slots=True)
class PauseRow:
    """A wait on the calendar; `before`: the steps that it holds back. `after`: the step of this day that it begins with."""

    why: str
    before: tuple[Ref, ...]
    until: Moment
    after: Ref | None


@dataclass(frozen=True, slots=True)
class DayRow:
    number: Ref
    date: Ref | None
    slots: tuple[SlotRow, ...]
    pauses: tuple[PauseRow, ...]


@dataclass(frozen=True, slots=True)
class Call:
    step: Ref
    starts: Moment | None


@dataclass(frozen=True, slots=True)
class TradeRow:
    """Another trade, and when it is called."""

    trade: Said
    calls: tuple[Call, ...]


@dataclass(frozen=True, slots=True)
class ProgrammePart:
    dated: bool
    days: tuple[DayRow, ...]
    charts: tuple[Ref, ...]
    finish: Moment | None
    working_days: Quantity
    person_hours: Quantity
    critical: tuple[Ref, ...]
    trades: tuple[TradeRow, ...]


@dataclass(frozen=True, slots=True)
class CheckRow:
    step: Ref
    hold: bool
    witness: bool


@dataclass(frozen=True, slots=True)
class ChecklistPart:
    rows: tuple[CheckRow, ...]


# ---------------------------------------------------------------- 11 hand-over, 12 sources


@dataclass(frozen=True, slots=True)
class NoDrill:
    """A surface behind which something lies that a drill would ruin."""

    place: Said
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class UseWait:
    """What may be done when the wait after the last step is over."""

    why: str
    minimum: Quantity
    after: Ref
    until: Moment | None


@dataclass(frozen=True, slots=True)
class HandOverPart:
    waits: tuple[UseWait, ...]
    no_drill: tuple[NoDrill, ...]
    values: tuple[Named, ...]
    facts: tuple[str, ...]
    tiles: tuple[TileCard, ...]
    products: tuple[ProductCard, ...]

    def value(self, name: str) -> Quantity | None:
        return next((v.quantity for v in self.values if v.name == name), None)


@dataclass(frozen=True, slots=True)
class SourcesPart:
    family: str
    family_name: str
    files: tuple[File, ...]


# ---------------------------------------------------------------- the whole


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing by name, as SVG text to scale. `title` says what is to be seen; `values` are the sizes written in it."""

    name: str
    title: Said
    svg: str
    values: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True)
class Document:
    family: str
    paper: str
    language: str
    title: TitlePart
    scope: ScopePart
    materials: MaterialsPart
    tools: ToolsPart
    hazards: HazardsPart
    inspection: InspectionPart
    sequence: SequencePart
    set_out: SetOutPart
    programme: ProgrammePart
    checklist: ChecklistPart
    hand_over: HandOverPart
    sources: SourcesPart
    pictures: tuple[Picture, ...]
    traces: Traces = field(compare=False)

    def step(self, number: Ref) -> Step:
        """The step of a number. KeyError when there is none."""
        for s in self.sequence.steps:
            if s.number.text == number.text:
                return s
        raise KeyError(number.text)

    def picture(self, name: str) -> Picture:
        """The drawing of a name. KeyError when there is none."""
        for p in self.pictures:
            if p.name == name:
                return p
        raise KeyError(name)


@dataclass(frozen=True, slots=True)
class Excerpt:
    """Some parts of a document by themselves, each under its key, with what stands behind their numbers."""

    family: str
    language: str
    parts: tuple[tuple[str, MaterialsPart | SequencePart | ProgrammePart], ...]
    traces: Traces = field(compare=False)

    def step(self, number: Ref) -> Step:
        """The step of a number. KeyError when there is none."""
        for _, part in self.parts:
            if isinstance(part, SequencePart):
                for s in part.steps:
                    if s.number.text == number.text:
                        return s
        raise KeyError(number.text)
