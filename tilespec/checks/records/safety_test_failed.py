"""A survey that found asbestos or lead, or a heating cable that failed its test, holds the work because people are hurt by
what comes next: fibres that are set free cannot be called back, and a damaged cable under wet tiles is live.

Stop. Asbestos and lead are for the licensed trade, heating cables for a licensed electrician; go on when they have released
it and the new record is written. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.failed import SAFETY, finding, passed_over
from tilespec.checks.rule import INJURY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in passed_over(context):
        kind = found.failed.kind.text
        if kind in SAFETY:
            trade = "the licensed trade" if kind in ("asbestos", "lead") else "a licensed electrician"
            yield finding(context, RULE, found, f"Stop and keep others out until {trade} has released it.")


RULE = Rule(
    "T2953",
    "safety-test-failed",
    Severity.ERROR,
    "Work that went on after a test for safety failed",
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
record asbestos on wall A 2026-03-02 by "P. Lowe"; result fail
record substrate on wall A 2026-03-06 by "A. Finch"
""",
    good="""\
job "Bathroom"
  built 1962
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render existing
  tile wall-tile; joint 3
record asbestos on wall A 2026-03-02 by "P. Lowe"; result pass
record substrate on wall A 2026-03-06 by "A. Finch"
""",
    whole=True,
)
