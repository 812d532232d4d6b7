"""The foot of a levelling clip stands in the joint and keeps the tiles as far apart as it is thick. A clip that is wider than
the joint makes another joint than the one that was set out: every course is off by the difference. Geometry, no source.

Take clips of the joint's width or thinner, with spacers; or write the joint that the clips make.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, said_at
from tilespec.checks.tiling.came import meant_for, of_this_job
from tilespec.diagnostics.model import Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    clips = of_this_job(context, "clips")
    for surface in context.job.tiled if clips else ():
        for covering in surface.coverings:
            own = [(p, p.width) for p in clips if p.width is not None and meant_for(p, surface, covering.tile)]
            if covering.tile.mosaic or said_at(covering.joint) is None or not own:
                continue
            if any(w.value <= covering.joint.value for _, w in own):
                continue
            product, width = min(own, key=lambda pair: pair[1].value)
            yield RULE.at(
                (surface.id,),
                context.span(said_at(width), product.span),
                f"Clips {product.name} are {both(width)} wide; the joint on {context.name(surface)} is {both(covering.joint)}.",
                label="wider than the joint",
                help=f"Take clips of {both(covering.joint)} or less, or write `joint {typed(width)}`.",
            )


RULE = Rule(
    "T2449",
    "clips-wider-than-joint",
    Severity.WARNING,
    "Levelling clips that do not go into the joint",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
clips wedges; width 3; thick 3 to 12 mm
tile wall-tile 300x300x9 porcelain rectified
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 2
""",
    good="""\
clips wedges; width 2; thick 3 to 12 mm
tile wall-tile 300x300x9 porcelain rectified
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 2
""",
    whole=True,
)
