"""Once tiles are on it a membrane cannot be looked at: thin spots, holes and open corners stay. Whoever accepts it measures the
film, looks at corners, pipes and drain, and signs; until then nothing covers it. That is common practice, and a hold point of
every wet room.

Write the record of the day when it was accepted. If nobody accepted it, stop: let a ponding test decide, or take off the tiles.
Water in the building is what it is about: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.skipped import all_of
from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule
from tilespec.diagnostics.model import Severity
from tilespec.sequence.site import with_membrane


def find(context: Context) -> Iterator[Finding]:
    yield from all_of(context, RULE, "membrane", "its membrane", tuple(s for s in context.job.tiled if with_membrane(s)))


RULE = Rule(
    "T2955",
    "membrane-not-accepted",
    Severity.ERROR,
    "A membrane covered before it was accepted",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record substrate on wall A 2026-03-06 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record substrate on wall A 2026-03-06 by "A. Finch"
record membrane on wall A 2026-03-10 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    whole=True,
)
