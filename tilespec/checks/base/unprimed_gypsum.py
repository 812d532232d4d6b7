"""Cement and gypsum react where they meet in the damp: ettringite grows at the interface and pushes the tiling off the wall.
A primer keeps the two apart. It holds for plaster, plasterboard, gypsum fibreboard and calcium sulfate screeds, and for
cement membranes as well as cement adhesives (trade guidance in agreement; NHBC Standards 9.3.5 for calcium sulfate screeds).

Leave `primer none` out, or name the primer that the adhesive's maker gives for gypsum. Tiles that fall hurt people: this rule
cannot be deviated from. An adhesive that is not made of cement is no fault.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product


def cement(product: Product) -> bool:
    """Made of cement, by what is said of it or by its class."""
    spread = product.kind in ("adhesive", "membrane")
    return spread and ("cement" in product.flags or product.cls[:1] in (("C1",), ("C2",), ("CM",)))


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        base = surface.base
        product = next((p for p in surface.products if cement(p)), None)
        if not base.gypsum or product is None or (surface.refusal("primer") is None and surface.product("primer") is not None):
            continue
        words = base.words.text if base.words is not None else base.kind.replace("-", " ")
        yield RULE.at(
            (surface.id,),
            context.span(surface.refusal("primer"), base.span, surface.span),
            f"{context.name(surface)} is {words} and gets no primer under {product.name}, which is made of cement.",
            label="no primer here" if surface.refusal("primer") is not None else "gypsum",
            secondary=(Label(base.span, "gypsum"),) if base.span is not None and surface.refusal("primer") is not None else (),
            help="Take `primer none` out, or name a primer for gypsum in its place."
            if surface.refusal("primer") is not None
            else "Name a primer for gypsum, for example `primer generic-primer`.",
            notes=("Cement on bare gypsum grows ettringite, which breaks the bond (trade guidance in agreement).",),
        )


RULE = Rule(
    "T2201",
    "unprimed-gypsum",
    Severity.ERROR,
    "Cement on bare gypsum",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard unskimmed
  tile wall-tile; joint 3
  primer none
""",
    good="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard unskimmed
  tile wall-tile; joint 3
""",
    limits=("primer-on-gypsum",),
)
