"""Cuts across tiles, so that they follow the planes of a fall (envelope cuts): both parts of such a tile are laid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from tilespec.job.types import Point
from tilespec.setout.engine import Filled
from tilespec.setout.geometry import nano
from tilespec.setout.types import Piece, Ring, Run, Shape

if TYPE_CHECKING:
    from shapely import LineString


def folded(filled: Filled, lines: Sequence[tuple[Point, Point]], least: Fraction) -> Filled:
    """The same with every tile that a line crosses taken out of its run, and the cut across it noted.

    least   a line that stays nearer than this to the edges of a tile does not cut it: what is cut off could not be laid
    """
    import shapely

    drawn = [shapely.LineString([(float(x), float(y)) for x, y in line]) for line in lines]
    if not drawn:
        return filled
    frame = shapely.MultiLineString(drawn).bounds
    runs: list[Run] = []
    pieces: list[Piece] = []
    for run in filled.runs:
        begin = 0
        for n, tile in enumerate(run.tiles()) if _meets(run, frame) else ():
            if not (folds := _folds(Shape(tile), drawn, float(least))):
                continue
            if n > begin:
                runs.append(_part(run, begin, n))
            pieces.append(Piece(0, Shape(tile), tile, (), folds))
            begin = n + 1
        if begin < run.count:
            runs.append(_part(run, begin, run.count))
    for piece in filled.pieces:
        folds = _folds(piece.shape, drawn, float(least))
        pieces.append(replace(piece, folds=folds) if folds else piece)
    return Filled(tuple(runs), tuple(pieces))


def _part(run: Run, begin: int, end: int) -> Run:
    dx, dy = run.step[0] * begin, run.step[1] * begin
    return Run(tuple((x + dx, y + dy) for x, y in run.first), run.step, end - begin)


def _meets(run: Run, frame: tuple[float, float, float, float]) -> bool:
    xs = [float(x + run.step[0] * n) for x, _ in run.first for n in (0, run.count - 1)]
    ys = [float(y + run.step[1] * n) for _, y in run.first for n in (0, run.count - 1)]
    return max(xs) > frame[0] and min(xs) < frame[2] and max(ys) > frame[1] and min(ys) < frame[3]


def _folds(shape: Shape, lines: Sequence[LineString], least: float) -> tuple[tuple[Point, Point], ...]:
    import shapely

    polygon = shapely.Polygon(_floats(shape.outer), [_floats(r) for r in shape.inner])
    edge = polygon.boundary
    found: list[tuple[Point, Point]] = []
    for line in lines:
        shared = line.intersection(polygon)
        for part in [shared] if shared.geom_type == "LineString" else list(getattr(shared, "geoms", ())):
            # A short cut takes off a corner, one along an edge a strip: neither could be laid.
            if part.geom_type != "LineString" or part.length < 2 * least:
                continue
            if edge.distance(part.interpolate(0.5, normalized=True)) >= least / 2:
                a, b = part.coords[0], part.coords[-1]
                found.append(((nano(a[0]), nano(a[1])), (nano(b[0]), nano(b[1]))))
    return tuple(found)


def _floats(ring: Ring) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in ring]
