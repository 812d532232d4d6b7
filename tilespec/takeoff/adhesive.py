"""Adhesive: notch by tile size, bed by trowel angle, back-buttering, density; the mortar layers of a heating mat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tilespec.job.types import Product, Surface, Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work
from tilespec.setout import geometry
from tilespec.setout.bed import bed_thickness, notch_size, product_for
from tilespec.takeoff.areas import Laid, Survey
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.types import Missing, Notch, Part


@dataclass(frozen=True, slots=True)
class Bed:
    """How one tile is bedded on one surface, and the dry adhesive that a square metre takes."""

    survey: Survey
    laid: Laid
    adhesive: Product | None
    notch: Quantity
    thickness: Quantity             # after combing at an angle and pressing
    back_butter: bool
    contact: Quantity
    rate: Quantity                  # kg/m2 of the bed
    butter_rate: Quantity | None    # kg/m2 on the tile back


def density(product: Product | None, practice: Practice) -> Quantity:
    """kg of powder a square metre and millimetre of bed."""
    return (product.density if product is not None else None) or practice.limit("adhesive-density")


def _back_buttered(s: Survey, laid: Laid, practice: Practice) -> bool:
    # Mosaic is beaten into flattened ridges: buttered sheets push adhesive through their joints.
    if laid.tile.mosaic:
        return False
    heated = s.is_floor and s.room.heating is not None
    trays = [geometry.box(x.rect) for x in s.room.showers if x.tray]
    in_shower = s.is_floor and any(
        z.rect is None or (z.exposure == "shower" and geometry.box(z.rect) not in trays) for z in s.surface.zones
    )
    return heated or in_shower or laid.long_edge.value > practice.limit("back-butter-edge").value


def contact(surface: Surface, tile: Tile, practice: Practice) -> Quantity:
    """The least share of the tile's back in adhesive: by how wet it gets, stone, and where a family asks for a solid bed."""
    wanted = [practice.limit("contact-wet" if surface.wet else "contact-floor" if surface.kind == "floor" else "contact-dry")]
    if tile.stone:
        wanted.append(practice.limit("contact-stone"))
    if surface.kind == "wall" and _solid(surface, tile, practice):
        wanted.append(practice.limit("contact-wet"))
    return max(wanted, key=lambda q: q.value)


def _solid(surface: Surface, tile: Tile, practice: Practice) -> bool:
    """A wall tile so large, or so heavy for its base, that the family asks for a bed without voids."""
    face, share = practice.find("solid-bed-tile-face"), practice.find("solid-bed-load-share")
    if face is not None and not tile.mosaic and tile.width.value * tile.height.value >= face.value:
        return True
    weight, carries = tile.weight, surface.base.carries
    return share is not None and weight is not None and carries is not None and weight.value > share.value * carries.value


def beds(surveys: Sequence[Survey], practice: Practice) -> tuple[Bed, ...]:
    result: list[Bed] = []
    for s in surveys:
        for laid in s.laid:
            product = product_for(s.surface, "adhesive", laid.tile)
            notch = notch_size(s.surface, laid.tile, product, practice)
            bed = bed_thickness(notch, practice)
            rate = product.consumption if product is not None and product.consumption is not None else work(
                "bed * density", "kg/m2", source="bed times dry density", bed=bed, density=density(product, practice),
            )
            buttered = _back_buttered(s, laid, practice)
            butter_rate = practice.limit("back-butter-rate") if buttered else None
            result.append(Bed(s, laid, product, notch, bed, buttered, contact(s.surface, laid.tile, practice), rate, butter_rate))
    return tuple(result)


def notches(all_beds: Sequence[Bed]) -> tuple[Notch, ...]:
    """One entry a tile and surface: reveals and niches are combed like the field around them."""
    seen: dict[tuple[str, str], Notch] = {}
    for b in all_beds:
        seen.setdefault((b.laid.surface.id, b.laid.tile.name), Notch(
            b.laid.surface.id, b.laid.tile.name, b.notch, b.thickness, b.back_butter, b.contact,
        ))
    return tuple(seen.values())


def take(all_beds: Sequence[Bed], surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    missing: list[Missing] = []
    for b in all_beds:
        place, area = b.laid.surface.id, b.laid.area
        if b.adhesive is None:
            # What the spec refuses is not missing: the checks speak of it.
            if b.laid.surface.refusal("adhesive") is None:
                missing.append(Missing("adhesive", "", "product", (place,)))
            continue
        role = "bed" if b.laid.role == "field" else b.laid.role
        if b.adhesive.consumption is not None:
            net = work(
                "area * consumption", "kg", source="consumption of the product", area=area, consumption=b.adhesive.consumption,
            )
        else:
            net = work("area * bed * density", "kg", source="area times mean bed times dry density",
                       area=area, bed=b.thickness, density=density(b.adhesive, practice))
        shares.append(Share(b.adhesive, Part(place, area, net, role)))
        if b.butter_rate is not None:
            net = work(
                "area * back_buttering", "kg", source="thin layer on the tile back", area=area, back_buttering=b.butter_rate,
            )
            shares.append(Share(b.adhesive, Part(place, area, net, "back-butter")))
    for s in surveys:
        shares += _mat_layers(s, practice)
    return Taken(products(shares, "kg", practice.limit("adhesive-allowance"), "allowance for waste and texture"), tuple(missing))


def _mat_layers(s: Survey, practice: Practice) -> list[Share]:
    """A mat in the adhesive lies between two layers: a combed bed below it, and a cover that fills the floor level."""
    heating = s.room.heating
    if not s.is_floor or heating is None or heating.kind != "mat" or not s.laid:
        return []
    product = product_for(s.surface, "adhesive", s.laid[0].tile)
    if product is None:
        return []
    area, rate = s.measure.tiled_area, density(product, practice)
    under = bed_thickness(practice.limit("mat-bed-notch"), practice)
    cover = practice.limit("heating-cover-min")
    below = work("area * bed * density", "kg", source="combed bed under the mat", area=area, bed=under, density=rate)
    above = work("area * cover * density", "kg", source="cover over the mat", area=area, cover=cover, density=rate)
    return [
        Share(product, Part(s.surface.id, area, below, "mat-bed")), Share(product, Part(s.surface.id, area, above, "mat-cover")),
    ]
