"""A pipe or valve behind tiles is tested under pressure while it can still be reached: a joint that weeps is then a turn of
the spanner, and later a wall. It is the licensed plumber's test and signature, and a hold point of every room with pipes in
its walls.

Write the record of the test. If there was none, stop and have the pipes tested before more is covered. Water in the building
is what it is about: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.skipped import all_of
from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Surface

# What carries water under pressure through or behind a wall.
_UNDER_PRESSURE = ("pipe", "valve", "shower head")


def piped(surface: Surface) -> bool:
    return surface.kind == "wall" and any(p.kind in _UNDER_PRESSURE for p in surface.penetrations)


def find(context: Context) -> Iterator[Finding]:
    yield from all_of(context, RULE, "pressure-test", "the test of its pipes", (s for s in context.job.tiled if piped(s)))


RULE = Rule(
    "T2956",
    "pipes-not-tested",
    Severity.ERROR,
    "Pipes covered before they were tested",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  pipe 1.2 from left, 0.6 up; diameter 15
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  pipe 1.2 from left, 0.6 up; diameter 15
record pressure-test on wall A 2026-03-05 by "T. Wells"; result pass
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    whole=True,
)
