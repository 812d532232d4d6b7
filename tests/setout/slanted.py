"""Slanted tilings (45 degrees, walls out of square) worked out the long way, to hold the set-out engine against.

Shapes by shapely; areas and centroids once more by clipping the walls against the four sides of each tile, which uses no library.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction as F
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from tests.setout.brute import is_turned, lengths, tiles
from tilespec.setout.types import Hole, Ring, Shape

if TYPE_CHECKING:
    from tilespec.setout.engine import Filled, Lattice

WHOLE = 1e-6        # m², for a surface: the goal of the set-out
EACH = 1e-8         # m², for a piece: a hundredth of a square millimetre; what is smaller is no piece and no gap
# Without a grid, GEOS 3.14 can miss whole parts of a difference where hundreds of edges nearly lie on each other.
GRID = 1e-9         # m
EDGE = 1e-6         # m: where something ends exactly at a line, both answers are right


def polygon(shape: Shape) -> Any:
    outer, *inner = ([(float(x), float(y)) for x, y in ring] for ring in shape.rings)
    return shapely.Polygon(outer, inner)


def polygons(rings: list[Ring]) -> Any:
    return shapely.polygons(np.array([[(float(x), float(y)) for x, y in ring] for ring in rings], dtype=float).reshape(-1, 4, 2))


def grown(quads: Any, by: float) -> Any:
    """Rectangles grown to all sides, in their own direction."""
    c = shapely.get_coordinates(quads).reshape(-1, 5, 2)[:, :4]
    if not len(c):
        return quads
    u, v = c[:, 1] - c[:, 0], c[:, 3] - c[:, 0]
    u = u / np.linalg.norm(u, axis=1)[:, None] * by
    v = v / np.linalg.norm(v, axis=1)[:, None] * by
    return shapely.polygons(np.stack([c[:, 0] - u - v, c[:, 1] + u - v, c[:, 2] + u + v, c[:, 3] - u + v], axis=1))


def clipped(rings: list[list[tuple[float, float]]], quad: list[tuple[float, float]]) -> tuple[float, float, float]:
    """Area and first moments of what a tile (corners anticlockwise) has in common with a room.

    Clips each ring against one side of the tile after the other (Sutherland and Hodgman 1974, from memory). A room that falls
    apart is left joined along the tile's sides, which adds nothing to area or moments. Outer rings anticlockwise, inner ones
    clockwise.
    """
    area = mx = my = 0.0
    ox, oy = quad[0]                                    # from a corner of the tile: keeps small numbers small
    for ring in rings:
        points = ring
        for (ax, ay), (bx, by) in zip(quad, quad[1:] + quad[:1]):
            kept = []
            far = [(bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in points]
            for k, (x, y) in enumerate(points):
                d, e = far[k - 1], far[k]
                if (d < 0) != (e < 0):
                    u, v = points[k - 1]
                    t = d / (d - e)
                    kept.append((u + (x - u) * t, v + (y - v) * t))
                if e >= 0:
                    kept.append((x, y))
            points = kept
            if not points:
                break
        for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1]):
            x1, y1, x2, y2 = x1 - ox, y1 - oy, x2 - ox, y2 - oy
            turn = x1 * y2 - x2 * y1
            area += turn / 2
            mx += turn * (x1 + x2) / 6
            my += turn * (y1 + y2) / 6
    return area, mx + area * ox, my + area * oy


def _signed(ring: Ring, anticlockwise: bool) -> list[tuple[float, float]]:
    points = [(float(x), float(y)) for x, y in ring]
    turn = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1]))
    return points if (turn > 0) == anticlockwise else points[::-1]


def check_moments(region: tuple[Shape, ...], filled: Filled) -> None:
    """Area and centroid of what the engine makes of each tile, without a library."""
    rings = [_signed(r, k == 0) for s in region for k, r in enumerate(s.rings)]
    mine: dict[Ring, tuple[float, float, float]] = {}
    for piece in filled.pieces:
        parts = [_signed(r, k == 0) for k, r in enumerate(piece.shape.rings)]
        x, y = (float(v) for v in piece.tile[0])
        area, mx, my = mine.get(piece.tile, (0.0, 0.0, 0.0))
        for part in parts:
            for (x1, y1), (x2, y2) in zip(part, part[1:] + part[:1]):
                x1, y1, x2, y2 = x1 - x, y1 - y, x2 - x, y2 - y
                turn = x1 * y2 - x2 * y1
                area, mx, my = area + turn / 2, mx + turn * (x1 + x2) / 6, my + turn * (y1 + y2) / 6
        mine[piece.tile] = (area, mx, my)
    full = [t for run in filled.runs for t in run.tiles()]
    for ring, made in [*mine.items(), *((t, None) for t in full)]:
        quad = _signed(ring, True)
        x, y = (float(v) for v in ring[0])
        area, mx, my = clipped(rings, quad)
        if made is None:
            u = math.dist(quad[0], quad[1]) * math.dist(quad[1], quad[2])
            assert abs(u - area) < EACH, ring
        else:
            assert abs(made[0] - area) < EACH, (ring, made, area)
            assert abs(made[1] - (mx - area * x)) < EACH and abs(made[2] - (my - area * y)) < EACH, ring


@dataclass(frozen=True, slots=True)
class Slanted:
    tiles: Any              # whole tiles that may touch the region
    common: Any             # what each has in common with it


def lay(region: Any, lattice: Lattice) -> Slanted:
    """All tiles of the lattice over a region."""
    x, y = float(lattice.x), float(lattice.y)
    corners = [(px - x, py - y) for px in region.bounds[::2] for py in region.bounds[1::2]]
    turned = is_turned(lattice)
    root = math.sqrt(0.5)
    if turned:
        corners = [((px + py) * root, (py - px) * root) for px, py in corners]
    scale = math.lcm(*(v.denominator for v in lengths(lattice)))
    us, vs = [c[0] for c in corners], [c[1] for c in corners]
    low, high = (math.floor(min(w) * scale) - 1 for w in (us, vs)), (math.ceil(max(w) * scale) + 1 for w in (us, vs))
    window = (*low, *high)
    boxes = list(tiles(lattice, window, scale))
    c = np.array([[(a, b), (r, b), (r, t), (a, t)] for a, b, r, t in boxes], dtype=float).reshape(-1, 4, 2) / scale
    if turned:
        c = np.stack([(c[..., 0] - c[..., 1]) * root, (c[..., 0] + c[..., 1]) * root], axis=-1)
    quads = shapely.polygons(c + (x, y))
    common = shapely.intersection(quads, region, grid_size=GRID)
    near = shapely.area(common) > EACH
    return Slanted(quads[near], common[near])


def _parts(geometry: Any) -> list[Any]:
    return [g for g in shapely.get_parts(geometry) if g.area > EACH]


def compare_slanted(region: tuple[Shape, ...], lattice: Lattice, holes: tuple[Hole, ...], filled: Filled) -> Slanted:
    """Holds what the engine made against shapely: every tile, every piece, every hole; areas, overlaps and gaps of the whole."""
    ground = shapely.union_all([polygon(s) for s in region])
    laid = lay(ground, lattice)

    runs = polygons([t for run in filled.runs for t in run.tiles()])
    whole = polygons([p.tile for p in filled.pieces])
    shapes = np.array([polygon(p.shape) for p in filled.pieces], dtype=object)
    assert all(p.number == 0 for p in filled.pieces)
    assert shapely.is_valid(shapes).all() if len(shapes) else True

    # Every tile of the engine is one of the lattice, and the other way round.
    tree = shapely.STRtree(shapely.centroid(laid.tiles))

    def known(quads: Any) -> list[int]:
        out = []
        for quad in quads:
            at = tree.query(quad.centroid, predicate="dwithin", distance=EDGE)
            assert len(at) == 1, ("no tile of the lattice, or one with nothing in the region", quad.wkt)
            assert shapely.area(shapely.symmetric_difference(laid.tiles[at[0]], quad, grid_size=GRID)) < EACH, quad.wkt
            out.append(int(at[0]))
        return out

    full = known(runs)
    assert len(full) == len(set(full)), "a full tile twice"
    areas, inside = shapely.area(laid.tiles), shapely.area(laid.common)
    by_tile: dict[int, list[int]] = defaultdict(list)
    # A piece too small to hold is neither asked for nor refused.
    kept = [i for i, s in enumerate(shapes) if s.area > EACH]
    for n, tile in zip(kept, known(whole[kept])):
        by_tile[tile].append(n)
    assert not set(full) & set(by_tile)
    assert set(full) | set(by_tile) == set(range(len(laid.tiles)))
    assert all(areas[t] - inside[t] < EACH for t in full)

    for tile, numbers in by_tile.items():
        expected = _parts(laid.common[tile])
        if len(expected) != len(numbers):               # parts that hang together by a point only
            apart = _parts(laid.common[tile].buffer(-EDGE, join_style="mitre"))
            expected = [p.buffer(EDGE, join_style="mitre") for p in apart]
        assert len(expected) == len(numbers), (laid.common[tile].wkt, [shapes[n].wkt for n in numbers])
        for n in numbers:
            one = min(expected, key=lambda g: shapely.symmetric_difference(g, shapes[n], grid_size=GRID).area)
            assert shapely.symmetric_difference(one, shapes[n], grid_size=GRID).area < EACH, (one.wkt, shapes[n].wkt)
            expected.remove(one)
            # A hair where a tile's side runs along a wall is no part of a piece.
            thin = [one.buffer(-2e-6), shapes[n].buffer(-2e-6)]
            if not any(t.is_empty for t in thin):
                assert np.allclose(thin[0].bounds, thin[1].bounds, atol=1e-4), (one.wkt, shapes[n].wkt)
            assert abs(one.area - float(filled.pieces[n].shape.area)) < EACH
            if areas[tile] - inside[tile] < EACH / 10:
                assert filled.pieces[n].holes, "a full tile among the cut"

    check_holes(filled, holes, runs, shapes)
    check_moments(region, filled)
    check_whole(ground, runs, whole, shapes, float(lattice.joint))
    return laid


def check_holes(filled: Filled, holes: tuple[Hole, ...], runs: Any, shapes: Any) -> None:
    for hole in holes:
        centre = shapely.Point(float(hole.x), float(hole.y))
        half = float(hole.diameter / 2)
        if hole.kind == "drain":
            grate = shapely.box(centre.x - half, centre.y - half, centre.x + half, centre.y + half)
            inner, outer = grate.buffer(-EDGE), grate.buffer(EDGE)

            def hit(geometry: Any, inner: Any = inner, outer: Any = outer) -> bool | None:
                return True if geometry.intersects(inner) else None if geometry.intersects(outer) else False
        else:
            def hit(geometry: Any, centre: Any = centre, half: float = half) -> bool | None:
                away = geometry.distance(centre) - half
                return None if abs(away) < EDGE else away < 0
        for piece, shape in zip(filled.pieces, shapes):
            due = hit(shape)
            assert due is None or due == (hole in piece.holes), (hole, shape.wkt)
        assert not any(hit(t) for t in runs), hole


def check_whole(ground: Any, runs: Any, whole: Any, shapes: Any, joint: float) -> None:
    """No overlap, nothing outside, no gap but joints, no joint but of its width: the tiling alone, whatever the lattice."""
    all_pieces = np.concatenate([runs, shapes])
    all_tiles = np.concatenate([runs, whole])
    union = shapely.union_all(all_pieces, grid_size=GRID)
    total = float(shapely.area(all_pieces).sum())
    assert abs(total - union.area) < WHOLE, "pieces overlap"
    joints = shapely.difference(ground, union, grid_size=GRID)
    assert abs(total + joints.area - ground.area) < WHOLE
    assert shapely.difference(union, ground, grid_size=GRID).area < WHOLE
    if len(all_pieces):
        assert (shapely.area(shapely.difference(shapes, whole, grid_size=GRID)) < EACH).all() if len(shapes) else True
        # Each tile with a joint all round it: together they leave nothing bare. (At a wall the next tile may lie outside.)
        reached = shapely.union_all(grown(all_tiles, joint + 1e-7), grid_size=GRID)
        assert shapely.difference(ground.buffer(-1.5 * joint), reached, grid_size=GRID).area < WHOLE, "a gap wider than a joint"
        if joint:
            # Each with half a joint: neighbours meet, and do not overlap. A split tile counts once.
            once = {tuple(np.round(shapely.get_coordinates(t.centroid)[0], 6)): t for t in all_tiles}
            halves = grown(np.array(list(once.values()), dtype=object), joint / 2 - 1e-7)
            tree = shapely.STRtree(halves)
            a, b = tree.query(halves, predicate="intersects")
            meet = a < b
            common = shapely.intersection(halves[a[meet]], halves[b[meet]], grid_size=GRID)
            assert shapely.area(common).sum() < WHOLE, "a joint too narrow"


def drawn(points: list[tuple[float, float]]) -> Ring:
    """Corners to the micrometre."""
    return tuple((F(round(x * 1_000_000), 1_000_000), F(round(y * 1_000_000), 1_000_000)) for x, y in points)
