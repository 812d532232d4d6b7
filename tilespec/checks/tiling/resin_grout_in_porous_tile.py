"""Reaction resin creeps into an open face and stays there as a dark rim or a film that no cleaner takes off. Common practice,
no source: cement grout for porous stone, cement and unglazed tiles, or a trial on sealed tiles first.

Choose a cement grout, `class CG2WA`, or try it out and say in a deviation how it came out.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        grout = surface.product("grout")
        covering = next((c for c in surface.coverings if c.tile.porous), None)
        if grout is None or covering is None or grout.cls[:1] != ("RG",):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(covering.tile.span, covering.span, surface.span),
            f"{called(covering.tile)} on {context.name(surface)} is porous, and {grout.name} is reaction resin: it may "
            "darken the edges for good.",
            label="porous",
            secondary=(Label(grout.span, "this grout"),) if grout.span is not None else (),
            help="Choose a cement grout of class CG2WA, or try it out on a few sealed tiles first.",
            notes=("Common practice, no source.",),
        )


RULE = Rule(
    "T2423",
    "resin-grout-in-porous-tile",
    Severity.NOTE,
    "A resin grout in porous tiles",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
grout hard-fill class RG; pack 5 kg
tile slab 300x300x10 slate; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
    good="""\
grout hard-fill class CG2WA; pack 5 kg
tile slab 300x300x10 slate; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
)
