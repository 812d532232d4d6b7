"""A fall on paper: the area that falls, where its planes meet, which way each runs, and heights at its corners."""

from __future__ import annotations

from collections.abc import Callable

from tilespec.document.drawing.dimension import SOURCE
from tilespec.document.drawing.shape import Box, Polygon, Spot, bounds, distance, sides
from tilespec.document.drawing.sheet import Sheet, arrow
from tilespec.document.drawing.tiles import floats
from tilespec.quantity import Quantity, work
from tilespec.setout.types import Falls

_SHORTEST = 10.0  # of an arrow's run on paper


def height_text(height: Quantity, sheet: Sheet) -> str:
    """A height with its sign: no number in a drawing of tiles that could be taken for that of a piece."""
    if height.value < 0:
        return "−" + sheet.say(work("height - height - height", "mm", source=SOURCE, height=height))
    return sheet.say("+", height) if height.value > 0 else sheet.say("±", height)


def draw_falls(falls: Falls, sheet: Sheet, place: Callable[[Spot], Spot], within: Polygon, heights: bool) -> None:
    p = sheet.picture
    area = tuple(place(a) for a in floats(falls.area))
    for a, b in sides(area):
        p.line("fall", (*a, *b))
        sheet.crossing.append((*a, *b))
    for one, two in falls.lines:
        line = (*place((float(one[0]), float(one[1]))), *place((float(two[0]), float(two[1]))))
        p.line("fall", line)
        sheet.crossing.append(line)
    drain = next((h for h in falls.heights if h.name == "drain"), None)
    target = place((float(drain.x), float(drain.y))) if drain is not None else bounds(area).middle
    slopes: list[tuple[Quantity, Spot, Spot]] = []
    for plane in falls.planes:
        shape = tuple(place(a) for a in floats(plane.shape))
        start, end = _way(shape, target)
        if distance(start, end) < _SHORTEST:
            continue
        arrow(p, start, end)
        sheet.crossing.append((*start, *end))
        sheet.taken.append(Box(end[0] - 0.9, end[1] - 0.9, end[0] + 0.9, end[1] + 0.9))
        slopes.append((plane.fall, start, end))
    if heights:
        for h in falls.heights:
            text = height_text(h.height, sheet)
            sheet.beside(text, place((float(h.x), float(h.y))), 1.0, bold=False, sheet=bounds(within))
    for fall, start, end in slopes:
        sheet.label(((sheet.say(fall),),), bounds((start, end)).grown(4.5), turn=False, within=within)


def _way(shape: Polygon, drain: Spot) -> tuple[Spot, Spot]:
    """An arrow down a plane: from near its far edge towards the drain, square to that edge where the plane is an oblong."""
    if len(shape) == 3:
        a, b = shape[0], shape[1]
        far = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
        return _between(far, drain, 0.2), _between(far, drain, 0.6)
    box = bounds(shape)
    x, y = box.middle
    # The drain lies on one edge of the oblong; the water runs to that edge.
    gaps = [(abs(drain[0] - box.left), (box.right, y), (box.left, y)), (abs(drain[0] - box.right), (box.left, y), (box.right, y)),
            (abs(drain[1] - box.top), (x, box.bottom), (x, box.top)), (abs(drain[1] - box.bottom), (x, box.top), (x, box.bottom))]
    _, far, near = min(gaps, key=lambda g: g[0])
    return _between(far, near, 0.25), _between(far, near, 0.6)


def _between(a: Spot, b: Spot, share: float) -> Spot:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
