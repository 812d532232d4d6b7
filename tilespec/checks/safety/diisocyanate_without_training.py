"""Polyurethanes set by isocyanates, which make skin and lungs allergic, some for life. In the EU whoever uses products with
more than 0.1 % of monomeric diisocyanate at work is trained first, and again every five years (REACH Annex XVII, entry 74).

Write the training: `record resin-training` with its day and who confirms it. Look up the share on the product's sheet; where
it is 0.1 % or less write the training all the same, for the hazard is there. It is about lungs: this rule cannot be deviated
from.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from tilespec.checks.recorded import LOOKED_AT, about
from tilespec.checks.rule import INJURY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.records import before
from tilespec.job.types import Product, Record
from tilespec.quantity import UNITS
from tilespec.sequence.site import failing

# The first record that shows a product in use.
_USED = {"primer": "primer", "membrane": "first-coat", "adhesive": "tiling", "grout": "grouting", "sealant": "sealing"}


def used(context: Context, product: Product) -> Record | None:
    """The first record that shows that a product was used."""
    first = _USED.get(product.kind)
    surfaces = [s for s in context.job.tiled if product in s.products]
    found = [
        r for r in context.job.records
        if first is not None and r.kind.text not in LOOKED_AT and (r.kind.text == first or before(first, r.kind.text))
        and any(about(r, s) for s in surfaces)
    ]  # fmt: skip
    return min(found, key=lambda r: r.on, default=None)


def find(context: Context) -> Iterator[Finding]:
    share, again = context.practice.limit("isocyanate-training"), context.practice.limit("isocyanate-training-again")
    if context.practice.word("isocyanate-law").text != "law":
        return
    for product in context.job.products:
        work = used(context, product) if "polyurethane" in product.flags and not product.generic else None
        if work is None:
            continue
        old = timedelta(days=int(again.value // UNITS["d"].factor))
        trained = [r for r in context.job.records if r.kind.text == "resin-training" and not failing(r) and r.on <= work.on]
        if any(r.on + old >= work.on for r in trained):
            continue
        yield RULE.at(
            tuple(s.id for s in context.job.tiled if product in s.products),
            context.span(work.kind.span),
            f"`{work.kind}` of {work.on} shows {product.kind} {product.name}, a polyurethane, in use, and no training "
            f"{'since its five years ran out' if trained else 'before it'} is recorded.",
            label="used without training",
            secondary=(Label(product.span, "polyurethane"),) if product.span is not None else (),
            help="Have those who use it trained, then add `record resin-training` with the day and who confirms it.",
            notes=(cited(share), cited(again)),
        )


RULE = Rule(
    "T2822",
    "diisocyanate-without-training",
    Severity.WARNING,
    "Polyurethane used by people who were not trained",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive flex-two class R2T; polyurethane; pack 5 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
adhesive flex-two class R2T; polyurethane; pack 5 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record resin-training on wall A 2025-10-06 by "A. Finch"
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    limits=("isocyanate-law", "isocyanate-training", "isocyanate-training-again"),
    whole=True,
)
