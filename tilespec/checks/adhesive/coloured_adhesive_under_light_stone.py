"""Light marble, limestone and travertine let through what is behind them: a grey adhesive dulls them, and its ridges and damp
patches stay visible as shadows. Common practice, from memory: a white adhesive under light stone, fast setting where the stone
moves with moisture.

Name a white adhesive for the tile: `colour white` in its line, `for tile NAME` when only that tile takes it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import also, another, bedded, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.checks.stone import light
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for b in bedded(context):
        adhesive = b.adhesive
        # A translucent stone has a rule of its own.
        if not light(b.tile) or b.tile.translucent or "white" in (adhesive.colour, *adhesive.flags):
            continue
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(b.tile)} on {context.name(b.surface)} is light stone and its adhesive {adhesive.name} "
            + (f"is {adhesive.colour}: it will shadow." if adhesive.colour else "has no stated colour: all but white shadows."),
            label="shadows through",
            secondary=also(context, b),
            help=another(context, b, "a white one", "class C2FT S1; colour white")
            if adhesive.colour
            else f"Add `colour white` to {adhesive.name} if its data sheet says so.",
            notes=("Common practice, from memory: a white adhesive under light stone.",),
        )


RULE = Rule(
    "T2113",
    "coloured-adhesive-under-light-stone",
    Severity.WARNING,
    "A grey adhesive under light stone",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive grey-set class C2FT S1; colour grey; pack 25 kg; for tile pale
tile pale 300x300x10 limestone; weight 26 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile pale; joint 3
""",
    good="""\
adhesive white-set class C2FT S1; colour white; pack 25 kg; for tile pale
tile pale 300x300x10 limestone; weight 26 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile pale; joint 3
""",
    limits=("adhesive-light-stone",),
)
