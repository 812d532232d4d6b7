"""The cut list: pieces of one shape are one row, numbered as they are drawn; each size is worked out from where its edges lie."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import hypot

from tilespec.job.types import Point, Tile
from tilespec.quantity import UNITS, Kind, Quantity, Worked, counted, work
from tilespec.setout.area import shapes, straight
from tilespec.setout.engine import Filled, Lattice
from tilespec.setout.geometry import anticlockwise, twice_area, unlike
from tilespec.setout.start import Site
from tilespec.setout.types import Piece, Ring, Row, Shape

_SOURCE = "where the courses meet the edge of the tile plane"
_KINDS = ("width", "height", "both", "notch", "slant", "fold", "hole")
# Slanted cuts are grouped to a tenth of a millimetre: nobody cuts finer.
_FINE = 10**4
_EDGE = Fraction(1, 10**6)
_CORNERS = {(0, 0): "lower left", (1, 0): "lower right", (1, 1): "upper right", (0, 1): "upper left"}


def has_direction(tile: Tile) -> bool:
    """A veined stone may not be turned round: its pieces are left-handed or right-handed."""
    return tile.stone and not tile.mosaic


@dataclass(frozen=True, slots=True)
class _Local:
    """A piece in the frame of the tile it is cut from: its outline, its holes, and which way it was turned."""

    shape: Shape
    holes: tuple[tuple[str, str, Fraction, Fraction, Fraction], ...]  # kind, name, x, y, diameter
    width: Fraction                 # of the whole tile
    height: Fraction
    folds: tuple[tuple[Point, Point], ...] = ()


def cut_list(filled: Filled, site: Site, lattice: Lattice, starts: tuple[Quantity, Quantity], first: int) -> tuple[
    tuple[Piece, ...], tuple[Row, ...],
]:
    """The pieces with their numbers, and the rows of the cut list from number `first`."""
    tile = site.covering.tile
    groups: dict[_Local, list[tuple[_Local, Piece]]] = {}
    for piece in filled.pieces:
        local = _local(piece, lattice)
        if not local.shape.outer:
            # Less than the tenth of a millimetre that slanted cuts are worked to.
            continue
        groups.setdefault(_canonical(local, tile), []).append((local, piece))
    # Rectangles of one size come off the saw with one setting, whichever corner of the tile they keep.
    settings: dict[tuple[str, Fraction, Fraction] | _Local, list[tuple[_Local, list[Piece]]]] = {}
    for local, alike in groups.items():
        pieces = [p for _, p in alike]
        kind = _kind(local)
        plain = kind in ("width", "height", "both") and not local.holes and not local.folds
        x1, y1, x2, y2 = local.shape.bounds
        settings.setdefault((kind, x2 - x1, y2 - y1) if plain else local, []).append((local, pieces))
    made = [(_kind(same[0][0]), same) for same in settings.values()]
    made.sort(key=lambda m: (_KINDS.index(m[0]), *_order(m[1][0][0])))
    rows: list[Row] = []
    numbered: list[Piece] = []
    for n, (kind, same) in enumerate(made, first):
        together = [p for _, pieces in same for p in pieces]
        row = _row(n, kind, _as_most_lie(groups[same[0][0]]), together, site, lattice, starts)
        rows.append(replace(row, hands=tuple((local.shape, len(pieces)) for local, pieces in same)))
        numbered += [replace(p, number=n) for p in together]
    return tuple(numbered), tuple(rows)


def _as_most_lie(alike: Sequence[tuple[_Local, Piece]]) -> _Local:
    """Of pieces that are turned half round against each other: as most of them are laid, and drawn."""
    counts = Counter(local for local, _ in alike)
    return max(counts, key=lambda local: counts[local])


def _order(local: _Local) -> tuple[Fraction, Fraction, Fraction, tuple[Point, ...]]:
    x1, y1, x2, y2 = local.shape.bounds
    return -(x2 - x1), -(y2 - y1), -local.shape.area, local.shape.outer


# ---------------------------------------------------------------- the tile's own frame

def _local(piece: Piece, lattice: Lattice) -> _Local:
    (x0, y0), (x1, y1), _, (x3, y3) = piece.tile
    if y1 == y0 and x3 == x0 and x1 > x0 and y3 > y0:
        # Neither turned nor slanted: exact.
        width, height = x1 - x0, y3 - y0

        def exact(p: Point) -> Point:
            return p[0] - x0, p[1] - y0

        make: Callable[[Point], Point] = exact
    else:
        long, high = hypot(x1 - x0, y1 - y0), hypot(x3 - x0, y3 - y0)
        ux, uy, vx, vy = (float(v) for v in ((x1 - x0) / Fraction(long), (y1 - y0) / Fraction(long),
                                            (x3 - x0) / Fraction(high), (y3 - y0) / Fraction(high)))
        lying = abs(long - float(lattice.width)) <= abs(long - float(lattice.height))
        width, height = (lattice.width, lattice.height) if lying else (lattice.height, lattice.width)
        if lattice.pattern.second is not None and abs(long - float(lattice.width)) > 1e-6:
            width, height = _fine(long), _fine(high)

        def turned(p: Point) -> Point:
            dx, dy = float(p[0] - x0), float(p[1] - y0)
            return _near(_fine(dx * ux + dy * uy), width), _near(_fine(dx * vx + dy * vy), height)

        make = turned
    rings = [tuple(make(p) for p in ring) for ring in piece.shape.rings]
    if not straight(piece.shape.outer):
        rings = [tuple((_near(_fine(x), width), _near(_fine(y), height)) for x, y in ring) for ring in rings]
    holes = tuple(sorted((h.kind, h.name, *make((h.x, h.y)), h.diameter) for h in piece.holes))
    shape = Shape(rings[0], tuple(rings[1:]))
    folds = tuple(sorted(_line(make(a), make(b), width, height) for a, b in piece.folds))
    if (width, height) == (lattice.height, lattice.width) and width != height:
        # A tile that stands where the first one lies is the same tile turned.
        def laid_down(p: Point) -> Point:
            return p[1], width - p[0]

        shape, holes = _mapped(shape, holes, laid_down)
        folds = tuple(sorted(_line(laid_down(a), laid_down(b), height, width) for a, b in folds))
        width, height = height, width
    return _Local(_tidy(shape), holes, width, height, folds)


def _line(a: Point, b: Point, width: Fraction, height: Fraction) -> tuple[Point, Point]:
    """A cut across, from its lesser end, to a tenth of a millimetre."""
    ends = sorted((_near(_fine(x), width), _near(_fine(y), height)) for x, y in (a, b))
    return ends[0], ends[1]


def _fine(v: Fraction | float) -> Fraction:
    return Fraction(round(float(v) * _FINE), _FINE)


def _near(v: Fraction, size: Fraction) -> Fraction:
    """Rounding must not move a piece off the edge of its tile."""
    return Fraction(0) if abs(v) < Fraction(2, _FINE) else size if abs(v - size) < Fraction(2, _FINE) else v


_Holes = tuple[tuple[str, str, Fraction, Fraction, Fraction], ...]


def _mapped(shape: Shape, holes: _Holes, move: Callable[[Point], Point]) -> tuple[Shape, _Holes]:
    made = Shape(tuple(move(p) for p in shape.outer), tuple(tuple(move(p) for p in r) for r in shape.inner))
    return made, tuple(sorted((k, n, *move((x, y)), d) for k, n, x, y, d in holes))


def _tidy(shape: Shape) -> Shape:
    """Each ring anticlockwise from its least corner, without doubled corners; none of which rounding leaves nothing."""
    return Shape(_ring(shape.outer), tuple(sorted(ring for r in shape.inner if (ring := _ring(r)))))


def _ring(ring: Ring) -> Ring:
    ring = unlike(ring)
    if twice_area(ring) == 0:
        return ()
    ring = anticlockwise(ring)
    at = ring.index(min(ring))
    return ring[at:] + ring[:at]


def _canonical(local: _Local, tile: Tile) -> _Local:
    """A piece and the same turned half round come off the saw alike, unless the tile has a direction."""
    if has_direction(tile):
        return local

    def half_round(p: Point) -> Point:
        return local.width - p[0], local.height - p[1]

    shape, holes = _mapped(local.shape, local.holes, half_round)
    folds = tuple(sorted(_line(half_round(a), half_round(b), local.width, local.height) for a, b in local.folds))
    other = _Local(_tidy(shape), holes, local.width, local.height, folds)
    return min(local, other, key=lambda one: (one.shape.outer, one.shape.inner, one.holes, one.folds))


# ---------------------------------------------------------------- rows

def _kind(local: _Local) -> str:
    s = local.shape
    x1, y1, x2, y2 = s.bounds
    wide, high = x2 - x1 < local.width - _EDGE, y2 - y1 < local.height - _EDGE
    if not straight(s.outer):
        return "slant"
    if s.inner or s.area < (x2 - x1) * (y2 - y1):
        return "notch"
    return "both" if wide and high else "width" if wide else "height" if high else "fold" if local.folds else "hole"


def _row(
    number: int, kind: str, local: _Local, pieces: Sequence[Piece], site: Site, lattice: Lattice,
    starts: tuple[Quantity, Quantity],
) -> Row:
    s = local.shape
    x1, y1, x2, y2 = s.bounds
    sides = tuple(
        name for name, cut in (
            ("left", x1 > _EDGE), ("right", x2 < local.width - _EDGE), ("low", y1 > _EDGE), ("high", y2 < local.height - _EDGE),
        ) if cut
    )
    width, height = (_size(local, axis, pieces[0], site, lattice, starts) for axis in (0, 1))
    why = (("width", width), ("height", height), ("tile", site.width))

    def cut(value: Fraction, what: str) -> Quantity:
        return Quantity(value, Kind.LENGTH, UNITS["mm"], Worked(what, why, _SOURCE))

    def up(y: Fraction) -> Fraction:
        """From the piece's lower edge as it is drawn: in plan y runs down the page."""
        return y2 - y if site.floor else y - y1

    ends = _ends(local, cut) if kind == "slant" else ()
    notches: list[tuple[str, Quantity, Quantity]] = []
    if kind == "notch" or (kind == "slant" and not ends):
        for part in shapes(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), None, (), s.rings[:1]):
            a, b, c, d = part.bounds
            at = _place((a, c), (min(up(b), up(d)), max(up(b), up(d))), (x1, x2, y2 - y1))
            if kind == "slant":
                # A corner that is off names the part, however far it reaches.
                off = [(x, up(y)) for x, y in part.outer if x in (x1, x2) and y in (y1, y2) and (x, y) not in s.outer]
                at = _CORNERS[int(off[0][0] == x2), int(off[0][1] > 0)] if len(off) == 1 else at
            notches.append((at, cut(c - a, "width of the notch"), cut(d - b, "height of the notch")))
        for ring in s.inner:
            a, b, c, d = Shape(ring).bounds
            notches.append(("inside", cut(c - a, "width of the hole"), cut(d - b, "height of the hole")))
    holes = tuple(
        (name or k, cut(x - x1, "centre of the hole from the left"), cut(up(y), "centre of the hole from below"), cut(d, "hole"))
        for k, name, x, y, d in local.holes
    )
    folds = tuple(
        (cut(a[0] - x1, "start of the cut across, from the left"), cut(up(a[1]), "start of the cut across, from below"),
         cut(b[0] - x1, "end of the cut across, from the left"), cut(up(b[1]), "end of the cut across, from below"))
        for a, b in local.folds
    )
    count = counted(len(pieces), "pieces of one shape on a surface")
    row = Row(number, kind, width, height, count, sides, local.shape, tuple(notches), ends, holes, folds)
    return replace(row, chips=_chips(row, site)) if site.covering.tile.mosaic else row


