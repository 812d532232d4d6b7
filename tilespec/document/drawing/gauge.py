"""The gauge rod of a layout: where its courses stand, measured from the control line that they are marked from."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from tilespec.document.drawing.dimension import SOURCE, away_from
from tilespec.quantity import UNITS, Kind, Quantity, Worked, counted, work
from tilespec.setout.pattern import OFFSET
from tilespec.setout.start import COURSED
from tilespec.setout.types import Face, Layout

# Marks closer than this on paper (mm) would leave no room for what else is measured there.
_PITCH = 7.0
_TOUCH = Fraction(1, 10**6)
_EVERY = ((1, ""), (2, "every second of "), (5, "every fifth of "), (10, "every tenth of "), (20, "every twentieth of "),
          (50, "every fiftieth of "), (100, "every hundredth of "))


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark: its place on the surface, and how far it is from the control line."""

    place: Quantity
    away: Quantity


@dataclass(frozen=True, slots=True)
class Gauge:
    """The marks, and in words what they stand at. Empty words: no courses to mark."""

    marks: tuple[Mark, ...]
    words: str = ""
    moved: bool = False  # they hold for one course only


def edges_from(face: Face, axis: int) -> tuple[Quantity, ...]:
    """The outermost edges of the tile plane in one direction."""
    values = [p[axis] for p in face.outline]
    scale = face.across if axis == 0 else face.up
    return tuple(scale.at(v) for v in dict.fromkeys((min(values), max(values))))


def gauge(layout: Layout, face: Face, axis: int, line: Quantity, scale: int) -> Gauge:
    """Marks for the courses across (axis 0) or upwards (1), seen from a control line.

    They stand at the side of the tiles that the line itself stands at, or in the middle of the joints where it runs through the
    middle of a tile or a joint. In a bond that is moved sideways they are those of the first tile's course. Patterns without
    straight courses have none.
    """
    pattern = layout.covering.pattern
    if pattern.name not in COURSED or pattern.turned or pattern.name == "diagonal" or pattern.name == "basket":
        return Gauge(())
    tile, joint = (layout.width, layout.height)[axis], layout.joint
    first = min(p[axis] for p in layout.begin.first)
    module = tile.value + joint.value
    off = (line.value - first) % module
    values = [p[axis] for s in layout.region for p in s.outer]
    low, high = min(values), max(values)
    on_paper = float(module) * 1000 / scale
    step, every = next((e for e in _EVERY if on_paper * e[0] >= _PITCH), _EVERY[-1])
    names = (("left side", "right side"), ("lower edge", "upper edge"))[axis]
    if face.kind == "floor" and axis == 1:
        names = ("upper side", "lower side")
    moved = pattern.name in OFFSET and axis == (1 if pattern.upright else 0)
    course = " in the first tile's course" if moved else ""
    at = {Fraction(0): f"the tiles' {names[0]}", tile.value: f"the tiles' {names[1]}"}
    # What was worked out for a slanted face is rounded to a nanometre.
    off = next((v for v in (Fraction(0), tile.value, tile.value + joint.value / 2, tile.value / 2) if _same(v, off, module)), off)
    if off in at:
        words, shift = at[off], Fraction(0)
    elif off == tile.value + joint.value / 2:
        words, shift = "the middle of the joints", Fraction(0)
    elif off == tile.value / 2:
        words, shift = "the middle of the joints", module / 2
    else:
        off_marks = tuple(_marks_off(layout, face, axis, line, first, low, high, step))
        return Gauge(off_marks, f" to {every}the tiles' {names[0]}{course}", moved)
    formula = "steps * (tile + joint)" if not shift else "(steps - 0.5) * (tile + joint)"
    marks = []
    for sign in (-1, 1):
        n = step if not shift else 1
        while low < line.value + sign * (n * module - shift) < high:
            steps = counted(n, "tiles from the line")
            away = work(formula, "mm", source=SOURCE, steps=steps, tile=tile, joint=joint)
            place = work("line + away" if sign > 0 else "line - away", "mm", source=SOURCE, line=line, away=away)
            marks.append(Mark(place, away))
            n += step
    return Gauge(tuple(marks), f" to {every}{words}{course}", moved)


def _same(a: Fraction, b: Fraction, module: Fraction) -> bool:
    apart = (a - b) % module
    return min(apart, module - apart) < _TOUCH


def _marks_off(
    layout: Layout, face: Face, axis: int, line: Quantity, first: Fraction, low: Fraction, high: Fraction, step: int,
) -> Iterator[Mark]:
    """The control line stands anywhere in the courses: marks at the tiles' left or lower side."""
    tile, joint = (layout.width, layout.height)[axis], layout.joint
    module = tile.value + joint.value
    scale = face.across if axis == 0 else face.up
    known = next((q for value, q in scale.places if value == first), None)
    begun = known or Quantity(first, Kind.LENGTH, UNITS["mm"], Worked(
        "where the first tile stands", (("control line", line), ("tile", tile), ("joint", joint)), SOURCE,
    ))
    for n in range(ceil((low - first) / module), floor((high - first) / module) + 1):
        if n % step:
            continue
        steps = counted(abs(n), "tiles from the first one")
        place = work(f"start {'-' if n < 0 else '+'} steps * (tile + joint)", "mm", source=SOURCE, start=begun, steps=steps,
                     tile=tile, joint=joint)
        if low < place.value < high and place.value != line.value:
            yield Mark(place, away_from(place, line, "line"))
