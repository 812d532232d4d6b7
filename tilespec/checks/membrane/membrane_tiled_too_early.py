"""A membrane that is still soft or damp lets go below the adhesive: tiles slide, or the film tears where they are pressed home.
How long it waits before tiling is on its data sheet; records have a day and no hour, so this rule speaks only where the
wait was surely too short: on one day no more lies between them than the working day of the job.

Lift a tile and look; where the film held, say so in a deviation with what its maker wrote.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import last_before, of, surely_shorter, working_day
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        membrane, tiling = surface.product("membrane"), of(context, surface, "tiling")
        wait = membrane.wait("tiling") if membrane is not None else None
        if membrane is None or wait is None or not tiling:
            continue
        coat = last_before(context, surface, tiling[-1].on, "first-coat", "second-coat")
        if coat is None:
            continue
        same_day = coat.on == tiling[-1].on and wait.minimum.value > working_day(context)
        if not same_day and not surely_shorter(coat.on, tiling[-1].on, wait.minimum):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(tiling[-1].span),
            f"{context.name(surface)} was tiled by {tiling[-1].on.isoformat()}, and the last coat of {membrane.name} came on "
            f"{coat.on.isoformat()}: {both(wait.minimum)} before tiling at least.",
            label="too early",
            secondary=(Label(coat.span, "the last coat"),) if coat.span is not None else (),
            help="Lift a tile, look at the membrane and ask its maker; put the dates right if they are wrong.",
            notes=("The time is that of its own data sheet.",),
        )


RULE = Rule(
    "T2016",
    "membrane-tiled-too-early",
    Severity.ERROR,
    "Tiles on a membrane that had not dried",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
membrane own-slurry class CM; pack 20 kg; coats 2; consumption 1.8 kg/m2; wait 72 h before tiling
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record substrate on wall A 2026-03-06 by "A. Finch"
record first-coat on wall A 2026-03-09 by "J. Rook"
record second-coat on wall A 2026-03-10 by "J. Rook"
record membrane on wall A 2026-03-11 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
membrane own-slurry class CM; pack 20 kg; coats 2; consumption 1.8 kg/m2; wait 72 h before tiling
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record substrate on wall A 2026-03-06 by "A. Finch"
record first-coat on wall A 2026-03-09 by "J. Rook"
record second-coat on wall A 2026-03-10 by "J. Rook"
record membrane on wall A 2026-03-11 by "A. Finch"
record tiling on wall A 2026-03-16 by "A. Finch"
""",
)
