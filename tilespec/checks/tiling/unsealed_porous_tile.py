"""Stone, cement and unglazed tiles take grout into their faces: what is not sealed before the joints are filled keeps a grey
film for good. Common practice, no source: seal porous tiles once they are fixed and dry, before grouting.

Take `sealer none` out, or say in a deviation that the tile comes sealed from its maker.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        covering = next((c for c in surface.coverings if c.tile.porous), None)
        if covering is None or surface.product("sealer") is not None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(covering.span, surface.span),
            f"{called(covering.tile)} on {context.name(surface)} is porous and gets no sealer before it is grouted.",
            label="takes the grout in",
            help="Take `sealer none` out: a sealer is then applied before grouting.",
            notes=("Common practice, no source.",),
        )


RULE = Rule(
    "T2420",
    "unsealed-porous-tile",
    Severity.WARNING,
    "A porous tile grouted without a seal",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile slab 300x300x10 slate; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
  sealer none
""",
    good="""\
tile slab 300x300x10 slate; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
)
