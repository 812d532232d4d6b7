"""Once tiles are on it a membrane cannot be looked at: thin spots, holes and open corners stay. Whoever accepts it measures
the film, looks at corners, pipes and drain, and signs; until then nothing covers it. That is common practice, and a hold point
of every wet room. Where a dry wall has nothing but the floor's membrane turned up on it, the floor's signature covers that
too.

Write the record of the day when it was accepted. If nobody accepted it, stop: let a ponding test decide, or take off the
tiles. Water in the building is what it is about: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import about
from tilespec.checks.records.skipped import all_of
from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Surface
from tilespec.sequence.site import with_membrane


def find(context: Context) -> Iterator[Finding]:
    wanted = (s for s in context.job.tiled if with_membrane(s) and not signed_with_the_floor(context, s))
    yield from all_of(context, RULE, "membrane", "its membrane", wanted)


def signed_with_the_floor(context: Context, surface: Surface) -> bool:
    """A wall with no membrane of its own, but the upstand of a floor that was signed for."""
    floor = context.room(surface).floor
    upstand = all(a.reason == "upstand" for a in surface.membrane_areas)
    return upstand and floor is not None and any(r.kind.text == "membrane" and about(r, floor) for r in context.job.records)


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
