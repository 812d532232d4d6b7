"""The nominal courses of a covering: where they start, and their joints as lines. Orientation only, nothing is cut here.

Lengths are metres in the surface's own coordinates (walls: y up; floors: y down), as floats: nothing here is measured or printed
but the control lines, which are quantities.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor, sqrt

from tilespec.document.drawing.shape import Box, Line, Polygon, Spot, bounds, inside, rectangle
from tilespec.job.types import Covering, Room, Surface
from tilespec.quantity import Kind, Quantity, work

# More lines than these are noise on paper (and a large file).
MOST_LINES = 5000
# Courses closer than this on paper (mm) run into each other.
CLOSEST = 1.0
_TURN = sqrt(0.5)
_SOURCE = "start of the set-out"


@dataclass(frozen=True, slots=True)
class Begin:
    """Where the courses of a covering start.

    across     the upright control line: plumb line on a wall, first chalk line on a floor
    up         the level control line: datum on a wall, second chalk line on a floor
    first      the corner of the first tile with the smallest x and y
    words      the start as said, and what was not said
    """

    across: Quantity
    up: Quantity
    first: Spot
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Extent:
    """One direction of the surface: its beginning (None: nought) and size."""

    low: Quantity | None
    size: Quantity

    @property
    def middle(self) -> Quantity:
        if self.low is None:
            return work("length / 2", "m", source=_SOURCE, length=self.size)
        return work("beginning + length / 2", "m", source=_SOURCE, beginning=self.low, length=self.size)

    @property
    def end(self) -> Quantity:
        if self.low is None:
            return self.size
        return work("beginning + length", "m", source=_SOURCE, beginning=self.low, length=self.size)


def _door_wall(room: Room) -> Surface | None:
    return next((s for s in room.wall_surfaces for o in s.openings if o.kind in ("door", "opening")), None)


def begin(covering: Covering, surface: Surface, room: Room, low: tuple[Quantity | None, Quantity | None]) -> Begin:
    """Where the courses start. `low`: the floor's least x and y where they are not nought."""
    tile, joint, start = covering.tile, covering.joint, covering.start
    w, h, j = float(tile.width.value), float(tile.height.value), float(joint.value)
    region = covering.region
    wide = _Extent(region.x, region.width) if region else _Extent(low[0], surface.width)
    top = surface.tiled_height if surface.kind == "wall" and surface.tiled_height else surface.height
    high = _Extent(region.y, region.height) if region else _Extent(low[1], top)
    words: list[str] = []

    def centred(extent: _Extent, size: float, tile_on: bool) -> tuple[Quantity, float]:
        line = extent.middle
        return line, float(line.value) - size / 2 if tile_on else float(line.value) + j / 2

    across_said, up_said = start.across, start.up
    if region and across_said == "found" and surface.field:
        # A band lies in the field's courses unless it says otherwise.
        across_said = surface.field.start.across if "centre" in surface.field.start.across else across_said
    x_line, x = centred(wide, w, tile_on=False)
    y_line: Quantity | None = None
    y = 0.0
    floor_ = surface.kind == "floor"
    if across_said in ("tile on centre", "joint on centre"):
        x_line, x = centred(wide, w, across_said.startswith("tile"))
        words.append(across_said)
        if floor_ and up_said == "found":
            y_line, y = centred(high, h, across_said.startswith("tile"))
            words[-1] += " both ways"
    elif across_said == "from left":
        x_line = (
            tile.width
            if wide.low is None
            else work("left + tile_width", "m", source=_SOURCE, left=wide.low, tile_width=tile.width)
        )
        x = float(x_line.value) - w
        words.append("full tile from the left")
    elif across_said == "from right":
        x_line = work("right - tile_width", "m", source=_SOURCE, right=wide.end, tile_width=tile.width)
        x = float(x_line.value)
        words.append("full tile from the right")
    elif across_said == "full tile at drain" and surface.penetrations:
        drain = next((p for p in surface.penetrations if p.kind in ("drain", "channel")), surface.penetrations[0])
        x_line, x = drain.x, float(drain.x.value) - w / 2
        if floor_:
            y_line, y = drain.y, float(drain.y.value) - h / 2
        words.append("tile centred on the drain")
    elif across_said in ("full tile at door", "full tile at window") and not floor_:
        kind = across_said.rsplit(" ", 1)[1]
        opening = next((o for o in surface.openings if o.kind == kind), None)
        if opening:
            x_line, x = opening.rect.x, float(opening.rect.x.value) - w - j / 2
            words.append(f"full tile to the left of the {kind}")
    elif across_said == "full tile at door" and floor_ and (found := _door_wall(room)):
        wall = found
        line = next(s for s in room.walls if s.letter == wall.letter)
        a, b = line.start, line.end
        if a[1] == b[1]:
            inward = b[0] > a[0]
            y_line = _at(high, float(a[1]), tile.height, inward)
            y = float(a[1]) if inward else float(a[1]) - h
            x_line, x = centred(wide, w, tile_on=False)
            words.append(f"full tile at the door in wall {wall.letter}, joint on centre along it")
        elif a[0] == b[0]:
            inward = b[1] < a[1]
            x_line = _at(wide, float(a[0]), tile.width, inward)
            x = float(a[0]) if inward else float(a[0]) - w
            y_line, y = centred(high, h, tile_on=False)
            words.append(f"full tile at the door in wall {wall.letter}, joint on centre along it")
    if not words:
        words.append("start across not stated: drawn with a joint on centre")
    if y_line is None:
        if floor_:
            y_line, y = centred(high, h, tile_on=False)
            words.append("start the other way not stated: drawn with a joint on centre")
        elif up_said in ("full tile at datum", "found") and not region:
            y_line, y = room.levels.datum, float(room.levels.datum.value)
            words.append(
                "full tile on the datum line"
                if up_said != "found"
                else "start up not stated: drawn with a full tile on the datum line"
            )
        elif up_said in ("full tile at top", "from top"):
            y_line, y = room.levels.datum, float(high.end.value) - h
            words.append("full tile at the top")
        else:
            y_line, y = room.levels.datum, float(high.low.value) if high.low else 0.0
            words.append("full tile from the bottom" if region else "full tile on the finished floor")
    return Begin(x_line, y_line, (x, y), tuple(words))


