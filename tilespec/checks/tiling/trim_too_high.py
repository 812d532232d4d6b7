"""The foot of a trim lies in the bed with the tile. One that is higher than tile and bed together stands out over the face of
the tile: a lip that catches the foot, holds water and cannot be grouted. Geometry, with the bed that the trowel leaves.

Take a lower trim, or the notch that leaves the bed for this one.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import work


def find(context: Context) -> Iterator[Finding]:
    if context.takeoff is None:
        return
    for surface in context.job.tiled:
        covering = surface.field
        if covering is None or said_at(covering.tile.thickness) is None:
            continue
        tile = covering.tile
        notch = next((n for n in context.takeoff.notches if n.place == surface.id and n.tile == tile.name), None)
        for run in surface.trims:
            height = run.product.height
            if height is None or notch is None:
                continue
            most = work("tile + bed", "mm", source="tile and bed together", tile=tile.thickness, bed=notch.bed)
            if height.value <= most.value:
                continue
            yield RULE.at(
                (surface.id,),
                context.span(said_at(height), run.product.span, run.span),
                f"Trim {run.product.name} is {both(height)} high; {called(tile)} and its bed on {context.name(surface)} are "
                f"{both(most)} together.",
                label="stands out",
                secondary=(Label(tile.span, "this tile"),) if tile.span is not None else (),
                help=f"Take a trim from {both(tile.thickness)} to {both(most)}.",
                notes=(reckoned("Most", most),),
            )
            break


RULE = Rule(
    "T2452",
    "trim-too-high",
    Severity.WARNING,
    "A trim that stands out over the tiles",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
trim edge aluminium; pack 2.5 m; height 15
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
