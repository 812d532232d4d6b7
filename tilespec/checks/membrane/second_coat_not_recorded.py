"""Two coats at the least (DIN 18534-3, as restated): the second closes the pinholes of the first, and a dispersion takes it in
another colour so that one sees that it is there. Where the first coat is signed for and later work too, the second is
either missing from the records or from the wall. A membrane from the shelf takes the practice's coats too.

Add its record with the day it was done; if it was not done, stop, and put it on.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import of
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Label, Severity

# What is signed for only when all coats are on.
LATER = ("membrane-thickness", "membrane", "ponding", "tiling")


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("membrane-coats")
    for surface in context.job.tiled:
        membrane, first = surface.product("membrane"), of(context, surface, "first-coat")
        if membrane is None or "sheet" in membrane.flags or not first or of(context, surface, "second-coat"):
            continue
        # A single coat is told as that.
        coats = membrane.coats or least
        of_what = "" if membrane.generic else f" of {membrane.name}"
        later = [r for r in of(context, surface, *LATER) if r.on >= first[-1].on]
        if coats.value < least.value or not later:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(later[0].span),
            f"`{later[0].kind.text}` is signed for on {context.name(surface)} and its second coat{of_what} is not.",
            label="on one coat?",
            secondary=(Label(first[-1].span, "the first coat"),) if first[-1].span is not None else (),
            help="Add its record: `record second-coat on ... by \"name\"`. If it was not done, stop, and put it on.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2026",
    "second-coat-not-recorded",
    Severity.WARNING,
    "A membrane signed for without its second coat",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
membrane own-film class DM; pack 14 kg; coats 2; consumption 0.75 kg/m2
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record first-coat on wall A 2026-03-09 by "J. Rook"
record membrane on wall A 2026-03-11 by "A. Finch"
""",
    good="""\
membrane own-film class DM; pack 14 kg; coats 2; consumption 0.75 kg/m2
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record first-coat on wall A 2026-03-09 by "J. Rook"
record second-coat on wall A 2026-03-10 by "J. Rook"
record membrane on wall A 2026-03-11 by "A. Finch"
""",
    limits=("membrane-coats",),
)
