"""Natural stone is too heavy and too stiff for gypsum plaster: the plaster shears off the wall. BS 5385-1:2018 as reported
rules it out, whatever the stone weighs; a skim coat on plasterboard is plaster too.

Fix a tile-backer or cement board mechanically to the wall and tile on that. Stone that falls hurts people: this rule cannot
be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, called
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        base = surface.base
        plaster = base.kind == "gypsum-plaster" or (base.kind == "gypsum-plasterboard" and base.skim is True)
        stone = next((c for c in surface.coverings if c.tile.stone), None)
        if surface.kind != "wall" or not plaster or stone is None or surface.product("board") is not None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(stone.span, surface.span),
            f"{called(stone.tile)} is natural stone and {context.name(surface)} is gypsum plaster, which does not hold it.",
            label="natural stone",
            secondary=(Label(base.span, "gypsum plaster"),) if base.span is not None else (),
            help="Tile on a board that is fixed to the structure: `base tile-backer board` or `base cement board`.",
            notes=("BS 5385-1:2018 as reported: natural stone is not suitable on gypsum plaster.",),
        )


RULE = Rule(
    "T2203",
    "direct-stone-on-gypsum-plaster",
    Severity.ERROR,
    "Natural stone on gypsum plaster",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
tile slate 300x300x8 slate; weight 19 kg/m2
wall A 2.4 x 2.4
  base gypsum plaster
  tile slate; joint 3
""",
    good="""\
tile slate 300x300x8 slate; weight 19 kg/m2
wall A 2.4 x 2.4
  base cement board
  tile slate; joint 3
""",
    limits=("stone-on-gypsum-plaster",),
)
