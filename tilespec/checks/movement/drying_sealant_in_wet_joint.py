"""An acrylic sealant hardens by drying: it shrinks, moves little, and softens again where it stays wet. BS 5385-4 as reported
asks for a sealant that cures in movement joints of wet areas (silicone, hybrid polymer, polysulfide or polyurethane).

Take a curing sealant on the wetted surfaces; acrylic is for dry joints that are painted.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.checks.wet import exposures, soaked_zones
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        sealant, wet = surface.product("sealant"), soaked_zones(context, surface)
        if sealant is None or "acrylic" not in sealant.flags or not wet:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(sealant.span, wet[0].span, surface.span),
            f"Sealant {sealant.name} is acrylic: it dries instead of curing, and {context.name(surface)} is wetted by "
            f"{exposures(wet)}.",
            label="softens where it stays wet",
            secondary=(Label(wet[0].span, "this wets it"),) if wet[0].span is not None else (),
            help="Take a curing one for it, for example `sealant NAME class XS1 25LM; neutral`.",
            notes=("BS 5385-4:2015 as reported: a curing sealant in wet movement joints.",),
        )


RULE = Rule(
    "T2716",
    "drying-sealant-in-wet-joint",
    Severity.ERROR,
    "A drying sealant in a joint that stays wet",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
sealant own-seal acrylic; pack 310 mL
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
sealant own-seal class XS1 25LM; neutral; pack 310 mL
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
)
