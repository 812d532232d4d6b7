"""Regions as shapes: an outline, cut to a frame, less what lies in it. Exact where all edges are upright or level."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import lcm
from types import MappingProxyType
from typing import TYPE_CHECKING

from tilespec.job.types import Point
from tilespec.setout import region as regions
from tilespec.setout.geometry import NANO, Box, anticlockwise, sides
from tilespec.setout.types import Ring, Shape

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_NOTHING = 1e-9  # m2: what rounding leaves between two edges on one line


def box_ring(box: Box) -> Ring:
    return (box.left, box.low), (box.right, box.low), (box.right, box.high), (box.left, box.high)


def straight(ring: Ring) -> bool:
    """All its sides are upright or level."""
    return all(a[0] == b[0] or a[1] == b[1] for a, b in sides(ring))


def shapes(outline: Ring, within: Box | None = None, without: Sequence[Box] = (), but: Sequence[Ring] = ()) -> tuple[Shape, ...]:
    """What is left of an outline: inside a box, and outside others (that may overlap). `but`: outlines that are left out too.

    Parts that hang together by more than a corner are one shape.
    """
    if straight(outline) and all(straight(r) for r in but):
        return _exact(outline, within, without, but)
    return _slanted(outline, within, without, but)


def _exact(outline: Ring, within: Box | None, without: Sequence[Box], but: Sequence[Ring]) -> tuple[Shape, ...]:
    rings = [outline, *but, *(box_ring(b) for b in without)]
    if within is not None:
        rings.append(box_ring(within))
    unit = lcm(1, *{v.denominator for ring in rings for spot in ring for v in spot})

    def ticks(ring: Ring) -> regions.Outline:
        return tuple((int(x * unit), int(y * unit)) for x, y in ring)

    kept = regions.region([ticks(outline)])
    if within is not None:
        kept = regions.combined(kept, regions.region([ticks(box_ring(within))]), both=True)
    for ring in rings[1 : len(rings) - (within is not None)]:
        kept = regions.combined(kept, regions.region([ticks(ring)]), both=False)

    def metres(ring: regions.Outline) -> Ring:
        return tuple((Fraction(x, unit), Fraction(y, unit)) for x, y in ring)

    return tuple(Shape(metres(outer), tuple(metres(i) for i in inner)) for outer, inner in regions.outlines(kept))


def _slanted(outline: Ring, within: Box | None, without: Sequence[Box], but: Sequence[Ring]) -> tuple[Shape, ...]:
    import shapely

    def polygon(ring: Ring) -> BaseGeometry:
        made = shapely.Polygon([(float(x), float(y)) for x, y in ring])
        if made.is_valid:
            return made
        # A corner drawn out to less than rounding leaves crosses itself: what is left of it is a part by itself, or nothing.
        parts = shapely.get_parts(shapely.make_valid(made))
        return shapely.union_all([p for p in parts if p.geom_type in ("Polygon", "MultiPolygon")])

    kept = polygon(outline)
    if within is not None:
        kept = kept.intersection(polygon(box_ring(within)))
    for ring in (*but, *(box_ring(b) for b in without)):
        kept = kept.difference(polygon(ring))
    exact = {(round(float(x) * NANO), round(float(y) * NANO)): (x, y) for ring in (outline, *but) for x, y in ring}
    return of_shapely(kept, exact)


def of_shapely(kept: BaseGeometry, exact: Mapping[tuple[int, int], Point] = MappingProxyType({})) -> tuple[Shape, ...]:
    """Shapes from a geometry of floats, to the nanometre; `exact`: corners that are known better."""
    found: list[Shape] = []
    for part in [kept] if kept.geom_type == "Polygon" else list(getattr(kept, "geoms", ())):
        if part.geom_type != "Polygon" or part.area <= _NOTHING:
            continue
        rings = [tuple(part.exterior.coords)[:-1], *(tuple(i.coords)[:-1] for i in part.interiors)]
        made = [tuple(_nano(x, y, exact) for x, y in ring) for ring in rings]
        found.append(Shape(anticlockwise(made[0]), tuple(made[1:])))
    return tuple(found)


def _nano(x: float, y: float, exact: Mapping[tuple[int, int], Point]) -> Point:
    key = (round(x * NANO), round(y * NANO))
    return exact.get(key, (Fraction(key[0], NANO), Fraction(key[1], NANO)))
