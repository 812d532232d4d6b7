"""Old paint may hold lead, and sanding it fills the room with its dust: it harms children most. In the US paid work that
disturbs paint in homes from before 1978 needs a certified firm (40 CFR 745); elsewhere old paint is tested before it is
sanded.

Stop, wipe up wet, and have the paint tested; where lead is found the work is for a certified firm. Write the record of the
test. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule
from tilespec.checks.safety.old_fabric import uncleared
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    painted = tuple(s for s in context.job.tiled if s.base.kind == "painted")
    yield from uncleared(context, RULE, "lead", painted, "old paint may hold it", "a lead assessor")


RULE = Rule(
    "T2824",
    "lead-not-cleared",
    Severity.ERROR,
    "Work on old paint that nobody tested for lead",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice US; built 1962
tile wall-tile 12 in x 12 in x 1/4 in ceramic
wall A 8 ft x 8 ft
  base painted plaster; carries 40 kg/m2
  tile wall-tile; joint 1/8 in
record asbestos on wall A 2026-03-02 by "P. Lowe"; result pass
record substrate on wall A 2026-03-09 by "A. Finch"
""",
    good="""\
job "Bathroom"
  practice US; built 1962
tile wall-tile 12 in x 12 in x 1/4 in ceramic
wall A 8 ft x 8 ft
  base painted plaster; carries 40 kg/m2
  tile wall-tile; joint 1/8 in
record asbestos on wall A 2026-03-02 by "P. Lowe"; result pass
record lead on wall A 2026-03-03 by "P. Lowe"; result pass
record substrate on wall A 2026-03-09 by "A. Finch"
""",
    limits=("lead-year",),
)