def _at(extent: _Extent, line: float, tile: Quantity, inward: bool) -> Quantity:
    """The control line one full tile inside the wall at `line`."""
    if inward:
        return tile if extent.low is None else work("beginning + tile", "m", source=_SOURCE, beginning=extent.low, tile=tile)
    return work("end - tile", "m", source=_SOURCE, end=extent.end, tile=tile)


def first_tile(covering: Covering, at: Begin, into: Polygon, out_of: tuple[Polygon, ...]) -> Polygon:
    """The tile to lay first: the one at the start, or the nearest of its course that lies in the field."""
    w, h, j = (float(q.value) for q in (covering.tile.width, covering.tile.height, covering.joint))
    x, y = at.first
    slanting = covering.pattern.name in ("diagonal", "herringbone")

    def placed(step: int) -> Polygon:
        shape = rectangle(x + step * (w + j), y, w, h)
        return tuple(_turned(s, (x, y)) for s in rectangle(x, y, w, h)) if slanting else shape

    # By its middle; in a low strip by its foot or its head.
    for share in (0.5, 0.1, 0.9):
        for step in (0, 1, -1, 2, -2, 3, -3):
            shape = placed(step)
            box = bounds(shape)
            spot = (box.middle[0], box.top + share * box.height)
            if inside(spot, into) and not any(inside(spot, p) for p in out_of):
                return shape
    return placed(0)


def _turned(spot: Spot, about: Spot) -> Spot:
    dx, dy = spot[0] - about[0], spot[1] - about[1]
    return about[0] + (dx - dy) * _TURN, about[1] + (dx + dy) * _TURN


def _turned_back(spot: Spot, about: Spot) -> Spot:
    dx, dy = spot[0] - about[0], spot[1] - about[1]
    return about[0] + (dx + dy) * _TURN, about[1] + (dy - dx) * _TURN


def _shift(covering: Covering, course: int, module: float) -> float:
    """How far a course is moved along, in metres."""
    pattern = covering.pattern
    shares = {"half": 0.5, "third": 1 / 3, "quarter": 0.25}
    if pattern.name == "run" and pattern.run is not None:
        step = float(pattern.run.value) if pattern.run.kind is Kind.LENGTH else float(pattern.run.value) * module
    else:
        step = shares.get(pattern.name, 0.0) * module
    return (course * step) % module if pattern.stepped else (course % 2) * step


def _steps(low: float, high: float, origin: float, module: float) -> range:
    return range(ceil((low - origin) / module - 1e-9), floor((high - origin) / module + 1e-9) + 1)


