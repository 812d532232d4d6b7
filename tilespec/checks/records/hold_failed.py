"""At a hold point work stops until it is released. A record with `result fail` releases nothing: what is laid over a base, a
primer or a bed that failed goes wrong for the reason that was already known.

Put right what failed, test or look again, and write the new record; the old one stays, as it was true. Tests of the
waterproofing and tests for safety have rules of their own.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.failed import SAFETY, WATER, finding, passed_over
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in passed_over(context):
        if found.failed.kind.text not in (*WATER, *SAFETY):
            yield finding(context, RULE, found, "Put right what failed and look again before anything else is laid on it.")


RULE = Rule(
    "T2951",
    "hold-failed",
    Severity.ERROR,
    "Work that went on after a hold point failed",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"; result fail
record primer on wall A 2026-03-11 by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"; result fail
record substrate on wall A 2026-03-10 by "A. Finch"; result pass
record primer on wall A 2026-03-11 by "A. Finch"
""",
    whole=True,
)
