"""Sealer (before grouting) and impregnator (at the end), where the tile is porous or where the spec names the product."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.practice.lookup import Practice
from tilespec.quantity import work
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.types import Missing, Part

KINDS = ("sealer", "impregnator")


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    missing: list[Missing] = []
    for kind in KINDS:
        for s in surveys:
            own = [p for p in s.surface.products if p.kind == kind]
            for laid in s.laid:
                named = next((p for p in own if laid.tile.name in p.for_), None)
                said = next((p for p in own if not p.generic and not _for_tiles(p.for_)), None)
                product = named or said or (own[0] if own and laid.tile.porous else None)
                if product is None:
                    # Sealing is what a porous tile cannot do without; impregnating is a choice.
                    if laid.tile.porous and kind == "sealer":
                        missing.append(Missing(kind, "", "product", (s.surface.id,)))
                    continue
                coats = product.coats or practice.limit("impregnator-coats")
                rate = product.consumption or practice.limit("impregnator-rate")
                net = work("area * coats * consumption", "kg", source="area times coats times consumption",
                           area=laid.area, coats=coats, consumption=rate)
                shares.append(Share(product, Part(s.surface.id, laid.area, net, laid.role)))
    return Taken(products(shares, "kg", practice.limit("impregnator-allowance"), "allowance"), tuple(missing))


def _for_tiles(names: tuple[str, ...]) -> bool:
    return bool(names) and not set(names) & {"floor", "walls", "wall"}
