"""What the set-out returns: faces, layouts, pieces, cut lists, offcut plans.

All lengths are metres. Straight work is exact; slanted work (45 degrees, walls out of square) is rounded to a nanometre.
Places are in the surface's own coordinates (walls: y up from the finished floor; floors: plan, y down the page). Added faces
(insides of niches, reveals, sides of boxings) have their own, from their lower left corner seen by someone who faces them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tilespec.job.types import Covering, Point, Tile
from tilespec.quantity import Quantity
from tilespec.setout.frame import Scale
from tilespec.setout.geometry import polygon_area

Ring = tuple[Point, ...]            # corners in order; the last side closes it


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline with what is cut out of its middle."""

    outer: Ring
    inner: tuple[Ring, ...] = ()

    @property
    def rings(self) -> tuple[Ring, ...]:
        return (self.outer, *self.inner)

    @property
    def area(self) -> Fraction:
        return polygon_area(self.outer) - sum((polygon_area(r) for r in self.inner), Fraction(0))

    @property
    def bounds(self) -> tuple[Fraction, Fraction, Fraction, Fraction]:
        """Least x, least y, greatest x, greatest y."""
        xs, ys = [p[0] for p in self.outer], [p[1] for p in self.outer]
        return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole to cut for a pipe, a valve or a drain: its centre on the face. It may reach over the edge of the piece.

    A drain's grate is square: `diameter` is its side.
    """

    kind: str                       # as the job's Penetration
    name: str                       # its label, or ""
    x: Fraction
    y: Fraction
    diameter: Fraction


@dataclass(frozen=True, slots=True)
class Run:
    """Full tiles at equal distances along a line: nothing is cut off any of them.

    first   corners of the first tile, in order round it, from its lower left in the tile's own frame
    step    from one tile to the next
    """

    first: Ring
    step: Point
    count: int

    def tiles(self) -> Iterator[Ring]:
        for n in range(self.count):
            dx, dy = self.step[0] * n, self.step[1] * n
            yield tuple((x + dx, y + dy) for x, y in self.first)


@dataclass(frozen=True, slots=True)
class Piece:
    """One tile that is cut, or full with a hole in it or a cut across it.

    number  of its row in the cut list of the surface: what is written on the drawing
    tile    corners of the whole tile it is cut from, as it would lie
    folds   cuts across it, both parts of which are laid, so that it follows two planes of a fall
    """

    number: int
    shape: Shape
    tile: Ring
    holes: tuple[Hole, ...] = ()
    folds: tuple[tuple[Point, Point], ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the cut list: pieces of one shape, cut with one setting of the saw.

    number      in the surface; pieces carry it
    kind        "width" (cut across its width only), "height", "both", "notch" (an inner corner is cut out), "slant", "hole" (only
                drilled), "fold" (cut in two along a fold, both parts laid)
    width, height  of the piece along the tile's own sides, in millimetres when shown
    sides       sides of the tile that are cut off: "left", "right", "low", "high", in the tile's own frame
    outline     its corners in the tile's own frame (metres, from its lower left corner as laid); pieces that are the same turned
                half round are one row, said as most of them lie
    notches     (side by side with the corner it is at) width and height of each notch, and of what a slant takes off; corners,
                like heights of holes and folds, are as drawn: on a floor "lower" is towards the foot of the plan
    thin        narrower somewhere than is worth cutting: it chips, and it shows
    chips       mosaic: per direction ("across", "up") that is cut, how many whole chips, and what is left of the next
    hands       outlines with their counts: one size of rectangle may be needed with the cut at this corner or at that one
    ends        sloping cut: the two lengths of the piece at its ends (left and right, or low and high), else ()
    """

    number: int
    kind: str
    width: Quantity
    height: Quantity
    count: Quantity
    sides: tuple[str, ...]
    outline: Shape
    notches: tuple[tuple[str, Quantity, Quantity], ...] = ()
    ends: tuple[Quantity, ...] = ()
    holes: tuple[tuple[str, Quantity, Quantity, Quantity], ...] = ()  # name, from the left, from below, diameter
    folds: tuple[tuple[Quantity, Quantity, Quantity, Quantity], ...] = ()  # from (left, from below) to the same
    hands: tuple[tuple[Shape, int], ...] = ()
    chips: tuple[tuple[str, Quantity, Quantity], ...] = ()
    thin: bool = False


@dataclass(frozen=True, slots=True)
class Way:
    """How a start is said in one direction: "tile on centre"; or by a measure that comes before the words.

    lead    what the measure is: "first cut" (then "at the left"), "gap" (then "before a full tile at the left")
    """

    words: str
    cut: Quantity | None = None
    lead: str = "first cut"


@dataclass(frozen=True, slots=True)
class Criterion:
    """One thing that a good set-out is judged by. Less is better; they are compared in their order.

    name    wording key: "slivers", "small-cuts", "unbalanced", "eye-line", "doorway", "external-corner", "joints-through",
            "cuts", "tiles"
    """

    name: str
    value: Quantity


@dataclass(frozen=True, slots=True)
class Candidate:
    """A start with what it leads to. `words`: how a tiler would say it, across and upwards."""

    words: tuple[Way, Way]
    across: Fraction                # where the lattice stands: lower left corner of the first tile
    up: Fraction
    score: tuple[Criterion, ...]


