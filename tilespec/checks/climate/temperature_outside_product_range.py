"""Every product has temperatures between which it works: below, cement stops hardening and films do not close; above, it
dries before it grips. The base counts as much as the air.

Heat or shade the room and write the temperatures it then has, or choose another product. Heaters that burn fuel need fresh
air.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.climate.ranges import broken, by_product, measured, window
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import Given


def find(context: Context) -> Iterator[Finding]:
    for words, q in measured(context):
        # What is too cold for any tiling is said once, not for each product.
        if broken(q, *window(context)) is not None:
            continue
        for product, limit in by_product(context, q):
            cold = q.value < limit.value
            yield RULE.at(
                tuple(s.id for s in context.job.tiled if product in s.products),
                context.span(said_at(q), product.span),
                f"The {words} is at {both(q)}: too {'cold' if cold else 'warm'} for {product.kind} {product.name}, which takes "
                f"{both(limit)} at {'least' if cold else 'most'}.",
                label="too cold" if cold else "too warm",
                secondary=(Label(product.span, "this product"),) if product.span is not None else (),
                help=f"{'Heat' if cold else 'Shade or cool'} the room before and while it sets, and write what it then has; "
                "or choose a product for it.",
                notes=() if isinstance(limit.why, Given) else (cited(limit),),
            )


RULE = Rule(
    "T2301",
    "temperature-outside-product-range",
    Severity.ERROR,
    "Too cold or too warm for a product",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
conditions air 7 C; humidity 60 %; surface 6 C
adhesive flex-set class C2TE S1; pack 25 kg; temperature 10 to 30 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
conditions air 19 C; humidity 60 %; surface 17 C
adhesive flex-set class C2TE S1; pack 25 kg; temperature 10 to 30 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("work-temperature-min", "work-temperature-max"),
    whole=True,
)
