"""The silver of a mirror is a film thinner than dust, and the acetic acid of a vinegar-smelling silicone eats it: black edges
and spots come through within months. Common practice, no source: only adhesives and sealants that cure neutral and say that
they are made for mirrors.

Take a neutral mirror adhesive, in upright beads so that air gets behind, and a neutral sealant on the same wall.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product, Surface


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.surfaces:
        mirror = next((f for f in surface.fittings if f.kind == "mirror"), None)
        if mirror is None:
            continue
        for product, what in _acid(surface):
            yield RULE.at(
                (surface.id,),
                context.span(product.span, mirror.span, surface.span),
                f"{what} {product.name} gives off acetic acid, and there is a mirror on {context.name(surface)}: "
                "its silver turns black.",
                label="eats the silver",
                secondary=(Label(mirror.span, "the mirror"),) if mirror.span is not None else (),
                help=f"Write `neutral` for `acetoxy` at {product.name} if its data sheet says so, or take one that is made for "
                "mirrors.",
                notes=("Common practice, no source.",),
            )


def _acid(surface: Surface) -> Iterator[tuple[Product, str]]:
    """The adhesive behind the mirror; the sealant beside it, unless it meets stone there: that is told already."""
    stone = any(c.tile.stone for c in surface.coverings) or any(n.tile is not None and n.tile.stone for n in surface.niches)
    for kind, what in (("mirror-adhesive", "Mirror adhesive"), ("sealant", "Sealant")):
        product = surface.product(kind)
        if product is not None and "acetoxy" in product.flags and not (kind == "sealant" and stone):
            yield product, what


RULE = Rule(
    "T2718",
    "acetoxy-at-mirror",
    Severity.WARNING,
    "An adhesive or sealant that blackens a mirror",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
mirror-adhesive own-fix acetoxy; pack 310 mL
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  mirror 0.6 x 0.8; 0.9 from left, 1.2 up
""",
    good="""\
mirror-adhesive own-fix neutral; pack 310 mL
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  mirror 0.6 x 0.8; 0.9 from left, 1.2 up
""",
)
