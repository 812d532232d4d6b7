"""Old tiles, their black adhesive, boxings and boards may hold asbestos; breaking or grinding them sets fibres free that kill
after decades. The law of most countries has a survey of the place come before the work: HSG264 in the UK for what was built
before 2000, 29 CFR 1926.1101 in the US for flooring of up to 1980.

Stop, keep others out, and have the place surveyed; what is found is for the licensed trade. Write the record of the survey.
This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule
from tilespec.checks.safety.old_fabric import uncleared
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    old = tuple(s for s in context.job.tiled if s.base.existing)
    yield from uncleared(context, RULE, "asbestos", old, "old finishes may hold it", "an asbestos surveyor")


RULE = Rule(
    "T2823",
    "asbestos-not-cleared",
    Severity.ERROR,
    "Work on an old surface that nobody surveyed for asbestos",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  built 1962
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render existing
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"
""",
    good="""\
job "Bathroom"
  built 1962
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render existing
  tile wall-tile; joint 3
record asbestos on wall A 2026-03-02 by "P. Lowe"; result pass
record substrate on wall A 2026-03-09 by "A. Finch"
""",
    limits=("asbestos-year", "asbestos-year-wall",),
)
