"""Adhesives that the spec or its stock declares, and which of their values they say themselves."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import Context, said_at
from tilespec.job.types import Product
from tilespec.quantity import Quantity


def declared(context: Context) -> Iterator[tuple[Product, tuple[str, ...]]]:
    """Each declared adhesive once, with the surfaces that it is used on."""
    used: dict[str, tuple[Product, tuple[str, ...]]] = {}
    for surface in context.job.tiled:
        for p in surface.products:
            if p.kind == "adhesive" and not p.generic:
                first, places = used.get(p.name, (p, ()))
                used[p.name] = (first, (*places, surface.id))
    yield from used.values()


def stated(product: Product, q: Quantity) -> bool:
    """Whether its own statement says it: what is taken from the generic product of its class stands in another file."""
    at, span = said_at(q), product.span
    return at is not None and span is not None and at.file == span.file
