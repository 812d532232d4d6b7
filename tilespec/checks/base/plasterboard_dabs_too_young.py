"""Plasterboard stuck to the wall hangs on dabs of gypsum adhesive, which take days to harden behind the board: the weight of
the tiles pulls young ones off. NHBC Standards 9.2.5: dabbed linings ten days before wall tiling; elsewhere that figure is
common practice.

Begin later. Boards that are screwed to studs need not wait: then leave `laid` out, or say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.age import young
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in young(context, ("gypsum-plasterboard",), "age-dabbed-plasterboard"):
        yield RULE.at(
            (found.surface.id,),
            context.span(found.surface.base.span, found.surface.span),
            f"The plasterboard of {context.name(found.surface)} is {both(found.age)} old when the job begins; "
            f"stuck on dabs, it takes {both(found.least)}.",
            label="too young",
            help=f"It is old enough on {found.ready}: tile {context.name(found.surface)} then or later.",
            notes=(cited(found.least),),
        )


RULE = Rule(
    "T2210",
    "plasterboard-dabs-too-young",
    Severity.WARNING,
    "Plasterboard tiled before its dabs have set",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard unskimmed; laid 2026-03-02
  tile plain-tile; joint 3
""",
    good="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard unskimmed; laid 2026-02-27
  tile plain-tile; joint 3
""",
    limits=("age-dabbed-plasterboard",),
)
