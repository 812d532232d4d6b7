"""Water on a membrane that has not cured softens it, and the test then finds a leak that it made itself. ASTM D5957, written
for decks and borrowed for showers, waits 24 h after the last coat, 48 h below 10 degrees C; the data sheet may ask for
more. Records have a day and no hour, so this rule speaks only where the wait was surely too short.

Let the membrane dry, look it over and test again.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import stated
from tilespec.checks.dated import last_before, places, ponding, surely_shorter
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import Quantity


def find(context: Context) -> Iterator[Finding]:
    least = _wait(context)
    for record, _, floor in ponding(context):
        coat = last_before(context, floor, record.on, "first-coat", "second-coat")
        if coat is None or not surely_shorter(coat.on, record.on, least):
            continue
        yield RULE.at(
            places(context, record),
            context.span(record.span),
            f"Water stood on {context.name(floor)} on {record.on.isoformat()}, and the last coat came on {coat.on.isoformat()}: "
            f"{both(least)} between them at least.",
            label="too early",
            secondary=(Label(coat.span, "the last coat"),) if coat.span is not None else (),
            help="Let the membrane dry, look it over, test again and add the new record.",
            notes=(cited(least),),
        )


def _wait(context: Context) -> Quantity:
    """Longer where the base is said to be cold."""
    warm, cold = context.practice.limit("ponding-wait"), context.practice.limit("ponding-wait-cold")
    surface, below = context.job.conditions.surface, context.practice.limit("ponding-wait-cold-below")
    return cold if stated(surface) and surface.value < below.value else warm


RULE = Rule(
    "T2019",
    "ponding-too-early",
    Severity.WARNING,
    "A ponding test before the membrane had cured",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record second-coat on floor 2026-03-12 by "J. Rook"
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record second-coat on floor 2026-03-10 by "J. Rook"
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h
""",
    limits=("ponding-wait", "ponding-wait-cold", "ponding-wait-cold-below"),
)
