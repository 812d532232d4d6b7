"""A heated floor pushes against its walls each time it warms up. German practice gives it an edge strip of 10 mm where an
unheated floor has 5, left standing until tile and grout are done; The Tile Association cites 6 mm, the TCNA Handbook 1/4 in.
Too narrow an edge, and the tiles arch or the wall tiles are sheared off.

Write the width that the message gives, or more, down through tile, bed and screed.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import heated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Label, Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("perimeter-joint-heated")
    for surface in context.job.tiled:
        edge, heating = surface.perimeter_joint, context.room(surface).heating
        if edge is None or heating is None or not heated(context, surface) or edge.value >= least.value:
            continue
        span = said_at(edge)
        yield RULE.at(
            (surface.id,),
            context.span(span, surface.span),
            f"The joint round {context.name(surface)} is {both(edge)} wide, and the floor is heated: {both(least)} at least.",
            label="too narrow for a heated floor",
            secondary=(Label(heating.span, "it is heated"),) if heating.span is not None else (),
            help=f"Write `{typed(least)}` or more.",
            notes=(cited(least),),
            fixes=(Fix(f"write {typed(least)}", (Edit(span, typed(least)),)),) if span is not None else (),
        )


RULE = Rule(
    "T2710",
    "perimeter-joint-on-heated-floor",
    Severity.WARNING,
    "A heated floor with too little room at its edge",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8 heated
  perimeter joint 6
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8 heated
  perimeter joint 10
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 3
""",
    limits=("perimeter-joint-heated",),
)
