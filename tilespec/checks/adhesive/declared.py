"""Products that the spec or its stock declares: which of their values they say themselves, and how another takes their place."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import Context, said_at
from tilespec.diagnostics.model import Label
from tilespec.job.types import Product, Surface
from tilespec.quantity import Quantity


def declared(context: Context) -> Iterator[tuple[Product, tuple[str, ...]]]:
    """Each declared adhesive once, with the surfaces that it is used on."""
    for p in context.job.products:
        if p.kind == "adhesive" and not p.generic:
            places = tuple(s.id for s in context.job.tiled if any((q.kind, q.name) == (p.kind, p.name) for q in s.products))
            if places:
                yield p, places


def stated(product: Product, q: Quantity) -> bool:
    """Whether its own statement says it: what is taken from the generic product of its class stands in another file."""
    at, span = said_at(q), product.span
    return at is not None and span is not None and at.file == span.file


def instead(context: Context, surface: Surface, product: Product, what: str, values: str, place: str = "") -> str:
    """What to write for another product. A declaration is taken by itself, unless the surface names the one it has.

    what     what to declare: "a cement adhesive"
    values   what its line says: "class C2TE"
    place    what it is for: "for tile NAME"; where the name decides, it is left out
    """
    kind, span = product.kind, surface.named_at(product.kind)
    if span is None:
        return f"Declare {what}: `{kind} NAME {values}{f'; {place}' if place else ''}`."
    shared = sum(s.named_at(kind) == span for s in context.job.surfaces) > 1
    where = "" if shared else f" on {context.name(surface)}"
    return f"Declare {what}, `{kind} NAME {values}`, and write `{kind} NAME`{where} in place of `{kind} {product.name}`."


def where_named(surface: Surface, product: Product) -> tuple[Label, ...]:
    """The place where the surface names its product, if it does."""
    span = surface.named_at(product.kind)
    return (Label(span, "named here"),) if span is not None else ()
