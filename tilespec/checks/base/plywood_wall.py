"""Plywood and wood boards swell in the damp of a bathroom and work at their joints, and the tiles come off with the moving
face. BS 5385-1:2018 took plywood out as a direct base for wall tiles, as The Tile Association reports; elsewhere the same is
common practice.

Line the wall with a tile-backer or cement board, fixed to the studs, and tile on that.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        base = surface.base
        if surface.kind != "wall" or base.kind not in ("plywood", "timber") or surface.product("board") is not None:
            continue
        words = base.words.text if base.words is not None else base.kind
        yield RULE.at(
            (surface.id,),
            context.span(base.span, surface.span),
            f"{context.name(surface)} is {words}, which is no base for wall tiles: it swells and works at its joints.",
            label="wood",
            help="Fix a board over it and name that: `base tile-backer board` or `base cement board`.",
            notes=(cited(context.practice.word("wood-wall-base")),),
        )


RULE = Rule(
    "T2214",
    "plywood-wall",
    Severity.WARNING,
    "Tiles on a wooden wall",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base plywood
  tile plain-tile; joint 3
""",
    good="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement board
  tile plain-tile; joint 3
""",
    limits=("wood-wall-base",),
)
