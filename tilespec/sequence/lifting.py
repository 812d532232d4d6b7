"""What may be lifted: the revised NIOSH lifting equation over every bag, bucket, box and single large tile of the job.

Source: NIOSH 94-110, Applications Manual for the Revised NIOSH Lifting Equation (1994, corrected 2021), metric form.
The equation is for two-handed lifts of a steady load, standing: in a small room the result is an indication.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from tilespec.job.types import Product, Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import Kind, Quantity, work
from tilespec.sequence.site import Site, powder, tiles_of
from tilespec.sequence.types import Lift, Operation

NIOSH = "NIOSH 94-110, revised lifting equation"
TEAM = "HSE guidance on manual handling (L23)"
# Aids that a job may have: cups make a good grip of a tile's face, a frame takes its weight.
CUPS, FRAME = "suction-lifters", "lifting-frame"
FREQUENCIES = ("0-2", "0-5", *(str(n) for n in range(1, 16)))


@dataclass(frozen=True, slots=True)
class Posture:
    """Where the hands are: from the ankles, above the floor, how far up they go, how far the body turns."""

    reach: Quantity
    height: Quantity
    travel: Quantity
    twist: Quantity


@dataclass(frozen=True, slots=True)
class Multipliers:
    """The six factors, each worked out by itself so that it can be followed."""

    horizontal: Quantity
    vertical: Quantity
    distance: Quantity
    asymmetric: Quantity
    frequency: Quantity
    coupling: Quantity


def horizontal(reach: Quantity, p: Practice) -> Quantity:
    """25 cm over the reach; one when nearer than that, nought beyond the bound."""
    if reach.value > p.limit("lift-reach-max").value:
        return work("0 * reach / limit", "", source=NIOSH, reach=reach, limit=p.limit("lift-reach-max"))
    return work("near / max(reach, near)", "", source=NIOSH, near=p.limit("lift-reach"), reach=reach)


def vertical(height: Quantity, p: Practice) -> Quantity:
    if height.value > p.limit("lift-height-max").value:
        return work("0 * height / limit", "", source=NIOSH, height=height, limit=p.limit("lift-height-max"))
    return work(
        "1 - rate * abs(height - knuckle) / centimetre", "", source=NIOSH,
        rate=p.limit("lift-height-rate"), height=height, knuckle=p.limit("lift-knuckle"), centimetre=p.limit("lift-centimetre"),
    )


def distance(travel: Quantity, p: Practice) -> Quantity:
    """One up to 25 cm, nought beyond the bound."""
    if travel.value > p.limit("lift-travel-max").value:
        return work("0 * travel / limit", "", source=NIOSH, travel=travel, limit=p.limit("lift-travel-max"))
    if travel.value < p.limit("lift-travel-min").value:
        return work("max(travel, bound) / bound", "", source=NIOSH, travel=travel, bound=p.limit("lift-travel-min"))
    return work(
        "base + add / travel", "", source=NIOSH, base=p.limit("lift-travel-base"), add=p.limit("lift-travel"), travel=travel,
    )


def asymmetric(twist: Quantity, p: Practice) -> Quantity:
    if twist.value > p.limit("lift-twist-max").value:
        return work("0 * twist / limit", "", source=NIOSH, twist=twist, limit=p.limit("lift-twist-max"))
    return work(
        "1 - rate * twist / degree", "", source=NIOSH,
        rate=p.limit("lift-twist-rate"), twist=twist, degree=p.limit("lift-degree"),
    )


def frequency(lifts: Quantity, duration: str, height: Quantity, p: Practice) -> Quantity:
    """Table 5: the next row that is not milder. `duration` is "short", "moderate" or "long" (up to one, two, eight hours)."""
    per_minute = lifts.value * 60
    row = next((f for f in FREQUENCIES if _row(f) >= per_minute), None)
    hands = _hands(height, p)
    last = p.limit(f"lift-frequency-{duration}-{hands}-{row or FREQUENCIES[-1]}")
    return last if row else work("0 * share", "", source=NIOSH, share=last)


def _row(name: str) -> Fraction:
    return Fraction(name.replace("-", "."))


def coupling(grip: str, height: Quantity, p: Practice) -> Quantity:
    """Table 7, by grip: "good", "fair" or "poor"."""
    return p.limit(f"lift-grip-{grip}-{_hands(height, p)}")


def _hands(height: Quantity, p: Practice) -> str:
    return "high" if height.value >= p.limit("lift-knuckle").value else "low"


def multipliers(posture: Posture, grip: str, p: Practice, lifts: Quantity | None = None, duration: str = "short") -> Multipliers:
    return Multipliers(
        horizontal(posture.reach, p), vertical(posture.height, p), distance(posture.travel, p), asymmetric(posture.twist, p),
        frequency(lifts or p.limit("lift-frequency"), duration, posture.height, p), coupling(grip, posture.height, p),
    )


def recommended(m: Multipliers, p: Practice) -> Quantity:
    """The recommended weight limit."""
    return work(
        "constant * reach * height * way * twist * pace * grip", "kg", source=NIOSH, constant=p.limit("lift-constant"),
        reach=m.horizontal, height=m.vertical, way=m.distance, twist=m.asymmetric, pace=m.frequency, grip=m.coupling,
    )


def index(load: Quantity, limit: Quantity) -> Quantity:
    """The lifting index: load over limit."""
    return work("load / limit", "", source=NIOSH, load=load, limit=limit)


def team(limit: Quantity, p: Practice) -> Quantity:
    """What two people may lift together: two thirds of what each could lift alone, added up."""
    return work("share * 2 * alone", "kg", source=TEAM, share=p.limit("lift-team-two"), alone=limit)


def team_of_three(limit: Quantity, p: Practice) -> Quantity:
    """What three people may lift together: half of what each could lift alone, added up."""
    return work("share * 3 * alone", "kg", source=TEAM, share=p.limit("lift-team-three"), alone=limit)


def measure(load: Quantity, limit: Quantity, persons: Quantity, p: Practice) -> str:
    """What to do about a load: "alone", "two-people" or "split-or-aid"."""
    if load.value <= limit.value * p.limit("lift-index-aim").value:
        return "alone"
    if persons.value >= 2 and load.value <= team(limit, p).value:
        return "two-people"
    return "split-or-aid"


def tile_measure(load: Quantity, limit: Quantity, persons: Quantity, aids: tuple[str, ...], p: Practice) -> str:
    """The same for a tile, which cannot be split: three may carry it, or a frame."""
    found = measure(load, limit, persons, p)
    if found == "split-or-aid" and persons.value >= 3 and load.value <= team_of_three(limit, p).value:
        found = "three-people"
    if found == "split-or-aid" and FRAME in aids:
        return "frame"
    return f"{found}-cups" if CUPS in aids and found in ("two-people", "three-people") else found


# ---------------------------------------------------------------- the loads of a job

_GRIPS = {"bag": "poor", "bucket": "good", "tile-box": "fair", "single-tile": "fair", "large-tile": "fair"}


def posture(what: str, p: Practice) -> Posture:
    """The posture planned for a kind of load."""
    return Posture(*(p.limit(f"lift-{what}-{part}") for part in ("reach", "height", "travel", "twist")))


def lifts(site: Site) -> tuple[Lift, ...]:
    """Every kind of load of the job once, products in the order of the take-off, then tiles."""
    p, persons = site.practice, site.persons()
    result: list[Lift] = []
    for what, name, load in _loads(site):
        if load.value < p.limit("lift-smallest").value:
            continue
        tile, aids = what in ("single-tile", "large-tile"), site.job.aids
        grip = "good" if tile and CUPS in aids else _GRIPS[what]
        limit = recommended(multipliers(posture(what, p), grip, p), p)
        how = tile_measure(load, limit, persons, aids, p) if tile else measure(load, limit, persons, p)
        result.append(Lift("single-tile" if tile else what, name, load, limit, index(load, limit), how))
    return tuple(result)


_TILED = ("wall-tiles", "floor-tiles", "bottom-course")


def attach(operations: tuple[Operation, ...], found: tuple[Lift, ...], site: Site) -> tuple[Operation, ...]:
    """The steps with what is lifted at them and is too much for one person: their products, and the tiles of their places."""
    heavy = tuple(f for f in found if f.measure != "alone")
    surfaces = {s.id: s for s in site.job.surfaces}

    def lifted(op: Operation) -> tuple[Lift, ...]:
        if op.point is not None and op.point.kind == "hold":
            return ()  # looked at, not carried
        products = {p.name for p in op.products}
        tiles = {t.name for id in op.places if op.kind in _TILED and id in surfaces for t in tiles_of(surfaces[id])}
        return tuple(f for f in heavy if f.name in (products if f.what in ("bag", "bucket") else tiles))

    return tuple(replace(op, loads=lifted(op)) for op in operations)


def _loads(site: Site) -> list[tuple[str, str, Quantity]]:
    found: dict[tuple[str, str], Quantity] = {}
    for line in site.takeoff.lines:
        item = line.item
        if isinstance(item, Product):
            weight = line.pack_weight or (item.pack if item.pack is not None and item.pack.kind is Kind.MASS else None)
            if weight is not None:
                found.setdefault(("bag" if powder(item) else "bucket", item.name), weight)
        else:
            for what, weight in _tile_loads(item, line.pack_weight, line.piece_weight, site):
                found.setdefault((what, item.name), weight)
    return [(what, name, q) for (what, name), q in found.items()]


def _tile_loads(tile: Tile, box: Quantity | None, piece: Quantity | None, site: Site) -> list[tuple[str, Quantity]]:
    loads: list[tuple[str, Quantity]] = []
    if box is not None:
        loads.append(("tile-box", box))
    edge = tile.long_side.value
    if piece is not None and not tile.mosaic and edge >= site.limit("lift-single-tile-edge").value:
        loads.append(("large-tile" if edge > site.limit("lift-large-tile-edge").value else "single-tile", piece))
    return loads
