"""A base that is still wet loses its water through the adhesive: the bond weakens, stone stains, gypsum softens, a screed shrinks
under the tiles. The carbide (CM) method is judged after DIN 18560-1 and the trade's rules, the hygrometer box after BS 8203 and
BS 5385-3; heated screeds have the lower limit.

Wait, dry, measure again and write the new record: the last reading of a surface counts. Where the adhesive's maker allows more in
writing, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.moisture import last_readings
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for found in last_readings(context):
        limit, base = found.limit, found.surface.base
        if limit is None or found.reading.value <= limit.value:
            continue
        yield RULE.at(
            (found.surface.id,),
            context.span(said_at(found.reading), found.record.span),
            f"{both(found.reading)} on {context.name(found.surface)} is over the limit of {both(limit)}: "
            "the base is too wet to tile.",
            label="too wet",
            secondary=(Label(base.span, "this base"),) if base.span is not None else (),
            help="Let it dry, measure again and add the new record.",
            notes=(cited(limit),),
        )


RULE = Rule(
    "T2204",
    "moisture-over-limit",
    Severity.ERROR,
    "A base that is too wet to tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 2.6 CM%; depth 30 mm
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 1.6 CM%; depth 30 mm
""",
    limits=(
        "cm-limit-cement-screed", "cm-limit-cement-screed-heated", "cm-limit-calcium-sulfate-screed",
        "cm-limit-calcium-sulfate-screed-heated", "rh-limit", "rh-limit-calcium-sulfate-screed",
    ),
)
