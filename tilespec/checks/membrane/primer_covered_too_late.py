"""A primer that lies open for days takes up dust and, in some kinds, hardens so far that nothing bonds to it. The longest wait
before the membrane is on its data sheet; records have a day and no hour, so this rule speaks only where it was surely
passed.

Do what the sheet says for that case, mostly to wash off the dust and prime again, and sign for the primer again.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import last_before, of, surely_longer
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        primer, coats = surface.product("primer"), of(context, surface, "first-coat")
        wait = primer.wait("membrane") if primer is not None else None
        if primer is None or wait is None or wait.maximum is None or not coats:
            continue
        coat = coats[-1]
        primed = last_before(context, surface, coat.on, "primer")
        if primed is None or not surely_longer(primed.on, coat.on, wait.maximum):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(coat.span),
            f"The membrane on {context.name(surface)} was begun on {coat.on.isoformat()}, and {primer.name} lay open since "
            f"{primed.on.isoformat()}: {both(wait.maximum)} at most.",
            label="too late",
            secondary=(Label(primed.span, "primed"),) if primed.span is not None else (),
            help=f"{wait.overrun.text.rstrip('.')}." if wait.overrun is not None
            else "Ask its maker what to do, mostly to wash it and prime again, and sign for it again.",
            notes=("The time is that of its own data sheet.",),
        )


RULE = Rule(
    "T2017",
    "primer-covered-too-late",
    Severity.WARNING,
    "A primer that lay open too long",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
primer own-primer dispersion; pack 5 kg; consumption 0.15 kg/m2
  wait 4 h to 48 h before membrane; overrun "Wash the dust off and prime again."
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record primer on wall A 2026-03-06 by "J. Rook"
record first-coat on wall A 2026-03-09 by "J. Rook"
""",
    good="""\
primer own-primer dispersion; pack 5 kg; consumption 0.15 kg/m2
  wait 4 h to 48 h before membrane; overrun "Wash the dust off and prime again."
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record primer on wall A 2026-03-06 by "J. Rook"
record first-coat on wall A 2026-03-07 by "J. Rook"
""",
)
