"""The test has to reach the edges where a shower pan leaks. The model plumbing code of the United States (IPC 312.9, as
restated) asks for 2 in of water at the threshold; other families give no least depth.

Dam the threshold, fill to that depth and write it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import places, ponding
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    # A figure of the US family alone.
    least = context.practice.find("ponding-depth-min")
    if least is None:
        return
    for record, _, floor in ponding(context):
        if record.reading is None or record.reading.value >= least.value:
            continue
        yield RULE.at(
            places(context, record),
            context.span(said_at(record.reading), record.span),
            f"{typed(record.reading)} of water stood on {context.name(floor)}: {typed(least)} at the threshold at least.",
            label="too shallow",
            help="Dam the threshold, test again with that depth, and add the new record.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2021",
    "ponding-too-shallow",
    Severity.WARNING,
    "A ponding test with too little water",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Hall bath"
  practice US
tile floor-tile 100x100x8 porcelain; dcof 0.6
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:36 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 1 in; lasted 24 h
""",
    good="""\
job "Hall bath"
  practice US
tile floor-tile 100x100x8 porcelain; dcof 0.6
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:36 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 2 in; lasted 24 h
""",
    limits=("ponding-depth-min",),
)
