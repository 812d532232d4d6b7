"""A moisture reading means something only with its method: 1.6 by the carbide method (CM%) and 1.6 by weight are different
bases, and a hygrometer box reads the humidity of the air (%RH). A reading that the practice has no limit for proves nothing.

Write the unit of the method, `1.6 CM%` or `72 %RH`, and use a method that the practice has a limit for on this base.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.moisture import last_readings
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity import Kind


def find(context: Context) -> Iterator[Finding]:
    for found in last_readings(context):
        if found.limit is not None:
            continue
        base = found.surface.base.kind.replace("-", " ")
        method = found.reading.kind in (Kind.MOISTURE, Kind.HUMIDITY)
        yield RULE.at(
            (found.surface.id,),
            context.span(said_at(found.reading), found.record.span),
            f"{both(found.reading)} on {context.name(found.surface)} cannot be judged: "
            + (f"the practice has no limit for this method on {base}." if method else "it does not say how it was read."),
            label="no limit for this" if method else "which method?",
            help="Measure with a hygrometer box and write the humidity, for example `72 %RH`."
            if method
            else "Write the method's unit: `CM%` for the carbide method, `%RH` for a hygrometer box.",
        )


RULE = Rule(
    "T2205",
    "moisture-reading-unjudged",
    Severity.WARNING,
    "A moisture reading that proves nothing",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base concrete
  tile floor-tile; joint 3
record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 1.6 CM%; depth 30 mm
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base concrete
  tile floor-tile; joint 3
record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 72 %RH
""",
    limits=(
        "cm-limit-cement-screed", "cm-limit-cement-screed-heated", "cm-limit-calcium-sulfate-screed",
        "cm-limit-calcium-sulfate-screed-heated", "rh-limit", "rh-limit-calcium-sulfate-screed",
    ),
)
