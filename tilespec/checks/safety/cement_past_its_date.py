"""Cement is mixed with an agent that keeps its chromium VI down: in the EU at most 2 mg/kg may dissolve (REACH Annex XVII,
entry 47). The agent works for the time that the bag says. After it the cement can make those who touch it allergic for life,
which has nothing to do with how it sets.

Take fresh bags and write their date. It is about the skin of those who mix and lay it: this rule cannot be deviated from.
Where no such limit is law, an old bag is a matter of setting and has a rule of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule
from tilespec.checks.safety.dates import findings
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    yield from findings(context, RULE, "health")


RULE = Rule(
    "T2820",
    "cement-past-its-date",
    Severity.ERROR,
    "Cement from bags that are past their date",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  begin 2026-03-09
adhesive firm-grip class C2TE S1; pack 25 kg; packed 2025-02-10; keeps 365 d
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
job "Bathroom"
  begin 2026-03-09
adhesive firm-grip class C2TE S1; pack 25 kg; packed 2025-12-10; keeps 365 d
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("old-cement",),
    whole=True,
)
