"""Which product is used where: named at the surface, or declared, or the generic one of the class that the practice asks for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from tilespec.job.classes import Ask, adhesive_asks, adhesive_looks, grout_ask, sealant_asks, strongest
from tilespec.job.context import Context
from tilespec.job.declared import Pool
from tilespec.job.product import choose, meets, with_defaults
from tilespec.job.types import Heating, Product, Surface, Tile
from tilespec.source import Span

# Products that a wet area needs, in the order in which they are used.
MEMBRANE_SYSTEM = ("membrane", "tape", "collar")


def adhesive_class(asks: tuple[Ask, ...]) -> tuple[str, ...]:
    """The class of adhesive to look for where all of these are asked."""
    word = strongest(asks).word
    # A cement adhesive serves all of these places; dispersions only where nothing gets wet.
    options = [c for c in word.choices if c[0][0] in "CR"] or list(word.choices)
    return options[0]


def _take(
    kind: str,
    surface: Surface,
    pool: Pool,
    named: Mapping[str, tuple[str, Span]],
    needed: tuple[str, ...],
    flags: tuple[str, ...],
    tile: Tile | None,
    context: Context,
) -> Product | None:
    """The product of a kind for a surface. None when the surface refuses it (`membrane none`)."""
    place = "floor" if surface.kind == "floor" else "walls"
    generic = choose(pool.generic(kind), place, None, needed, flags)
    if kind in named:
        name, _ = named[kind]
        if name == "none":
            return None
        own = next((p for p in pool.declared(kind) if p.name == name), None)
        if own is not None:
            return with_defaults(own, _like(own, pool.generic(kind)))
        stock = next((p for p in pool.generic(kind) if p.name == name), None)
        if stock is not None:
            return stock
    own = choose(pool.declared(kind), place, tile.name if tile else None, needed, flags)
    if own is not None:
        return with_defaults(own, _like(own, pool.generic(kind)))
    return generic


def _like(product: Product, generic: tuple[Product, ...]) -> Product | None:
    """The generic product of its kind whose data may stand in for what a declared one leaves out: same kind of material."""
    for g in generic:
        if not product.cls or not g.cls or g.cls[0][0] == product.cls[0][0] and g.cls[0] == product.cls[0]:
            if ("fast" in g.flags) == ("fast" in product.flags):
                return g
    return next((g for g in generic if not product.cls), None)


def wetted_by(surface: Surface) -> tuple[str, ...]:
    """What wets a surface, each once."""
    return tuple(dict.fromkeys(z.exposure for z in surface.zones))


def tiles_laid(surface: Surface) -> tuple[Tile, ...]:
    """A niche may be lined with another tile, which takes its own adhesive and sealer."""
    return tuple(c.tile for c in surface.coverings) + tuple(n.tile for n in surface.niches if n.tile is not None)


def resolve(
    surface: Surface, pool: Pool, named: Mapping[str, tuple[str, Span]], heating: Heating | None, leveller: bool, context: Context
) -> Surface:
    """The surface with a product of every kind that its work takes."""
    practice = context.practice
    floor = surface.kind == "floor"
    wet = wetted_by(surface)
    heated = floor and heating is not None
    tiles = tiles_laid(surface)
    products: list[Product] = []

    def add(product: Product | None) -> None:
        if product is not None and not any(p.kind == product.kind and p.name == product.name for p in products):
            products.append(product)

    if leveller:
        add(_take("leveller", surface, pool, named, (), (), None, context))
    if surface.refusal("primer") is None:
        add(_take("primer", surface, pool, named, (), (), None, context))
    if surface.membrane_areas:
        for kind in MEMBRANE_SYSTEM:
            add(_take(kind, surface, pool, named, ("DM",) if kind == "membrane" and kind not in named else (), (), None, context))
    for tile in tiles:
        membrane = next((p for p in products if p.kind == "membrane"), None)
        needed = adhesive_class(adhesive_asks(practice, tile, floor, wet, heated, surface.base.kind, membrane))
        flags = tuple(f for look in adhesive_looks(practice, tile) for f in look.flags)
        adhesive = _take("adhesive", surface, pool, named, needed, flags, tile, context)
        if (
            adhesive is not None
            and flags
            and not adhesive.generic
            and not all(f in adhesive.flags or f == adhesive.colour for f in flags)
            and "adhesive" not in named
        ):
            # A translucent tile on a firm's grey adhesive: the generic white one rather than spoil the stone; the print marks it.
            other = choose(pool.generic("adhesive"), "floor" if floor else "walls", None, needed, flags)
            if other is not None and not any(tile.name in p.for_ for p in pool.declared("adhesive")):
                adhesive = other
        if adhesive is not None:
            adhesive = replace(adhesive, for_=(*adhesive.for_, tile.name) if tile.name not in adhesive.for_ else adhesive.for_)
        _merge_adhesive(products, adhesive)
    if tiles:
        grout = grout_ask(practice, floor, wet, heated).word.choices[0]
        add(_take("grout", surface, pool, named, grout, (), tiles[0], context))
        porous = tuple(dict.fromkeys(t.name for t in tiles if t.porous))
        sealer = _take("sealer", surface, pool, named, (), (), None, context) if porous or "sealer" in named else None
        if sealer is not None:
            # Only the porous tiles are sealed, unless the spec names the sealer for the surface.
            add(sealer if "sealer" in named else replace(sealer, for_=porous))
        cls, *more = sealant_asks(practice, wet, any(t.stone for t in tiles), any(f.kind == "mirror" for f in surface.fittings))
        flags = tuple(f for ask in more for f in ask.flags)
        add(_take("sealant", surface, pool, named, cls.word.choices[0][:1], flags, None, context))
        add(_take("backer", surface, pool, named, (), (), None, context))
    if any(f.kind == "mirror" for f in surface.fittings):
        add(_take("mirror-adhesive", surface, pool, named, (), (), None, context))
    if "impregnator" in named and named["impregnator"][0] != "none":
        add(_take("impregnator", surface, pool, named, (), (), None, context))
    return replace(surface, products=tuple(products))


def _merge_adhesive(products: list[Product], adhesive: Product | None) -> None:
    """Several tiles may share an adhesive: one entry, with all the tiles it is for."""
    if adhesive is None:
        return
    for n, p in enumerate(products):
        if p.kind == "adhesive" and p.name == adhesive.name:
            products[n] = replace(p, for_=tuple(dict.fromkeys((*p.for_, *adhesive.for_))))
            return
    products.append(adhesive)


def adhesive_for(surface: Surface, tile: Tile) -> Product | None:
    """The adhesive under a tile of a surface: the one that names it, else the surface's only one."""
    adhesives = [p for p in surface.products if p.kind == "adhesive"]
    return next((p for p in adhesives if tile.name in p.for_), adhesives[0] if adhesives else None)


__all__ = ["adhesive_class", "adhesive_for", "meets", "resolve", "tiles_laid", "wetted_by"]
