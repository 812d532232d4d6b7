"""Tile and cement grout let water through. Where a shower, a bath or a wet floor wets a surface, a membrane under the tiles
keeps the water out of the building: EN 14891 names the products, DIN 18534-1, BS 5385-4, AS 3740 and ANSI A118.10 say where
they go.

Leave `membrane none` out, or name a product: the membrane then covers the wet area and the reach beyond it that the practice
asks for. This rule cannot be deviated from: a leak shows only when the structure behind it is rotten.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule
from tilespec.checks.wet import bare_parts, exposures, soaked_zones
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        wet = soaked_zones(context, surface)
        if not wet:
            continue
        what, name = exposures(wet), context.name(surface)
        refused = surface.refusal("membrane")
        near = tuple(Label(z.span, "this wets it") for z in wet if z.span is not None and z.span != refused)[:1]
        if refused is not None or surface.product("membrane") is None or not surface.membrane_areas:
            yield RULE.at(
                (surface.id,),
                context.span(refused, wet[0].span, surface.span),
                f"{name} is wetted by {what} and has no membrane.",
                label="no membrane here",
                secondary=near,
                help="Take `membrane none` out, or name a membrane there: it covers the wet area."
                if refused is not None
                else "Name a membrane, for example `membrane generic-membrane`.",
            )
        elif any(bare_parts(surface, z) for z in wet):
            yield RULE.at(
                (surface.id,),
                context.span(wet[0].span, surface.span),
                f"The membrane on {name} does not cover all that {what} wets.",
                label="wider than the membrane",
                help="Let the membrane reach over the whole wet area.",
            )


RULE = Rule(
    "T2001",
    "wet-zone-without-membrane",
    Severity.ERROR,
    "A wet area with no membrane",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone; membrane none
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
)
