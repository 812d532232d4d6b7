"""Water that sinks has gone somewhere: evaporation takes little in a day, and practice looks for a leak when the level has
fallen by more than about 3 mm in 24 h. What the test is for is to find that before it is covered with tiles.

Look below, at the drain's clamp and at every junction; mend, let it cure, test again and write the new record: the last
test of a floor counts. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import places, ponding
from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Record
from tilespec.quantity import Quantity, work


def find(context: Context) -> Iterator[Finding]:
    limit, day = context.practice.limit("ponding-drop-max"), context.practice.limit("ponding-duration")
    for record, _, floor in ponding(context):
        fell, most = record.fell, _most(record, limit, day)
        if fell is None or fell.value <= most.value:
            continue
        time = f" in {both(record.lasted)}" if record.lasted is not None else ""
        yield RULE.at(
            places(context, record),
            context.span(said_at(fell), record.span),
            f"The water on {context.name(floor)} fell by {both(fell)}{time}: more than {both(most)} may be a leak.",
            label="where did it go?",
            help="Look below, at the drain and at every junction; mend, let it cure, test again and add the new record.",
            notes=(cited(limit),),
        )


def _most(record: Record, limit: Quantity, day: Quantity) -> Quantity:
    """For a longer test as much more; a shorter one shows a leak no better."""
    if record.lasted is None or record.lasted.value <= day.value:
        return limit
    return work(
        "drop * lasted / day", limit.shown.symbol, source="drop of the level in the time of the test",
        drop=limit, lasted=record.lasted, day=day,
    )


RULE = Rule(
    "T2022",
    "ponding-level-fell",
    Severity.ERROR,
    "A ponding test whose water sank",
    WATERPROOFING,
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
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h; fell 8 mm
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h; fell 1 mm
""",
    limits=("ponding-drop-max", "ponding-duration"),
)
