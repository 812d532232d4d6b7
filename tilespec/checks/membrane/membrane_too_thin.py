"""A liquid membrane works by its thickness. DIN 18534-3 asks for a dry film of 0.5 mm of a dispersion (DM), 2 mm of a cement
membrane (CM), 1 mm of a reaction resin (RM), and for two coats at least, so that a pinhole in one is closed by the next.

Take the film and the coats from the data sheet, and no less than the practice asks for. Sheets (`sheet`) have no film.
This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.job.types import Product
from tilespec.quantity import Quantity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    for product in context.job.products:
        if product.kind != "membrane" or "sheet" in product.flags:
            continue
        film = context.practice.find(f"membrane-film-{product.cls[0]}") if product.cls else None
        coats = context.practice.limit("membrane-coats")
        for has, least, what in ((product.film, film, "dry film"), (product.coats, coats, "number of coats")):
            if has is not None and least is not None and has.value < least.value:
                places = tuple(s.id for s in context.job.surfaces if product in s.products)
                yield _finding(context, product, places, has, least, what)


def _finding(context: Context, product: Product, places: tuple[str, ...], has: Quantity, least: Quantity, what: str) -> Finding:
    span = said_at(has)
    return RULE.at(
        places,
        context.span(span, product.span),
        f"The {what} of membrane {product.name} is {both(has)}; it takes {both(least)} at least.",
        label="too little",
        help=f"Write `{typed(least)}`, or what the data sheet asks for if that is more.",
        notes=(cited(least),),
        fixes=(Fix(f"write {typed(least)}", (Edit(span, typed(least)),)),) if span is not None else (),
    )


RULE = Rule(
    "T2004",
    "membrane-too-thin",
    Severity.ERROR,
    "A membrane that is too thin",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
membrane thin-film class DM; pack 14 kg; coats 1; consumption 0.7 kg/m2; film 0.5 mm
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
membrane quick-film class DM; pack 14 kg; coats 2; consumption 0.7 kg/m2; film 0.5 mm
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("membrane-film-DM", "membrane-film-CM", "membrane-film-RM", "membrane-coats"),
    whole=True,
)
