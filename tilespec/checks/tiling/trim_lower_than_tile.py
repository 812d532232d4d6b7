"""A trim covers the edge of the tile. One that is lower than the tile is thick lets the glazed edge stand out: it chips, and
it cuts. Trims are chosen by the thickness of the tile: common practice, no source.

Take the next height, or set the trim on adhesive of that difference and say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, said_at
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        covering = surface.field
        for run in surface.trims:
            height = run.product.height
            if covering is None or height is None or said_at(covering.tile.thickness) is None:
                continue
            if height.value >= covering.tile.thickness.value:
                continue
            at = context.span(said_at(height), run.product.span, run.span)
            yield RULE.at(
                (surface.id,),
                at,
                f"Trim {run.product.name} is {both(height)} high; {called(covering.tile)} on {context.name(surface)} is "
                f"{both(covering.tile.thickness)} thick and stands out over it.",
                label="lower than the tile",
                secondary=(Label(covering.tile.span, "this tile"),) if covering.tile.span is not None else (),
                help=f"Take a trim of {both(covering.tile.thickness)} or the next height above it.",
            )
            break


RULE = Rule(
    "T2451",
    "trim-lower-than-tile",
    Severity.WARNING,
    "A trim that the tile stands out over",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
trim edge aluminium; pack 2.5 m; height 8
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  trim edge at left
""",
    good="""\
trim edge aluminium; pack 2.5 m; height 10
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  trim edge at left
""",
)
