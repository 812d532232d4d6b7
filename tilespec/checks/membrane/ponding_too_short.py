"""A slow leak shows only after hours. Practice with ASTM D5957 lets the water stand for 24 to 72 h; the model plumbing code of
the United States (IPC 312.9, as restated) is content with 15 minutes for a shower liner, which shows no more than a hole.

Let the water stand for the whole time, look below and at every edge, and write how long it stood.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import places, ponding
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.find("ponding-duration-min") or context.practice.limit("ponding-duration")
    for record, _, floor in ponding(context):
        if record.lasted is None or record.lasted.value >= least.value:
            continue
        yield RULE.at(
            places(context, record),
            context.span(said_at(record.lasted), record.span),
            f"The water on {context.name(floor)} stood for {both(record.lasted)}: {both(least)} at least.",
            label="too short",
            help="Test again for the whole time, and add the new record.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2020",
    "ponding-too-short",
    Severity.WARNING,
    "A ponding test that was too short",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 4 h
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h
""",
    limits=("ponding-duration", "ponding-duration-min"),
)
