"""A liquid membrane tears first where two surfaces meet: corner and foot move, and the film over them is thin. Sealing tape
bedded between its coats bridges that. Common practice for any liquid system, from memory; the membrane's own system governs.

Take `tape none` out; a membrane of another kind is declared with the tape of its own system. This rule cannot be deviated
from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule, cited
from tilespec.checks.wet import exposures, soaked_zones
from tilespec.diagnostics.model import Severity
from tilespec.sequence.site import with_membrane


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        refused = surface.refusal("tape")
        # A splash area on the middle of a wall reaches no corner.
        if refused is None or not with_membrane(surface) or all(a.reason == "splash" for a in surface.membrane_areas):
            continue
        zones = soaked_zones(context, surface)
        name = context.name(surface)
        wet = f"{name} is wetted by {exposures(zones)}, and its membrane" if zones else f"The membrane of {name}"
        yield RULE.at(
            (surface.id,),
            context.span(refused, surface.span),
            f"{wet} gets no tape in its corners.",
            label="no tape here",
            help="Take `tape none` out: its corners and its foot then get tape.",
            notes=(cited(context.practice.word("membrane-details")),),
        )


RULE = Rule(
    "T2028",
    "membrane-without-tape",
    Severity.ERROR,
    "A membrane without tape in its corners",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; tape none
  shower zone
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("membrane-details",),
)
