"""A base cannot be measured, accepted or covered before it is laid. Where a record says so one of the two dates is wrong, and
with it the age of the base and its drying time.

Correct the date of the record, or the day after `laid`.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import TILING, about
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity

_OF_THE_BASE = ("heating-cycle", "substrate-moisture", "substrate-flatness", "substrate-strength", "substrate")


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        laid = surface.base.laid
        alone = len(context.room(surface).surfaces) == 1
        for record in context.job.records:
            # A room's record may be about those of its surfaces that were there.
            own = record.place == surface.id or (alone and about(record, surface))
            if laid is None or not own or record.on >= laid or record.kind.text not in (*_OF_THE_BASE, *TILING):
                continue
            yield RULE.at(
                (surface.id,),
                context.span(record.span),
                f"`{record.kind}` for {context.name(surface)} is dated {record.on}; its base was laid on {laid}.",
                label="before the base was there",
                secondary=(Label(surface.base.span, "this base"),) if surface.base.span is not None else (),
                help="Correct this date, or the one after `laid`.",
            )


RULE = Rule(
    "T2963",
    "record-before-base",
    Severity.WARNING,
    "A record that is older than the base it is about",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate on floor 2025-03-06 by "A. Finch"
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate on floor 2026-03-06 by "A. Finch"
""",
)