def _straight(covering: Covering, at: Spot, area: Box, courses_only: bool) -> Iterator[Line]:
    j = float(covering.joint.value)
    across, up = float(covering.tile.width.value) + j, float(covering.tile.height.value) + j
    x, y = at[0] - j / 2, at[1] - j / 2
    for n in _steps(area.top, area.bottom, y, up):
        yield area.left, y + n * up, area.right, y + n * up
    if courses_only:
        return
    if covering.pattern.name in ("half", "third", "quarter", "run"):
        for n in range(floor((area.top - y) / up), ceil((area.bottom - y) / up)):
            low, high = max(area.top, y + n * up), min(area.bottom, y + (n + 1) * up)
            origin = x + _shift(covering, n, across)
            for k in _steps(area.left, area.right, origin, across):
                yield origin + k * across, low, origin + k * across, high
        return
    for n in _steps(area.left, area.right, x, across):
        yield x + n * across, area.top, x + n * across, area.bottom


def _herringbone(covering: Covering, at: Spot, area: Box) -> Iterator[Line]:
    """Left and lower edges of every tile of the right-angled herringbone: together they are all joints.

    Pairs (one lying, one standing on its left end) repeat by (b, b) and (a, -a), a and b being the sides with their joint.
    """
    j = float(covering.joint.value)
    sides_ = sorted((float(covering.tile.width.value) + j, float(covering.tile.height.value) + j))
    b, a = sides_
    along = [((cx - at[0] + cy - at[1]) / (2 * b), (cx - at[0] - cy + at[1]) / (2 * a)) for cx, cy in area.grown(a + b).corners]
    for i in range(floor(min(p[0] for p in along)), ceil(max(p[0] for p in along)) + 1):
        for k in range(floor(min(p[1] for p in along)), ceil(max(p[1] for p in along)) + 1):
            x, y = at[0] + i * b + k * a - j / 2, at[1] + i * b - k * a - j / 2
            for left, low, wide, high in ((x, y, a, b), (x, y + b, b, a)):
                if left < area.right and left + wide > area.left and low < area.bottom and low + high > area.top:
                    yield left, low, left, low + high
                    yield left, low, left + wide, low


def _basket(covering: Covering, at: Spot, area: Box) -> Iterator[Line]:
    """Square blocks of lying and standing tiles by turns."""
    j = float(covering.joint.value)
    b, a = sorted((float(covering.tile.width.value) + j, float(covering.tile.height.value) + j))
    number = max(1, round(a / b))
    block = number * b
    x, y = at[0] - j / 2, at[1] - j / 2
    for n in _steps(area.top, area.bottom, y, block):
        yield area.left, y + n * block, area.right, y + n * block
    for n in _steps(area.left, area.right, x, block):
        yield x + n * block, area.top, x + n * block, area.bottom
    for n in range(floor((area.left - x) / block), ceil((area.right - x) / block)):
        for m in range(floor((area.top - y) / block), ceil((area.bottom - y) / block)):
            left, low = x + n * block, y + m * block
            for i in range(1, number):
                if (n + m) % 2:
                    yield left + i * b, low, left + i * b, low + block
                else:
                    yield left, low + i * b, left + block, low + i * b


def joints(covering: Covering, at: Begin, area: Box, scale: int) -> tuple[tuple[Line, ...], bool]:
    """The joints over an upright area as lines (not yet clipped), and whether all of them are there.

    Where they would lie too close on paper only the courses are drawn, and where these do too, nothing.
    """
    j = float(covering.joint.value)
    across, up = float(covering.tile.width.value) + j, float(covering.tile.height.value) + j
    fine = CLOSEST * scale / 1000
    number = (area.width / across + 2) * (area.height / up + 2) * 2
    name = covering.pattern.name
    if min(across, up) < fine or number > MOST_LINES:
        close = up < fine or name in ("diagonal", "herringbone", "basket") or area.height / up > MOST_LINES
        return (() if close else tuple(_straight(covering, at.first, area, True))), False
    if name == "basket":
        return tuple(_basket(covering, at.first, area)), True
    if name in ("diagonal", "herringbone"):
        # Laid out straight over an area that holds the turned one, then turned about the first tile's corner.
        wide = bounds(_turned_back(c, at.first) for c in area.corners)
        lines = _herringbone(covering, at.first, wide) if name == "herringbone" else _straight(covering, at.first, wide, False)
        return tuple((*_turned((x1, y1), at.first), *_turned((x2, y2), at.first)) for x1, y1, x2, y2 in lines), True
    return tuple(_straight(covering, at.first, area, False)), True
