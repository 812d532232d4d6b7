"""Boards and wood sheets swell, shrink and bend from joist to joist; tiles laid straight on them crack along the joints of the
deck. BS 5385-3:2024, as reported in the trade press, asks for an intermediate layer over wood sheets; common practice
elsewhere: a tile board or an uncoupling mat.

Write the layer into the build-up: `build-up board 12, bed 4` or `build-up uncoupling 3, bed 4`.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Severity

# What lies between a deck and the tiles, and takes up its movement.
LAYERS = ("uncoupling", "board", "mat", "screed", "leveller", "falls")


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        floor = room.floor
        if floor is None or not floor.coverings or floor.base.kind not in ("timber", "plywood"):
            continue
        if floor.product("board") is not None or any(name in LAYERS for name, _ in room.levels.build_up):
            continue
        yield RULE.at(
            (floor.id,),
            context.span(floor.base.span, floor.span),
            f"{context.name(floor)} is timber, and no layer between it and the tiles is said.",
            label="moves below the tiles",
            help="Say it in the build-up: `build-up uncoupling 3, bed 4`, or `board 12` in its place.",
            notes=(cited(context.practice.word("timber-layer")),),
        )


RULE = Rule(
    "T2213",
    "timber-without-layer",
    Severity.WARNING,
    "Tiles straight on timber",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up uncoupling 3, bed 4
  tile floor-tile; joint 3
""",
    limits=("timber-layer",),
)
