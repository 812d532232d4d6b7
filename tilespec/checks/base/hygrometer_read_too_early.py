"""The air in a hygrometer box takes days to come to the humidity of the base below it: read after an hour it still shows the
room. UK trade guidance: two to three days on a screed, seven on dense concrete, with the heating off.

Leave the box until two readings a day apart agree, and write the new record. A probe in a drilled hole has times of its own:
write its `depth`, and this rule is silent.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.moisture import last_readings
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity import Kind


def find(context: Context) -> Iterator[Finding]:
    for found in last_readings(context):
        record, stood = found.record, found.record.lasted
        if stood is None or record.depth is not None or found.reading.kind is not Kind.HUMIDITY:
            continue
        kind = found.surface.base.kind
        least = context.practice.limit("hygrometer-wait-concrete" if kind == "concrete" else "hygrometer-wait-screed-min")
        if stood.value >= least.value:
            continue
        yield RULE.at(
            (found.surface.id,),
            context.span(said_at(stood), record.span),
            f"The hygrometer box on {context.name(found.surface)} stood for {both(stood)}: {both(least)} at least.",
            label="read too early",
            help="Leave it until two readings a day apart agree, and add the new record.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2222",
    "hygrometer-read-too-early",
    Severity.WARNING,
    "A hygrometer box that was read too early",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 66 %RH; lasted 6 h
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 66 %RH; lasted 3 d
""",
    limits=("hygrometer-wait-screed-min", "hygrometer-wait-concrete"),
)
