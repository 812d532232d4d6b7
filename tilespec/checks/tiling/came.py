"""What was delivered of a tile, and which products of the spec are meant for it."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import Context
from tilespec.job.types import Covering, Delivery, Product, Surface, Tile
from tilespec.quantity import Quantity, work


def laid_with(context: Context, tile: Tile) -> tuple[Surface, ...]:
    """Surfaces that the tile is laid on."""
    return tuple(s for s in context.job.tiled if any(c.tile.name == tile.name for c in s.coverings))


def places(context: Context, tile: Tile) -> tuple[str, ...]:
    return tuple(s.id for s in laid_with(context, tile))


def coverings(context: Context, tile: Tile) -> Iterator[tuple[Surface, Covering]]:
    for surface in context.job.tiled:
        for covering in surface.coverings:
            if covering.tile.name == tile.name:
                yield surface, covering


def sides(delivery: Delivery) -> tuple[tuple[str, tuple[Quantity, Quantity]], ...]:
    """The sides that were measured, with smallest and largest."""
    return tuple((name, q) for name, q in (("width", delivery.width), ("height", delivery.height)) if q is not None)


def spread(measured: tuple[Quantity, Quantity]) -> Quantity:
    return work("largest - smallest", "mm", source="difference of the measured sizes", smallest=measured[0], largest=measured[1])


def middle(measured: tuple[Quantity, Quantity]) -> Quantity:
    return work(
        "(smallest + largest) / 2", "mm", source="middle of the measured sizes", smallest=measured[0], largest=measured[1],
    )


def of_this_job(context: Context, kind: str) -> tuple[Product, ...]:
    """Products that the spec itself declares, or that are said to be for something: what only stands on the shelf is left out."""
    own = context.job.files[0] if context.job.files else ""
    return tuple(
        p for p in context.job.declared
        if p.kind == kind and not p.generic and (p.for_ or (p.span is not None and p.span.file == own))
    )  # fmt: skip


def meant_for(product: Product, surface: Surface, tile: Tile) -> bool:
    place = "floor" if surface.kind == "floor" else "walls"
    return not product.for_ or place in product.for_ or tile.name in product.for_
