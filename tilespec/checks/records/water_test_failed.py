"""A membrane, a drain or a pipe that failed its test leaks; under tiles it leaks where nobody sees it, until the ceiling
below is wet.

Stop, open what covers it, mend it and test again. Write the new record; the old one stays, as it was true. It is the building
that gets wet: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.failed import WATER, finding, passed_over
from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in passed_over(context):
        if found.failed.kind.text in WATER:
            yield finding(context, RULE, found, "Stop, open what covers it, mend it and test it again.")


RULE = Rule(
    "T2952",
    "water-test-failed",
    Severity.ERROR,
    "Work that went on after a test of the waterproofing failed",
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
record membrane on wall A 2026-03-10 by "A. Finch"; result fail
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record substrate on wall A 2026-03-06 by "A. Finch"
record membrane on wall A 2026-03-10 by "A. Finch"; result pass
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    whole=True,
)
