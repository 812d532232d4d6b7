"""Cement takes up damp through the bag: an old powder goes lumpy, sets slowly and holds less than its class says. The date on
the bag is how long its maker answers for it. In families whose law sets no limit for chromium VI in cement this is the rule
for it.

Take fresh bags and write their date, or have the maker confirm the batch and say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.checks.safety.dates import findings
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    yield from findings(context, RULE, "setting")


RULE = Rule(
    "T2821",
    "powder-past-its-date",
    Severity.WARNING,
    "Powder from bags that are past their date",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice US; begin 2026-03-09
grout close-joint class CG2WA; pack 10 lb; packed 2025-02-10; keeps 365 d
tile wall-tile 12 in x 12 in x 3/8 in porcelain
wall A 8 ft x 8 ft
  base cement board
  tile wall-tile; joint 1/8 in
""",
    good="""\
job "Bathroom"
  practice US; begin 2026-03-09
grout close-joint class CG2WA; pack 10 lb; packed 2025-12-10; keeps 365 d
tile wall-tile 12 in x 12 in x 3/8 in porcelain
wall A 8 ft x 8 ft
  base cement board
  tile wall-tile; joint 1/8 in
""",
    limits=("old-cement",),
    whole=True,
)
