"""A surface's field as an outline whose edges know where they come from, so that every area can be followed on paper."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tilespec.job.types import Point, Rect, Room, Surface
from tilespec.quantity import UNITS, Counted, Kind, Quantity, Worked, work
from tilespec.quantity.total import total
from tilespec.setout import geometry
from tilespec.setout.geometry import Box

_PLANE = "plane geometry"
_METRE = UNITS["m"]
_EDGES = {"low": "lower edge", "high": "upper edge", "left": "left edge", "right": "right edge"}


def nought(of: str) -> Quantity:
    """The start of a scale: the edge that lengths are measured from."""
    return Quantity(Fraction(0), Kind.LENGTH, _METRE, Counted(of))


def place(value: Fraction, surface: Quantity) -> Quantity:
    """A place that no statement names, found where edges of the surface meet."""
    return Quantity(value, Kind.LENGTH, _METRE, Worked("place where edges meet", (("surface", surface),), _PLANE))


@dataclass(frozen=True, slots=True)
class Test:
    """A point counts when it lies in one of `within` (where any are named) and in none of `without`."""

    within: tuple[Box, ...] = ()
    without: tuple[Box, ...] = ()

    def __call__(self, x: Fraction, y: Fraction) -> bool:
        return (not self.within or any(b.holds(x, y) for b in self.within)) and not any(b.holds(x, y) for b in self.without)


@dataclass(frozen=True, slots=True)
class Scale:
    """Where things lie along one direction: known places, each with its reason."""

    places: tuple[tuple[Fraction, Quantity], ...]
    whole: Quantity                 # length of the surface in this direction, to fall back on

    def at(self, value: Fraction) -> Quantity:
        for known, q in self.places:
            if known == value:
                return q
        return place(value, self.whole)

    def between(self, start: Fraction, end: Fraction) -> Quantity:
        far = self.at(end)
        return far if start == 0 else work("far_edge - near_edge", "m", source=_PLANE, far_edge=far, near_edge=self.at(start))


@dataclass(frozen=True, slots=True)
class Named:
    """A rectangle with a name for the formula."""

    name: str
    rect: Rect

    @property
    def box(self) -> Box:
        return geometry.box(self.rect)


def numbered(name: str, rects: Sequence[Rect]) -> tuple[Named, ...]:
    """Rectangles of one sort: "window", or "window 1", "window 2" where there are several."""
    if len(rects) == 1:
        return (Named(name, rects[0]),)
    return tuple(Named(f"{name} {n}", r) for n, r in enumerate(rects, 1))


@dataclass(frozen=True, slots=True)
class Frame:
    """An outline and the places known on it. `gross` is its area."""

    outline: tuple[Point, ...]
    box: Box
    across: Scale
    up: Scale
    gross: Quantity

    @property
    def upright(self) -> bool:
        return geometry.upright(self.outline)

    def meets(self, piece: Box) -> bool:
        part = piece.within(self.box)
        return part.right > part.left and part.high > part.low and geometry.polygon_area(geometry.clip(self.outline, part)) > 0

    def holds(self, x: Fraction, y: Fraction) -> bool:
        return self.box.holds(x, y) if self.upright else geometry.holds(self.outline, x, y)

    def area(self, named: Sequence[Named], of: str, inside: Callable[[Fraction, Fraction], bool] | None = None) -> Quantity:
        """Area of the union of rectangles inside the outline; overlaps count once.

        `inside` narrows it: a point counts only where it is true. It may ask about the rectangles in `named` only.
        """
        kept = [n for n in named if self.meets(n.box)]
        boxes = [n.box for n in kept]
        if inside is None and self._plain(boxes):
            return total([(n.name, rect_area(n.rect)) for n in kept], "m2", of=of)

        def counts(x: Fraction, y: Fraction) -> bool:
            return any(b.holds(x, y) for b in boxes) and (inside is None or inside(x, y))

        terms: list[tuple[str, Quantity]] = []
        for piece in geometry.cut(boxes, self.box, counts):
            if q := self._piece(piece, kept):
                terms.append((f"part {len(terms) + 1}", q))
        return total(terms, "m2", of=of, source="parts that do not overlap")

    def area_without(self, named: Sequence[Named], without: Sequence[Named], of: str) -> Quantity:
        """The same, less what lies in other rectangles."""
        cuts = tuple(n.box for n in without)
        if not any(n.box.meets(c) for n in named for c in cuts):
            return self.area(named, of)
        return self.area((*named, *without), of, Test(tuple(n.box for n in named), cuts))

    def rim(
        self, rect: Rect, region: Callable[[Fraction, Fraction], bool], boxes: Sequence[Box],
    ) -> tuple[tuple[str, Quantity], ...]:
        """The edges of a rectangle that border on a region, each with its length. `boxes` bound the region."""
        b = geometry.box(rect)
        result: list[tuple[str, Quantity]] = []
        for side, start, end in geometry.rim(b, region, boxes):
            level = side in ("low", "high")
            whole = end - start == (b.right - b.left if level else b.high - b.low)
            sized = rect.width if level else rect.height
            result.append((_EDGES[side], sized if whole else (self.across if level else self.up).between(start, end)))
        return tuple(result)

    def _plain(self, boxes: Sequence[Box]) -> bool:
        """All lie wholly inside the outline and apart from each other."""
        apart = not any(a.meets(b) for i, a in enumerate(boxes) for b in boxes[i + 1:])
        inside = (b.within(self.box) == b and geometry.polygon_area(geometry.clip(self.outline, b)) == b.area for b in boxes)
        return apart and all(inside)

    def _piece(self, piece: Box, named: Sequence[Named]) -> Quantity | None:
        points = geometry.clip(self.outline, piece)
        size = geometry.polygon_area(points)
        if size == 0:
            return None
        if size == piece.area:
            for n in named:
                if n.box == piece:
                    return rect_area(n.rect)
            width, height = self.across.between(piece.left, piece.right), self.up.between(piece.low, piece.high)
            return work("width * height", "m2", source=_PLANE, width=width, height=height)
        return shoelace(points, self.across, self.up)


def rect_area(rect: Rect) -> Quantity:
    return work("width * height", "m2", source=_PLANE, width=rect.width, height=rect.height)


def shoelace(points: Sequence[Point], across: Scale, up: Scale) -> Quantity:
    """Area of any straight-sided outline from its corners: half the sum of x1·y2 − x2·y1 round the outline."""
    corners = [p for p, after in geometry.sides(points) if p != after]
    if geometry.twice_area(corners) < 0:
        corners.reverse()
    n = len(corners)
    inputs = {f"x{i}": across.at(p[0]) for i, p in enumerate(corners, 1)}
    inputs |= {f"y{i}": up.at(p[1]) for i, p in enumerate(corners, 1)}
    formula = " + ".join(f"x{i} * y{i % n + 1} - x{i % n + 1} * y{i}" for i in range(1, n + 1))
    return work(f"({formula}) / 2", "m2", source="shoelace formula over the corners of the outline", **inputs)


def _edges(rects: Sequence[Rect]) -> tuple[list[tuple[Fraction, Quantity]], list[tuple[Fraction, Quantity]]]:
    across: list[tuple[Fraction, Quantity]] = []
    up: list[tuple[Fraction, Quantity]] = []
    for r in rects:
        across += [(r.x.value, r.x), (r.right, work("left + width", "m", source=_PLANE, left=r.x, width=r.width))]
        up += [(r.y.value, r.y), (r.top, work("bottom + height", "m", source=_PLANE, bottom=r.y, height=r.height))]
    return across, up


def _walked(room: Room, axis: int) -> list[tuple[Fraction, Quantity]]:
    """Corners of a walked floor along one axis, each from the walls walked before it."""
    result: list[tuple[Fraction, Quantity]] = []
    formula, inputs = "", {}
    for wall in room.walls:
        step, other = wall.end[axis] - wall.start[axis], wall.end[1 - axis] - wall.start[1 - axis]
        if step == 0:
            continue
        if other != 0 or abs(step) != wall.length.value:
            return []
        name = f"wall_{wall.letter}"
        sign = "+" if step > 0 else "-"
        formula = f"{formula} {sign} {name}".strip().removeprefix("+ ")
        inputs[name] = wall.length
        if wall.end[axis] != 0:
            result.append((wall.end[axis], work(formula, "m", source="walls walked in order", **inputs)))
    return result


def frame(surface: Surface, room: Room, rects: Sequence[Rect], top: Quantity | None = None) -> Frame:
    """The field of a surface, cut off at `top` where tiling stops lower.

    `rects`: everything whose edges may bound a part of it.
    """
    outline = surface.outline
    whole = geometry.bounds(outline)
    height = surface.height
    limited = top is not None and top.value < whole.high
    if top is not None and limited:
        height = top
        outline = geometry.clip(outline, Box(whole.left, whole.low, whole.right, top.value))
    box = geometry.bounds(outline) if outline else Box(whole.left, whole.low, whole.right, whole.low)
    left, low = nought("left edge of the surface"), nought("lower edge of the surface")
    across: list[tuple[Fraction, Quantity]] = [(left.value, left), (surface.width.value, surface.width)]
    up: list[tuple[Fraction, Quantity]] = [(low.value, low), (height.value, height)]
    if surface.measured_heights:
        up += [(q.value, q) for q in surface.measured_heights]
    if surface.kind == "floor":
        across += _walked(room, 0)
        up += _walked(room, 1)
    more_across, more_up = _edges(rects)
    scale_x, scale_y = Scale(tuple(across + more_across), surface.width), Scale(tuple(up + more_up), surface.height)
    plain = geometry.upright(outline) and box == Box(Fraction(0), Fraction(0), surface.width.value, height.value)
    if plain:
        sizes = {"width": surface.width, "depth" if surface.kind == "floor" else "tiled_height" if limited else "height": height}
        gross = work(" * ".join(sizes), "m2", source=_PLANE, **sizes)
    else:
        gross = shoelace(outline, scale_x, scale_y)
    return Frame(tuple(outline), box, scale_x, scale_y, gross)
