"""Translucent stone and glass show what lies behind them, and a thin white bed does not hide a dark membrane everywhere:
ridges and laps come through as shadows. Common practice, no source: a light membrane, or a skim of the white adhesive over
it first.

Take a light colour for the last coat and write it, or say in a deviation that the membrane is skimmed white.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.diagnostics.model import Label, Severity

DARK = ("grey", "dark", "black", "brown", "blue", "green", "red")


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        membrane = surface.product("membrane")
        colour = membrane.colour if membrane is not None else None
        if membrane is None or membrane.generic or colour not in DARK:
            continue
        for covering in surface.coverings:
            if not covering.tile.translucent:
                continue
            yield RULE.at(
                (surface.id,),
                context.span(covering.span, surface.span),
                f"{called(covering.tile)} on {context.name(surface)} is translucent, and membrane {membrane.name} below it is "
                f"{colour}.",
                label="lets light through",
                secondary=(Label(membrane.span, "this membrane"),) if membrane.span is not None else (),
                help="Take a light colour for the last coat, or skim it with the white adhesive before tiling.",
                notes=("Common practice, no source.",),
            )


RULE = Rule(
    "T2027",
    "dark-membrane-under-translucent-tile",
    Severity.WARNING,
    "A dark membrane under a translucent tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
membrane own-film class DM; colour blue; pack 14 kg; coats 2; consumption 0.75 kg/m2
tile gem 300x300x6 mosaic glass translucent; weight 14 kg/m2; chips 25 x 25
wall A 2.4 x 2.4
  base cement render
  tile gem; joint 2
  shower zone
""",
    good="""\
membrane own-film class DM; colour white; pack 14 kg; coats 2; consumption 0.75 kg/m2
tile gem 300x300x6 mosaic glass translucent; weight 14 kg/m2; chips 25 x 25
wall A 2.4 x 2.4
  base cement render
  tile gem; joint 2
  shower zone
""",
)
