"""Tiles: by the pieces of a set-out and the plan of its offcuts, or by area with an allowance by pattern; boxes, and spares.

The allowances are trade practice, no standard. All boxes of one order must be of one shade and caliber.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from tilespec.job.types import Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work
from tilespec.quantity.total import total
from tilespec.setout.types import OffcutPlan
from tilespec.takeoff.areas import Laid, Survey
from tilespec.takeoff.order import Taken, label, whole_packs
from tilespec.takeoff.types import Line, Part

_RULE = "allowance on the area by pattern"

_PATTERN_KEYS = {
    "straight": "tile-allowance-straight", "stack": "tile-allowance-straight", "half": "tile-allowance-offset",
    "third": "tile-allowance-offset", "quarter": "tile-allowance-offset", "run": "tile-allowance-offset",
    "diagonal": "tile-allowance-diagonal", "herringbone": "tile-allowance-herringbone", "basket": "tile-allowance-herringbone",
}


@dataclass(frozen=True, slots=True)
class _Key:
    """What is one article to order: the same tile laid upright and landscape comes out of the same boxes."""

    name: str
    short: Fraction
    long: Fraction
    thickness: Fraction
    body: str


def _key(tile: Tile) -> _Key:
    short, long = sorted((tile.width.value, tile.height.value))
    return _Key(tile.name, short, long, tile.thickness.value, tile.body)


def weight_per_area(tile: Tile, practice: Practice) -> Quantity:
    """kg/m2 of the tile: given, or its thickness times the density of its body."""
    if tile.weight is not None:
        return tile.weight
    density = practice.find(f"tile-density-{tile.body}") or practice.limit("tile-density-not-stated")
    return work(
        "thickness * density", "kg/m2", source="default: thickness times the density of the body, to be asked",
        thickness=tile.thickness, density=density,
    )


def tile_area(tile: Tile) -> Quantity:
    return work("width * height", "m2", source="one tile", width=tile.width, height=tile.height)


def allowance(laid: Laid, survey: Survey, area_of_tile: Quantity, practice: Practice) -> Quantity:
    """Allowance on one covering. `area_of_tile`: all that is laid of the tile in this job."""
    tile, surface = laid.tile, survey.surface
    edge = tile.long_side
    if tile.mosaic:
        base = practice.limit("tile-allowance-mosaic")
    else:
        key = _PATTERN_KEYS.get(laid.pattern.name, "tile-allowance-offset")
        busy = surface.openings or surface.niches or surface.untiled or surface.penetrations or surface.fittings
        small = edge.value <= practice.limit("tile-simple-edge").value
        base = practice.limit(f"{key}-simple" if key == "tile-allowance-straight" and small and not busy else key)
    more: dict[str, Quantity] = {}
    if not tile.mosaic and edge.value > practice.limit("large-format-edge").value:
        more["large_format"] = practice.limit("tile-allowance-large")
    if area_of_tile.value < practice.limit("tile-small-area").value:
        more["small_area"] = practice.limit("tile-allowance-small-area")
    if tile.stone:
        more["natural_stone"] = practice.limit("tile-allowance-stone")
    if not more:
        return base
    return work(" + ".join(["pattern", *more]), "%", source=_RULE, pattern=base, **more)


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    """One line a tile, then one for its spares."""
    keys: dict[_Key, list[tuple[Survey, Laid]]] = {}
    for s in surveys:
        for laid in s.laid:
            keys.setdefault(_key(laid.tile), []).append((s, laid))
    lines: list[Line] = []
    for group in keys.values():
        line = _line(group, practice)
        lines += [line, _spares(line, practice)]
    return Taken(tuple(lines))


def take_pieces(surveys: Sequence[Survey], plans: Sequence[OffcutPlan], practice: Practice) -> Taken:
    """One line a tile by the pieces of the set-out and the plan of its offcuts, then one for its spares."""
    keys: dict[_Key, list[tuple[Survey, Laid]]] = {}
    for s in surveys:
        for laid in s.laid:
            keys.setdefault(_key(laid.tile), []).append((s, laid))
    lines: list[Line] = []
    for key, group in keys.items():
        plan = next((p for p in plans if _key(p.tile) == key), None)
        line = _line(group, practice) if plan is None else _by_pieces(group, plan, practice)
        lines += [line, _spares(line, practice)]
    return Taken(tuple(lines))


def breakage(tile: Tile, practice: Practice) -> Quantity:
    """Share of tiles that break, or that a wrong cut spoils: more of stone, and of large tiles."""
    base = practice.limit("tile-breakage")
    more: dict[str, Quantity] = {}
    if not tile.mosaic and tile.long_side.value > practice.limit("large-format-edge").value:
        more["large_format"] = practice.limit("tile-allowance-large")
    if tile.stone:
        more["natural_stone"] = practice.limit("tile-allowance-stone")
    if not more:
        return base
    return work(" + ".join(["breakage", *more]), "%", source="allowance for breakage", breakage=base, **more)


def _by_pieces(group: Sequence[tuple[Survey, Laid]], plan: OffcutPlan, practice: Practice) -> Line:
    tile = group[0][1].tile
    net = total([(f"{laid.surface.id}, {laid.role}", laid.area) for _, laid in group], "m2", of=tile.name)
    parts = tuple(Part(laid.surface.id, laid.area, laid.area, laid.role) for _, laid in group)
    spoilt = breakage(tile, practice)
    pieces = work(
        "ceil((whole + cut) * (1 + breakage))", "count", source="tiles of the set-out, with what breaks", whole=plan.whole,
        cut=plan.cut, breakage=spoilt,
    )
    gross = work("pieces * one_tile", "m2", source="whole tiles", pieces=pieces, one_tile=tile_area(tile))
    return _ordered(tile, parts, net, spoilt, gross, pieces, practice, plan)


def _line(group: Sequence[tuple[Survey, Laid]], practice: Practice) -> Line:
    tile = group[0][1].tile
    net = total([(f"{laid.surface.id}, {laid.role}", laid.area) for _, laid in group], "m2", of=tile.name)
    parts = tuple(
        Part(laid.surface.id, laid.area, laid.area, laid.role, allowance(laid, s, net, practice)) for s, laid in group
    )
    shares = {p.allowance.value for p in parts if p.allowance is not None}
    small, extra = practice.limit("tile-small-area"), practice.limit("tile-allowance-small-area")
    # A little more than the small area must not order less than a little less: its extra fades out, it does not drop.
    fades = small.value <= net.value < small.value * (1 + extra.value)
    if len(shares) == 1 and not fades:
        one = parts[0].allowance
        assert one is not None
        gross = work("net * (1 + allowance)", "m2", source=_RULE, net=net, allowance=one)
        overall = one
    else:
        terms = [(label(p), work("area * (1 + allowance)", "m2", source=_RULE, area=p.net, allowance=p.allowance))
                 for p in parts if p.allowance is not None]
        if fades:
            terms.append(("rest of the small-area allowance", work(
                "extra * small_area - (net - small_area)", "m2", source=_RULE, extra=extra, small_area=small, net=net,
            )))
        gross = total(terms, "m2", of=tile.name)
        overall = work("gross / net - 1", "%", source="all parts together", gross=gross, net=net)
    one_tile = tile_area(tile)
    pieces = work("ceil(gross / one_tile)", "count", source="whole tiles, rounded up", gross=gross, one_tile=one_tile)
    return _ordered(tile, parts, net, overall, gross, pieces, practice)


def _ordered(
    tile: Tile, parts: tuple[Part, ...], net: Quantity, allowance_: Quantity, gross: Quantity, pieces: Quantity,
    practice: Practice, plan: OffcutPlan | None = None,
) -> Line:
    """The line with its boxes and weights."""
    one_tile = tile_area(tile)
    packs = whole_packs(pieces, tile.box)
    each = weight_per_area(tile, practice)
    piece_weight = work("one_tile * weight", "kg", source="one tile", one_tile=one_tile, weight=each)
    box_weight = None if tile.box is None else work(
        "pieces_in_a_box * tile", "kg", source="one box", pieces_in_a_box=tile.box, tile=piece_weight,
    )
    if packs is not None and box_weight is not None:
        weight = work("boxes * box", "kg", source="whole boxes", boxes=packs, box=box_weight)
    else:
        weight = work("pieces * tile", "kg", source="whole tiles", pieces=pieces, tile=piece_weight)
    line = Line(
        "tile", tile.name, tile, parts, net, allowance_, gross, tile.box, packs, weight, "", pieces, box_weight, piece_weight,
    )
    if plan is None:
        return line
    if packs is not None and tile.box is not None:
        left = work("boxes * pieces_in_a_box - whole - cut", "count", source="whole boxes, less the tiles of the set-out",
                    boxes=packs, pieces_in_a_box=tile.box, whole=plan.whole, cut=plan.cut)
    else:
        left = work("pieces - whole - cut", "count", source="tiles ordered, less the tiles of the set-out",
                    pieces=pieces, whole=plan.whole, cut=plan.cut)
    return replace(line, whole=plan.whole, cut=plan.cut, left=left)


def _spares(line: Line, practice: Practice) -> Line:
    """Spares that the client keeps: of the same batch, so ordered with the rest, but not waste."""
    tile = line.item
    assert isinstance(tile, Tile) and line.pieces is not None and line.piece_weight is not None
    one_tile = tile_area(tile)
    if tile.box is not None:
        packs = practice.limit("tile-spare-boxes")
        pieces = work("boxes * pieces_in_a_box", "count", source="spares for the client", boxes=packs, pieces_in_a_box=tile.box)
    else:
        packs = None
        pieces = work(
            "ceil(pieces * spares)", "count", source="spares for the client",
            pieces=line.pieces, spares=practice.limit("tile-spare-share"),
        )
    area = work("pieces * one_tile", "m2", source="spares for the client", pieces=pieces, one_tile=one_tile)
    weight = work("pieces * tile", "kg", source="spares for the client", pieces=pieces, tile=line.piece_weight)
    return Line(
        "tile", line.name, tile, (), area, None, area, tile.box, packs, weight, "spare", pieces,
        line.pack_weight, line.piece_weight,
    )
