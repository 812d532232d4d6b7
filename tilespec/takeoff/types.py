"""What the take-off returns."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.job.types import Product, Tile
from tilespec.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Part:
    """One surface's share of a material line.

    role      what it does there, a wording key: "field", "band", "panel", "niche", "reveal", "boxing", "bed", "back-butter",
              "mat-bed", "mat-cover", "corner", "external-corner", "perimeter", "movement", "threshold", "bath", "basin", "tray",
              "opening", "fitting", "pipe", "valve", "outlet", "drain", "channel", "face" ...; "" when there is only one
    allowance its own allowance, where parts of one line differ
    """

    place: str                      # surface id, or room name
    measure: Quantity               # the area, length or count that drives it
    net: Quantity
    role: str = ""
    allowance: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One material to order.

    kind      product kind, or "tile"
    role      "spare" for the client's spare tiles; "" otherwise
    net       what the work takes; gross: with the allowance; packs: whole packs to order (None where the pack is not known)
    pieces    tiles: whole pieces that the gross area takes; by pieces: those of the set-out, with the allowance for breakage
    whole, cut  tiles, by pieces: how many stay whole, and how many are cut up by the plan of offcuts
    left        tiles of whole boxes that the set-out does not take: for breakage, and what then remains
    pack_weight, piece_weight
              weight of one full pack and of one tile, where known: for lifting
    """

    kind: str
    name: str
    item: Product | Tile
    parts: tuple[Part, ...]
    net: Quantity
    allowance: Quantity | None
    gross: Quantity
    pack: Quantity | None
    packs: Quantity | None
    weight: Quantity | None         # of the whole order, where known: for lifting and the van
    role: str = ""
    pieces: Quantity | None = None
    pack_weight: Quantity | None = None
    piece_weight: Quantity | None = None
    whole: Quantity | None = None
    cut: Quantity | None = None
    left: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Missing:
    """What could not be worked out, because the spec and its stock do not say it.

    lacks     wording key: "product", "pack", "water", "output", "room-for-it"
    """

    kind: str
    name: str                       # product name; "" when the product itself is missing
    lacks: str
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Mix:
    """Mixing card of a powder product. `use`: kg of powder a square metre in the work that takes most of it."""

    product: Product
    pack: Quantity
    water: Quantity                 # for one full pack
    maturing: Quantity | None
    pot_life: Quantity | None
    spread_rate: Quantity | None    # m2/h one tiler lays: sets what can be used within the pot life
    within_pot_life: Quantity | None    # kg of powder that can be laid within the pot life
    mixes: Quantity | None          # number of mixes for the whole job at that size
    share: Quantity | None          # part of a pack in one mix
    powder: Quantity | None = None  # kg in one mix
    mix_water: Quantity | None = None  # for one mix
    use: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Notch:
    """Trowel for one covering on one surface."""

    place: str
    tile: str
    notch: Quantity
    bed: Quantity                   # thickness left after combing and pressing
    back_butter: bool
    contact: Quantity               # least share of tile back in contact


@dataclass(frozen=True, slots=True)
class SurfaceMeasure:
    """Areas and lengths of one surface, each with its formula."""

    place: str
    gross_area: Quantity
    openings: Quantity
    untiled: Quantity
    tiled_area: Quantity            # all coverings
    coverings: tuple[Quantity, ...]  # area of each covering, in order
    membrane_area: Quantity | None
    joint_length: Quantity | None
    added: Quantity | None = None   # in tiled_area: insides of niches (less their mouths), reveals, sides of boxings
    primed_area: Quantity | None = None


@dataclass(frozen=True, slots=True)
class HeatingMeasure:
    """`free_area` is what the mat may cover; `laid_area` what the whole mats that fit cover (None: size not known)."""

    room: str
    free_area: Quantity             # floor less keep-outs
    power: Quantity
    current: Quantity | None
    resistance: Quantity | None
    resistance_low: Quantity | None
    resistance_high: Quantity | None
    laid_area: Quantity | None = None


@dataclass(frozen=True, slots=True)
class SawWork:
    """Cuts of one tile: how long they are together (the wear of the blade), and the time if all are made at the wet saw.

    snap      of these, straight cuts that can be scored and snapped; saw: straight ones that cannot; shaped: notches, slants and
              cuts along a fold
    holes     how many are drilled
    by_area   no set-out stood behind it: one course and one column of cuts on each surface, holes as said
    """

    name: str
    tile: Tile
    length: Quantity
    time: Quantity
    snap: Quantity | None = None
    saw: Quantity | None = None
    shaped: Quantity | None = None
    holes: Quantity | None = None
    by_area: bool = False


@dataclass(frozen=True, slots=True)
class TakeOff:
    lines: tuple[Line, ...]
    mixes: tuple[Mix, ...]
    notches: tuple[Notch, ...]
    surfaces: tuple[SurfaceMeasure, ...]
    heating: tuple[HeatingMeasure, ...]
    tiling_weight: tuple[tuple[str, Quantity], ...]  # surface id, kg/m2 of tile, bed and grout
    missing: tuple[Missing, ...] = ()
    sawing: tuple[SawWork, ...] = ()    # by pieces only

    def lines_of(self, kind: str) -> tuple[Line, ...]:
        return tuple(line for line in self.lines if line.kind == kind)

    def measure(self, place: str) -> SurfaceMeasure:
        return next(m for m in self.surfaces if m.place == place)
