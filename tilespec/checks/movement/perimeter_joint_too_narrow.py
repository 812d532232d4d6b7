"""The edge of a floor is where it finds room to grow: tiles that touch the wall have none, and arch. The Tile Association cites
6 mm, the TCNA Handbook (EJ171) 1/4 in, German practice an edge strip of 5 mm; BS 5385-3 wants it wherever a floor is more
than 2 m between its walls.

Write the width that the message gives, or more, and leave it out of the line to take the practice's. Skirting or wall tile
covers it, and no adhesive or grout falls into it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import heated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    least, start = context.practice.limit("perimeter-joint-floor"), context.practice.find("perimeter-joint-from")
    for surface in context.job.tiled:
        edge = surface.perimeter_joint
        if edge is None or heated(context, surface) or edge.value >= least.value:
            continue
        # In the UK a floor that is short between its walls needs none.
        if start is not None and max(surface.width.value, surface.height.value) <= start.value:
            continue
        span = said_at(edge)
        yield RULE.at(
            (surface.id,),
            context.span(span, surface.span),
            f"The joint round {context.name(surface)} is {both(edge)} wide: {both(least)} at least.",
            label="too narrow",
            help=f"Write `{typed(least)}` or more.",
            notes=(cited(least),),
            fixes=(Fix(f"write {typed(least)}", (Edit(span, typed(least)),)),) if span is not None else (),
        )


RULE = Rule(
    "T2709",
    "perimeter-joint-too-narrow",
    Severity.WARNING,
    "A floor with too little room at its edge",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  perimeter joint 3
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  perimeter joint 5
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    limits=("perimeter-joint-floor", "perimeter-joint-from"),
)
