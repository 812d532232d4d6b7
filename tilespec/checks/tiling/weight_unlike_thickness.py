"""The weight for each square metre follows from body and thickness: porcelain about 2.35, wall tiles 1.9, stone 2.8 kg for each
millimetre (ceramics data, from memory). A figure far from it is most often the weight of one tile or of a box, and what the
wall carries and who lifts the boxes is then judged by a wrong number.

Take the weight for each square metre from the data sheet: that of a box, divided by the area in it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, said_at
from tilespec.checks.tiling.used import used
from tilespec.diagnostics.model import Severity
from tilespec.quantity import work


def find(context: Context) -> Iterator[Finding]:
    practice = context.practice
    tolerance = practice.limit("tile-weight-tolerance")
    for tile in context.job.tiles:
        density = practice.find(f"tile-density-{tile.body}")
        if tile.weight is None or tile.mosaic or density is None:
            continue
        likely = work(
            "thickness * density", "kg/m2", source="weight by body and thickness", thickness=tile.thickness, density=density,
        )
        apart = abs(tile.weight.value - likely.value) / likely.value
        if apart <= tolerance.value:
            continue
        one = likely.value * tile.width.value * tile.height.value
        single = abs(tile.weight.value - one) <= one * tolerance.value
        yield RULE.at(
            used(context, tile),
            context.span(said_at(tile.weight), tile.span),
            f"{called(tile)} is said to weigh {both(tile.weight)}; {tile.body} of {both(tile.thickness)} weighs about "
            f"{both(likely)}.",
            label="of one tile?" if single else "does not fit",
            help="This looks like the weight of one tile: write that of a square metre."
            if single
            else "Take the weight of a square metre from the data sheet, or correct the thickness.",
            notes=(cited(density), cited(tolerance)),
        )


RULE = Rule(
    "T2422",
    "weight-unlike-thickness",
    Severity.WARNING,
    "A weight that does not fit the tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 600x300x9 porcelain landscape; weight 3.8 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=(
        "tile-weight-tolerance",
        "tile-density-porcelain",
        "tile-density-ceramic",
        "tile-density-stone",
        "tile-density-glass",
    ),
    whole=True,
)
