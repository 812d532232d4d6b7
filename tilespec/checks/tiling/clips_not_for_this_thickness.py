"""Levelling clips reach round tiles of the thickness that they are made for. On a thinner tile the wedge does not draw it
down, on a thicker one the clip does not close: the courses are laid without them after all. What their maker says counts.

Take clips for this tile, or say with `for tile` which tiles they are meant for.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, said_at
from tilespec.checks.tiling.came import meant_for, of_this_job
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    clips = of_this_job(context, "clips")
    for surface in context.job.tiled if clips else ():
        for covering in surface.coverings:
            tile = covering.tile
            own = [(p, p.thick) for p in clips if p.thick is not None and meant_for(p, surface, tile)]
            fits = any(low.value <= tile.thickness.value <= high.value for _, (low, high) in own)
            if tile.mosaic or said_at(tile.thickness) is None or not own or fits:
                continue
            product, (low, high) = own[0]
            yield RULE.at(
                (surface.id,),
                context.span(said_at(low if tile.thickness.value < low.value else high), product.span),
                f"Clips {product.name} are made for tiles of {both(low)} to {both(high)}; "
                f"{called(tile)} on {context.name(surface)} is {both(tile.thickness)} thick.",
                label="not for this tile",
                secondary=(Label(tile.span, "this tile"),) if tile.span is not None else (),
                help="Take clips for this thickness, or say which tiles they are meant for: `for tile NAME`.",
            )


RULE = Rule(
    "T2450",
    "clips-not-for-this-thickness",
    Severity.WARNING,
    "Levelling clips for tiles of another thickness",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
clips wedges; width 2; thick 3 to 10 mm
tile wall-tile 300x300x12 porcelain rectified; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 2
""",
    good="""\
clips wedges; width 2; thick 3 to 12 mm
tile wall-tile 300x300x12 porcelain rectified; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 2
""",
    whole=True,
)
