"""What is wrong with a base can be seen and mended until it is covered. That is why it is accepted, flat, dry, sound and clean,
before anything is laid on it: common practice, and a hold point of every job.

Write the record of the day when it was accepted. If it was not, stop, and sound what is laid on it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.skipped import all_of
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    yield from all_of(context, RULE, "substrate", "its base", context.job.tiled)


RULE = Rule(
    "T2954",
    "base-not-accepted",
    Severity.WARNING,
    "A surface tiled before its base was accepted",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    whole=True,
)
