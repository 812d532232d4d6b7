"""Sealant sticks to dry joint sides only. Grout that is a few hours old is wet, and the sealant comes off it in strips. A
cement grout takes light foot traffic after 24 hours, and no sealant before that: common practice; the data sheet wins. A grout
from the shelf is judged by the practice.

Correct the date if it is wrong. Otherwise try the sealant's edges when it has cured, and cut out and renew what is loose.
Only whole days that are missing between the two records are told.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.waits import basis, stretched, too_early
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        grout = surface.product("grout")
        if grout is None:
            continue
        said = grout.wait("sealing") or grout.wait("walking")
        wait = stretched(context, grout, said.minimum if said is not None else context.practice.limit("wait-grout-walking"))
        early = too_early(context, surface, "grouting", "sealing", wait)
        if early is None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(early.later.span),
            f"{context.name(surface)} was grouted by {early.first.on} and sealed on {early.later.on}; "
            f"{'the grout' if grout.generic else f'grout {grout.name}'} takes {both(wait)} first.",
            label="too early",
            secondary=(Label(early.first.span, "grouted here"),) if early.first.span is not None else (),
            help=f"{early.ready} would be the first day. If the dates are right, try the sealant's edges when it has cured.",
            notes=(basis(wait, grout),),
        )


RULE = Rule(
    "T2960",
    "sealed-too-early",
    Severity.WARNING,
    "Joints sealed beside grout that was wet",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
grout close-joint class CG2WA; pack 5 kg; wait 24 h before walking
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"
record grouting on wall A 2026-03-16 by "A. Finch"
record sealing on wall A 2026-03-16 by "A. Finch"
""",
    good="""\
grout close-joint class CG2WA; pack 5 kg; wait 24 h before walking
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"
record grouting on wall A 2026-03-16 by "A. Finch"
record sealing on wall A 2026-03-17 by "A. Finch"
""",
    limits=("wait-grout-walking", "wait-cold-below", "wait-cold-step"),
)
