"""A silicone that smells of vinegar gives off acetic acid while it cures. The acid eats into marble, limestone and cement, and
the sealant's plasticiser creeps into stone and leaves a dark edge for good. Neutral curing sealants made for stone do neither
(practice with BS 5385-4; the acid's effect as known of such sealants).

Take a neutral one for the stone: `neutral` in its line, and on its data sheet that it does not stain natural stone.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Surface, Tile


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        sealant, stone = surface.product("sealant"), _stone(surface)
        if sealant is None or "acetoxy" not in sealant.flags or stone is None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(sealant.span, stone.span, surface.span),
            f"Sealant {sealant.name} gives off acetic acid, and it meets stone on {context.name(surface)}.",
            label="stains and etches stone",
            secondary=(Label(stone.span, "this stone"),) if stone.span is not None else (),
            help="Take a neutral one for it, for example `sealant NAME class XS1 25LM; neutral`, and try it on a spare piece.",
            notes=("Common practice; no standard's clause was seen.",),
        )


def _stone(surface: Surface) -> Tile | None:
    tiles = [c.tile for c in surface.coverings] + [n.tile for n in surface.niches if n.tile is not None]
    return next((t for t in tiles if t.stone), None)


RULE = Rule(
    "T2717",
    "acetoxy-sealant-at-stone",
    Severity.WARNING,
    "A sealant that stains and etches stone",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
sealant own-seal class XS1 25LM; acetoxy; pack 310 mL
tile wall-tile 300x300x10 granite; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
sealant own-seal class XS1 25LM; neutral; pack 310 mL
tile wall-tile 300x300x10 granite; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
)
