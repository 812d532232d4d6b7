"""The test has to reach the edges where a shower pan leaks. The model plumbing code of the United States (IPC 312.9, as
restated) asks for 2 in of water at the threshold; other families give no least depth. Everywhere the water has to stand over
the edges of the fall: less than the fall is deep leaves them dry.

Dam the threshold, fill to that depth and write it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tilespec.checks.dated import places, ponding
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Record, Surface
from tilespec.quantity import Quantity


def find(context: Context) -> Iterator[Finding]:
    # A figure of the US family alone.
    least = context.practice.find("ponding-depth-min")
    for record, room, floor in ponding(context):
        if record.reading is None:
            continue
        if least is None or record.reading.value >= least.value:
            grate = room.levels.drain_grate
            if grate is not None and record.reading.value <= -grate.value:
                yield _dry_edges(context, record, floor, record.reading, grate)
            continue
        yield RULE.at(
            places(context, record),
            context.span(said_at(record.reading), record.span),
            f"{both(record.reading)} of water stood on {context.name(floor)}: {both(least)} at the threshold at least.",
            label="too shallow",
            help="Dam the threshold, test again with that depth, and add the new record.",
            notes=(cited(least),),
        )


def _dry_edges(context: Context, record: Record, floor: Surface, water: Quantity, grate: Quantity) -> Finding:
    deep = replace(grate, value=-grate.value)
    return RULE.at(
        places(context, record),
        context.span(said_at(water), record.span),
        f"{both(water)} of water stood on {context.name(floor)}, and the fall is {both(deep)} deep: its edges stayed dry.",
        label="too shallow",
        help=f"Test again with more than {both(deep)} of water, so that it stands against every wall, and add the new record.",
        notes=(reckoned("The drain's grate against the edge", grate),),
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
