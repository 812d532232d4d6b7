"""The tiling's joint takes the whole movement of the joint below it. A narrower one is squeezed shut, and the tiles beside it
chip or lift. All practices ask for at least the width of the joint of the base (The Tile Association's guide; EJ171).

Make the movement joint as wide as the joint below it, or wider, with a sealant that takes its movement.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import pairs, stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, said_at
from tilespec.diagnostics.model import Edit, Fix, Label, Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    for surface, below, above in pairs(context):
        if above is None or not stated(above.width) or above.width.value >= below.width.value:
            continue
        span = said_at(above.width)
        yield RULE.at(
            (surface.id,),
            context.span(span, above.span, surface.span),
            f"The movement joint of {context.name(surface)} is {both(above.width)} wide over a joint of the base of "
            f"{both(below.width)}.",
            label="narrower than the joint below",
            secondary=(Label(below.span, "the joint of the base"),) if below.span is not None else (),
            help=f"Write `{typed(below.width)}` or more.",
            notes=("Common to all practices: The Tile Association, Tiling Guide section 10; TCNA Handbook EJ171.",),
            fixes=(Fix(f"write {typed(below.width)}", (Edit(span, typed(below.width)),)),) if span is not None else (),
        )


RULE = Rule(
    "T2707",
    "joint-narrower-than-structural-joint",
    Severity.ERROR,
    "A movement joint narrower than the joint below it",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  structural joint 1.8 from wall D; width 12
  movement joint 1.8 from wall D; width 8
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  structural joint 1.8 from wall D; width 12
  movement joint 1.8 from wall D; width 12
""",
)