@dataclass(frozen=True, slots=True)
class Begin:
    """Where the courses of a layout start.

    across, up  the upright and the level control line: plumb and datum line on a wall, two chalk lines on a floor
    first       corners of the tile to lay first
    words       how the start is said, or was found, across and upwards
    found       "across", "up": the directions that the spec leaves open
    chosen, runner_up  where something was searched for; else None
    """

    across: Quantity
    up: Quantity
    first: Ring
    words: tuple[Way, Way]
    found: tuple[str, ...] = ()
    chosen: Candidate | None = None
    runner_up: Candidate | None = None


@dataclass(frozen=True, slots=True)
class Face:
    """A plane that is tiled, or could be: what is set out on it is the tile plane.

    id      the surface's id; added faces: "<surface id>/niche 1 back", "/window 1 left", "/boxing 1 front"
    kind    "floor", "wall", "niche", "reveal", "boxing"
    side    of added faces: "back", "left", "right", "top", "bottom", "front"
    outline the tile plane: bare wall less bed and tile of the walls at its sides, less the joint at its edges
    holes   what is left out of it: openings, what is not tiled, mouths of niches
    across, up  known places along it, each with its reason
    set_back    (side, reason): what its sides are set back by
    origin      added faces: where their own (0, 0) lies on the surface, in the directions that they share with it
    spot        added faces: the middle of what they belong to, on the surface
    lining      the tile of a niche that is lined with another one
    """

    id: str
    surface: str
    kind: str
    side: str
    outline: Ring
    holes: tuple[Ring, ...]
    across: Scale
    up: Scale
    set_back: tuple[tuple[str, Quantity], ...] = ()
    origin: tuple[Quantity | None, Quantity | None] = (None, None)
    spot: Point | None = None
    lining: Tile | None = None


@dataclass(frozen=True, slots=True)
class Layout:
    """One tile laid over one region of a face.

    width, height, joint  of one piece as laid (the sheet of a mosaic), measured work size where there is one
    region      what it covers, joints included
    area        of the region; of its tiles: `tile_area`
    """

    face: str
    surface: str
    role: str                       # "field", "band", "panel", "border", "niche", "reveal", "boxing"
    covering: Covering
    width: Quantity
    height: Quantity
    region: tuple[Shape, ...]
    area: Quantity
    begin: Begin
    runs: tuple[Run, ...]
    pieces: tuple[Piece, ...]
    rows: tuple[Row, ...]
    full: Quantity                  # count of full tiles without a hole

    @property
    def tile(self) -> Tile:
        return self.covering.tile

    @property
    def joint(self) -> Quantity:
        return self.covering.joint

    @property
    def tile_area(self) -> Fraction:
        whole = self.width.value * self.height.value
        return whole * sum(r.count for r in self.runs) + sum((p.shape.area for p in self.pieces), Fraction(0))


@dataclass(frozen=True, slots=True)
class Alignment:
    """Joints that run through from one layout to another, or by how much they miss.

    kind    "corner" (courses round a corner), "floor-wall", "niche", "band"
    off     by how much they miss; 0 where they run through
    asked   the spec asks for it
    """

    kind: str
    first: str                      # face ids
    second: str
    off: Quantity
    asked: bool


@dataclass(frozen=True, slots=True)
class Height:
    """Height of the finished floor at a place of it, against the finished floor at its edge (negative: lower)."""

    name: str                       # "corner D A", "drain", "door in wall C"
    x: Fraction
    y: Fraction
    height: Quantity


@dataclass(frozen=True, slots=True)
class Slope:
    """One plane of a fall: from the edge at this side down to the drain."""

    side: str                       # "wall A", "level floor, right" ...
    run: Quantity
    fall: Quantity
    shape: Ring


@dataclass(frozen=True, slots=True)
class Falls:
    """The floor's fall: the area that falls, its planes, its heights, and the lines of the envelope cuts."""

    room: str
    area: Ring
    planes: tuple[Slope, ...]
    heights: tuple[Height, ...]
    lines: tuple[tuple[Point, Point], ...]
    threshold_bed: Quantity | None = None   # bed under the tile at the door, where the levels are known


@dataclass(frozen=True, slots=True)
class SetOut:
    faces: tuple[Face, ...]
    layouts: tuple[Layout, ...]
    alignments: tuple[Alignment, ...] = ()
    falls: tuple[Falls, ...] = ()

    def face(self, face: str) -> Face:
        return next(f for f in self.faces if f.id == face)

    def on(self, surface: str) -> tuple[Layout, ...]:
        """Everything laid on a surface, its added faces included."""
        return tuple(x for x in self.layouts if x.surface == surface)


# ---------------------------------------------------------------- offcuts

@dataclass(frozen=True, slots=True)
class Cutting:
    """How some whole tiles are cut up, all the same way. `pieces`: (surface id, number in its cut list, how many a tile)."""

    tiles: int
    pieces: tuple[tuple[str, int, int], ...]
    boxes: tuple[tuple[str, int, Fraction, Fraction, Fraction, Fraction], ...] = ()
    # where each lies in the tile: surface, number, left, low, width, height


@dataclass(frozen=True, slots=True)
class OffcutPlan:
    """Which cut pieces come from which tiles, for one article.

    whole       tiles that stay whole; cut: tiles that are cut up
    bound       fewest that any plan could cut up; gap = cut - bound
    first_fit   tiles that the usual way takes: the next piece from the first offcut that is large enough
    proven      no plan takes fewer
    """

    tile: Tile
    whole: Quantity
    cut: Quantity
    bound: Quantity
    first_fit: Quantity
    proven: bool
    kerf: Quantity
    cuttings: tuple[Cutting, ...]
