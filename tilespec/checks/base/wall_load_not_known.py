"""New tiles on old ones hang on whatever is behind them all: old and new weigh on it together, and the weakest layer governs
(BS 5385-1:2018 as restated). Under paint it is the same. As long as the spec does not say what the wall carries, its weight is
not checked.

Open the wall in one place, find out what is behind, and write what it still carries: `base old tiles; carries 15 kg/m2`, its
limit less the weight of the old tiling. Or take the old surface off and name the base below.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        base = surface.base
        if surface.kind != "wall" or base.kind not in ("old-tiles", "painted") or base.carries is not None:
            continue
        old = base.kind == "old-tiles"
        yield RULE.at(
            (surface.id,),
            context.span(base.span, surface.span),
            f"{context.name(surface)} is {'old tiles' if old else 'painted'}, and it is not said what the wall behind carries.",
            label="on what?",
            help="Write `carries` with the wall's limit" + (" less the weight of the old tiling" if old else "")
            + ", or name the base behind, for example `base gypsum plaster existing`.",
            notes=(cited(context.practice.word("wall-load-layers")),),
        )


RULE = Rule(
    "T2216",
    "wall-load-not-known",
    Severity.WARNING,
    "Old tiles or paint on a wall nobody has judged",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base old tiles
  tile plain-tile; joint 3
""",
    good="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base old tiles; carries 20 kg/m2
  tile plain-tile; joint 3
""",
    limits=("wall-load-layers",),
)