def _chips(row: Row, site: Site) -> tuple[tuple[str, Quantity, Quantity], ...]:
    """A sheet is cut between its chips; what is left beyond the last whole one is cut chip by chip."""
    tile = site.covering.tile
    found = []
    for name, size, whole, chip in (("across", row.width, site.width, tile.chip_width), ("up", row.height, site.height,
                                                                                         tile.chip_height)):
        joint = tile.chip_joint
        if chip is None or joint is None or size.value == whole.value:
            continue
        number = work("floor((size + joint) / (chip + joint))", "count", source="chips of a sheet with their joints", size=size,
                      chip=chip, joint=joint)
        rest = work("max(size - chips * (chip + joint), 0 * joint)", "mm", source="what is left of the next chip", size=size,
                    chips=number, chip=chip, joint=joint)
        found.append((name, number, rest))
    return tuple(found)


def _place(across: tuple[Fraction, Fraction], up: tuple[Fraction, Fraction], of: tuple[Fraction, Fraction, Fraction]) -> str:
    """Where a part that is cut out lies in its piece, as drawn. `of`: the piece's left and right edge, and its height."""
    x1, x2, tall = of
    left, right, low, high = across[0] == x1, across[1] == x2, up[0] == 0, up[1] == tall
    if (left or right) and (low or high) and not (left and right) and not (low and high):
        return _CORNERS[int(right), int(high)]
    return "left" if left else "right" if right else "lower edge" if low else "upper edge" if high else "inside"


