"""Every product has temperatures between which it works: below, cement stops hardening and films do not close; above, it
dries before it grips. The base counts as much as the air. Where the data sheet says nothing, the trade's window of 5 to 30
degrees C holds.

Heat or shade the room and write the temperatures it then has, or choose another product. Heaters that burn fuel need fresh
air.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product
from tilespec.quantity import Given, Quantity
from tilespec.quantity.typed import typed

# Products that set or dry where they are spread.
SETTING = ("adhesive", "grout", "primer", "membrane", "sealant", "leveller", "impregnator", "sealer", "mirror-adhesive")


def find(context: Context) -> Iterator[Finding]:
    window = (context.practice.limit("work-temperature-min"), context.practice.limit("work-temperature-max"))
    measured = (("air", context.job.conditions.air), ("surface", context.job.conditions.surface))
    outside_window: set[str] = set()
    for what, q in measured:
        limit = _broken(q, *window)
        if limit is not None:
            outside_window.add(what)
            yield _finding(context, what, q, limit, None)
    for product in context.job.products:
        low, high = product.temperature_min, product.temperature_max
        if product.kind not in SETTING or low is None or high is None:
            continue
        for what, q in measured:
            limit = _broken(q, low, high)
            if limit is not None and what not in outside_window:
                yield _finding(context, what, q, limit, product)


def _broken(q: Quantity, low: Quantity, high: Quantity) -> Quantity | None:
    return low if q.value < low.value else high if q.value > high.value else None


def _finding(context: Context, what: str, q: Quantity, limit: Quantity, product: Product | None) -> Finding:
    surfaces = [s for s in context.job.tiled if product is None or product in s.products]
    cold = q.value < limit.value
    words = "air" if what == "air" else "base"
    subject = f"{product.kind} {product.name}" if product is not None else "tiling"
    return RULE.at(
        tuple(s.id for s in surfaces),
        context.span(said_at(q), product.span if product is not None else None),
        f"The {words} is at {typed(q)}: too {'cold' if cold else 'warm'} for {subject}, which takes "
        f"{typed(limit)} at {'least' if cold else 'most'}.",
        label="too cold" if cold else "too warm",
        secondary=(Label(product.span, "this product"),) if product is not None and product.span is not None else (),
        help=f"{'Heat' if cold else 'Shade or cool'} the room before and while it sets, and write the temperature it then has"
        + (", or choose a product for it." if product is not None else "."),
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
)
