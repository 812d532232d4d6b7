"""A record of work that is dated before the job begins has a wrong date, or the job began earlier than its programme says.
Either way the waits that are counted from it are wrong, and a signature with a wrong date proves nothing.

Correct the date of the record or of `begin`. What is found out before the work, such as moisture, asbestos or a pressure
test, may be older.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import TILING, about, place
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    begin = context.job.begin
    for record in context.job.records:
        if begin is None or record.on >= begin or record.kind.text not in (*TILING, "leak-test", "final", "first-use"):
            continue
        own = tuple(s.id for s in context.job.tiled if about(record, s))
        yield RULE.at(
            own or (record.place,),
            context.span(record.span),
            f"`{record.kind}` for {place(context, record)} is dated {record.on}; the job begins on {begin}.",
            label="before the job begins",
            help="Correct this date, or the one after `begin`.",
        )


RULE = Rule(
    "T2962",
    "record-before-begin",
    Severity.WARNING,
    "A record of work that is older than the job",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  begin 2026-03-09
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-02 by "A. Finch"
record tiling on wall A 2026-03-05 by "A. Finch"
""",
    good="""\
job "Bathroom"
  begin 2026-03-09
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-02 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    whole=True,
)