def _ends(local: _Local, cut: Callable[[Fraction, str], Quantity]) -> tuple[Quantity, ...]:
    """A piece between two upright (or level) sides of the tile with one sloping cut: its lengths at these sides."""
    x1, y1, x2, y2 = local.shape.bounds
    for axis, (low, high), names in ((0, (x1, x2), ("left", "right")), (1, (y1, y2), ("lower", "upper"))):
        lengths = []
        for at, name in zip((low, high), names, strict=True):
            along = [p[1 - axis] for p in local.shape.outer if p[axis] == at]
            if not along:
                return ()
            lengths.append(cut(max(along) - min(along), f"length at its {name} end"))
        if len(local.shape.outer) == 4 and all(q.value for q in lengths):
            return tuple(lengths)
    return ()


def _size(
    local: _Local, axis: int, piece: Piece, site: Site, lattice: Lattice, starts: tuple[Quantity, Quantity],
) -> Quantity:
    """The piece's size along one side of its tile, from the edge that cuts it and the course it lies in."""
    bounds = local.shape.bounds
    size = bounds[2 + axis] - bounds[axis]
    whole = site.size(axis)
    if size == whole.value:
        return whole
    fallback = Quantity(size, Kind.LENGTH, UNITS["mm"], Worked(
        "what the edge leaves of the tile", (("tile", whole), ("joint", site.covering.joint), ("start", starts[axis])), _SOURCE,
    ))
    if lattice.turned or not site.coursed or not straight(piece.shape.outer):
        return fallback
    low, high = piece.shape.bounds[axis], piece.shape.bounds[2 + axis]
    if high - low != size:
        return fallback
    a, b = piece.tile[0][axis], piece.tile[2][axis]
    scale, start, joint = site.scale(axis), starts[axis], site.covering.joint
    moved = _moved(a, axis, site, start)
    more = {} if moved is None else {"moved": moved}
    begin = "edge - start" if moved is None else "edge - start - moved"
    # What an edge leaves of the course that it cuts: the distance from the start, less whole tiles and joints.
    rest = f"{begin} - floor(({begin}) / (tile + joint)) * (tile + joint)"
    if low == a and high < b:
        made = work(rest, "mm", source=_SOURCE, edge=scale.at(high), start=start, tile=whole, joint=joint, **more)
    elif high == b and low > a:
        made = work(f"tile - ({rest})", "mm", source=_SOURCE, tile=whole, edge=scale.at(low), start=start, joint=joint, **more)
    else:
        made = work("far_edge - near_edge", "mm", source=_SOURCE, far_edge=scale.at(high), near_edge=scale.at(low))
    return made if made.value == size else fallback


def _moved(at: Fraction, axis: int, site: Site, start: Quantity) -> Quantity | None:
    """What a course of an offset bond is moved by against the first; None where it is not."""
    module = site.module(axis)
    moved = (at - start.value) % module
    if not moved:
        return None
    why = Worked("offset of this course", (("tile", site.size(axis)), ("joint", site.covering.joint)), "bond")
    return Quantity(moved, Kind.LENGTH, UNITS["mm"], why)
