"""The heating cycle shows that a heated screed holds and its heating works; it does not show that the screed is dry (comment
on EN 1264-4 in the heating trade's press). Its moisture is read after the cycle, and where it is over the limit the screed is
heated on until it is dry.

Measure before anything goes on it, and record it: `record substrate-moisture on floor 2026-03-06 by "name"; reading 1.6 CM%`.
The heated screed has the lower limit.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import of_floor
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.vocabulary import SCREEDS

# What can only be done on a screed that was found dry.
AFTER = ("substrate", "primer", "first-coat", "second-coat", "membrane", "ponding", "tiling", "grouting", "heating-cover")


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("heating-cycle-then")
    for room in context.job.rooms:
        floor = room.floor
        cycles = of_floor(context, room, "heating-cycle")
        if floor is None or floor.base.kind not in SCREEDS or not cycles:
            continue
        cycle = cycles[-1]
        later = [r for r in of_floor(context, room, *AFTER) if r.on >= cycle.on]
        if not later or any(r.on >= cycle.on for r in of_floor(context, room, "substrate-moisture")):
            continue
        yield RULE.at(
            (floor.id,),
            context.span(later[0].kind.span, later[0].span),
            f"`{later[0].kind}` is recorded for {context.name(floor)}, and the moisture of its screed was not read after the "
            "heating cycle.",
            label="on a screed that nobody found dry",
            secondary=(Label(cycle.span, "heated through here"),) if cycle.span is not None else (),
            help="Add the reading that was taken after the cycle, or stop and measure before work goes on.",
            notes=(cited(asked),),
        )


RULE = Rule(
    "T2617",
    "moisture-not-read-after-heating-cycle",
    Severity.WARNING,
    "A heated screed whose moisture was not read after its heating cycle",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-11-01
  heating pipes
  tile floor-tile; joint 3
record heating-cycle on floor 2025-12-20 by "H. Warmer"; lasted 7 d
record primer on floor 2026-03-09 by "J. Rook"
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-11-01
  heating pipes
  tile floor-tile; joint 3
record heating-cycle on floor 2025-12-20 by "H. Warmer"; lasted 7 d
record substrate-moisture on floor 2026-03-06 by "A. Finch"; reading 1.6 CM%; depth 35 mm
record primer on floor 2026-03-09 by "J. Rook"
""",
    limits=("heating-cycle-then",),
)
