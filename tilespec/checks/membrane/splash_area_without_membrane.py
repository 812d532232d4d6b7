"""A splash area, such as the wall behind a basin, is wetted now and then (class W0-I of DIN 18534-1). A membrane is good
practice there; BS 5385-1:2018 as reported recommends it for wet areas at home. Without one, water that gets behind a worn
joint finds plaster or board.

Leave `membrane none` out, or say in a deviation why the base can take it (cement render, tile-backer board).
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.checks.wet import bare_parts
from tilespec.diagnostics.model import Label, Severity

_WETS = {"basin": "the basin", "bath": "the bath", "shower": "the shower"}


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        zones = [z for z in surface.zones if z.exposure == "splash"]
        if not zones:
            continue
        bare = surface.refusal("membrane") is not None or surface.product("membrane") is None
        if bare or any(bare_parts(surface, z) for z in zones):
            first = zones[0]
            yield RULE.at(
                (surface.id,),
                context.span(surface.refusal("membrane"), first.span, surface.span),
                f"{context.name(surface)} has a splash area and no membrane over it.",
                label="no membrane here",
                secondary=(Label(first.span, _WETS.get(first.cause, "this area")),) if first.span is not None else (),
                help="Take `membrane none` out, or name a membrane in its place.",
            )


RULE = Rule(
    "T2002",
    "splash-area-without-membrane",
    Severity.WARNING,
    "A splash area with no membrane",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  splash area 0.7 x 1.2; 0.1 from left, 0.6 up
  membrane none
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  splash area 0.7 x 1.2; 0.1 from left, 0.6 up
""",
)
