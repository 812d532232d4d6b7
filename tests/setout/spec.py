"""Set-outs from text, for these tests: the whole chain from the spec to the pieces."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction as F
from functools import lru_cache

from tilespec import pipeline
from tilespec.pipeline import Plan
from tilespec.quantity import Quantity, Worked
from tilespec.setout.types import Face, Layout, Ring, SetOut, Shape
from tilespec.workspace.host import MemoryHost

PATH = "/job.tilespec"
# Bed and tile on a wall, by hand from the notch table (EN): longest edge 600 mm, fourth notch 10 mm; its ribs at 60 degrees,
# spread flat: 10 / 2 x sin 60 = 4.33; + 9 = 13.33, to the millimetre 13. 200 mm: second notch 6: 2.60 + 7 = 9.60, so 10.
# 300 mm: third notch 8: 3.46 + 9 = 12.46, so 12.
LARGE = "tile large 600x300x9 porcelain rectified; weight 20 kg/m2"
SMALL = "tile small 200x200x7 ceramic; weight 14 kg/m2"
SQUARE = "tile square 300x300x9 porcelain rectified; weight 20 kg/m2; barefoot class B"
LARGE_OFF, SMALL_OFF, SQUARE_OFF = 13, 10, 12
# Joints of the family EN: inside corners of walls, edge of a floor, around a bath (mm).
CORNER, EDGE, FITTING = 5, 5, 5


@lru_cache(maxsize=256)
def plan(text: str) -> Plan:
    found = pipeline.compile(PATH, MemoryHost({PATH: text}))
    assert found.plan is not None and not found.failed, [d.message for d in found.diagnostics]
    return found.plan


def setout(text: str) -> SetOut:
    return plan(text).setout


def spec(*parts: str) -> str:
    return "\n".join(parts) + "\n"


def floor(size: str, *lines: str) -> str:
    return "\n".join([f"floor {size}", "  base concrete", *(f"  {line}" for line in lines)])


def wall(letter: str, *lines: str) -> str:
    return "\n".join([f"wall {letter}", "  base cement render", *(f"  {line}" for line in lines)])


def face(text: str, name: str) -> Face:
    """A face by the end of its id: "wall A", "floor", "wall A/niche 1 back"."""
    return next(f for f in setout(text).faces if f.id.split("/", 1)[1] == name)


def layouts(text: str, name: str) -> list[Layout]:
    return [x for x in setout(text).layouts if x.face.split("/", 1)[1] == name]


def layout(text: str, name: str, role: str = "") -> Layout:
    return next(x for x in layouts(text, name) if not role or x.role == role)


def mm(value: F | Quantity) -> float:
    v = value.value if isinstance(value, Quantity) else value
    return round(float(v * 1000), 6)


def ring(r: Ring) -> list[tuple[float, float]]:
    """Corners in millimetres."""
    return [(mm(x), mm(y)) for x, y in r]


def bounds(r: Ring) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in ring(r)], [y for _, y in ring(r)]
    return min(xs), min(ys), max(xs), max(ys)


def shapes(x: Layout) -> Iterator[Shape]:
    """Every tile of a layout as it is laid."""
    for run in x.runs:
        yield from (Shape(t) for t in run.tiles())
    yield from (p.shape for p in x.pieces)


def sizes(x: Layout) -> dict[tuple[float, float], int]:
    """Width and height (mm) of the rows of the cut list, with how many pieces."""
    found: dict[tuple[float, float], int] = {}
    for r in x.rows:
        key = mm(r.width), mm(r.height)
        found[key] = found.get(key, 0) + int(r.count.value)
    return found


def formula(q: Quantity) -> str:
    return q.why.formula if isinstance(q.why, Worked) else ""
