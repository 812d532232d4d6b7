"""Shower walls are waterproof to a least height above the finished floor: AS 3740:2021 and the ABCB Housing Provisions name
1800 mm; other families borrow it. A membrane that ends in the spray lets water in at its upper edge.

Make the shower zone as high as the limit, or let it take the whole wall. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule, both, cited, local
from tilespec.checks.wet import soaked_zones
from tilespec.diagnostics.model import Severity
from tilespec.quantity import Quantity
from tilespec.setout.geometry import bounds, box


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("membrane-shower-height-min")
    for surface in context.job.tiled:
        if surface.kind != "wall" or surface.product("membrane") is None:
            continue
        needed = min(least.value, surface.height.value)
        for zone in soaked_zones(context, surface):
            if zone.exposure != "shower":
                continue
            here = box(zone.rect) if zone.rect is not None else bounds(surface.outline)
            over = [a.rect for a in surface.membrane_areas if a.rect is None or box(a.rect).meets(here)]
            tops = [r.top for r in over if r is not None]
            if not tops or len(tops) < len(over) or max(tops) >= needed:
                continue
            top = Quantity(max(tops), least.kind, least.shown, least.why)
            yield RULE.at(
                (surface.id,),
                context.span(zone.span, surface.span),
                f"The membrane in the shower on {context.name(surface)} ends {local(context, top)} above the finished floor; "
                f"it goes up to {both(least)} at least.",
                label="ends too low",
                notes=(cited(least),),
                help=f"Make the zone {both(least)} high, or leave its size out: then it takes the whole of "
                f"{context.name(surface)}.",
            )


RULE = Rule(
    "T2003",
    "membrane-too-low",
    Severity.ERROR,
    "A membrane that ends in the spray",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone 0.9 x 1.2; 0 from left, 0 up
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone 0.9 x 2.1; 0 from left, 0 up
""",
    limits=("membrane-shower-height-min",),
)
