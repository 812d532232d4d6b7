"""Why each product is used where: what the place asks of it and because of what, and whether the product has it."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.job.classes import Ask, adhesive_asks, adhesive_looks, grout_ask, membrane_ask, sealant_asks, strongest
from tilespec.job.product import meets
from tilespec.job.resolve import adhesive_for, tiles_laid, wetted_by
from tilespec.job.types import Job, Product, Room, Surface
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity

# How a product stands to what is asked of it; the worst of several governs.
FITS, BELOW, NOT_SAID, OTHER = "fits", "below", "not-said", "other-standard"
_WORST = (BELOW, NOT_SAID, OTHER, FITS)


@dataclass(frozen=True, slots=True)
class Least:
    """A number that is asked of a product. `what`: a wording key, "film" or "coats"."""

    what: str
    limit: Quantity
    fit: str


@dataclass(frozen=True, slots=True)
class Suit:
    """A product at a place, and what the place asks of it: the governing class first.

    place  surface id
    kind   "adhesive", "grout", "membrane" or "sealant"
    tile   name of the tile that it is for; "" where it is for the surface
    fit    "fits", "below", "not-said" (the spec does not say the product's class), "other-standard" (its class is of a standard
           that cannot be compared with the one asked for: the data sheet decides)
    """

    place: str
    kind: str
    tile: str
    product: Product
    asks: tuple[Ask, ...]
    least: tuple[Least, ...]
    fit: str


def suitability(job: Job, practice: Practice) -> tuple[Suit, ...]:
    """Every product whose class a place asks for, surface by surface in the order of the job."""
    return tuple(suit for room in job.rooms for surface in room.surfaces if surface.coverings
                 for suit in _surface(practice, room, surface))


def _surface(practice: Practice, room: Room, surface: Surface) -> list[Suit]:
    floor, wet, tiles = surface.kind == "floor", wetted_by(surface), tiles_laid(surface)
    heated, membrane = floor and room.heating is not None, surface.product("membrane")
    found: list[Suit | None] = []
    if membrane is not None and surface.membrane_areas:
        reasons = tuple(dict.fromkeys(a.reason for a in surface.membrane_areas))
        found.append(_suit(surface, "membrane", "", membrane, (membrane_ask(practice, reasons),), _membrane(practice, membrane)))
    for tile in dict.fromkeys(tiles):
        asks = adhesive_asks(practice, tile, floor, wet, heated, surface.base.kind, membrane)
        first = strongest(asks)
        asks = (first, *(a for a in asks if a is not first), *adhesive_looks(practice, tile))
        found.append(_suit(surface, "adhesive", tile.name, adhesive_for(surface, tile), asks))
    found.append(_suit(surface, "grout", "", surface.product("grout"), (grout_ask(practice, floor, wet, heated),)))
    stone, mirror = any(t.stone for t in tiles), any(f.kind == "mirror" for f in surface.fittings)
    found.append(_suit(surface, "sealant", "", surface.product("sealant"), sealant_asks(practice, wet, stone, mirror)))
    return [s for s in found if s is not None]


def _membrane(practice: Practice, product: Product) -> tuple[Least, ...]:
    """The film and the coats of a liquid membrane; a sheet has neither."""
    if "sheet" in product.flags:
        return ()
    film = practice.find(f"membrane-film-{product.cls[0]}") if product.cls else None
    asked = (("film", film, product.film), ("coats", practice.limit("membrane-coats"), product.coats))
    return tuple(
        Least(what, limit, NOT_SAID if has is None else FITS if has.value >= limit.value else BELOW)
        for what, limit, has in asked
        if limit is not None
    )


def _suit(
    surface: Surface, kind: str, tile: str, product: Product | None, asks: tuple[Ask, ...], least: tuple[Least, ...] = ()
) -> Suit | None:
    if product is None:
        return None
    fits = [_fit(product, a) for a in asks] + [x.fit for x in least if x.what != "film" or x.fit == BELOW]
    return Suit(surface.id, kind, tile, product, asks, least, min(fits, key=_WORST.index))


def _fit(product: Product, ask: Ask) -> str:
    if ask.flags:
        return FITS if all(f in product.flags or f == product.colour for f in ask.flags) else BELOW
    if any(meets(product, choice) for choice in ask.word.choices):
        return FITS
    if "sheet" in product.flags or (product.cls and product.cls[0].startswith("A118")):
        return OTHER
    return BELOW if product.cls else NOT_SAID
