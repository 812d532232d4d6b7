"""The resistance of a heating element is that of its label, about 5 % less to 10 % more (makers' instructions; 5 % and 10 %
both ways are published too). A reading far above says that the conductor is broken or a mat is missing from the circuit, one
far below that it is shorted or cut short. Under tiles nobody can reach it.

Stop before it is covered and let the electrician compare the reading with the label; write what the label says, `resistance
176 ohm`, at the product. Until then the rating is reckoned from the mat's size, its output and its voltage.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import RESISTANCE, electric, last_of_each, mats, measure, outside, test_of
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    below, above = context.practice.limit("heating-resistance-low"), context.practice.limit("heating-resistance-high")
    for room in context.job.rooms:
        heating, floor, m = electric(room), room.floor, measure(context, room)
        if heating is None or floor is None or m is None:
            continue
        low, high, rated = m.resistance_low, m.resistance_high, m.resistance
        labelled = heating.product.resistance is not None
        for record in last_of_each(context, room, RESISTANCE):
            q = record.reading
            if q is None or low is None or high is None or rated is None or not outside(m, record, mats(m, heating)):
                continue
            says = "its label says" if labelled else "its size gives"
            yield RULE.at(
                (floor.id,),
                context.span(said_at(q), record.span),
                f"The heating in {context.name(floor)} read {both(q)} {test_of(record)}; {says} {both(rated)}, "
                f"so {both(low)} to {both(high)} is sound.",
                label="too high: broken?" if q.value > high.value else "too low: shorted or cut?",
                help="Stop before it is covered, and let the electrician compare it with the label."
                + ("" if labelled else " Write what the label says at the product: `resistance 176 ohm`."),
                notes=(cited(below), cited(above), *(() if labelled else (reckoned("Rated resistance", rated),))),
            )


RULE = Rule(
    "T2611",
    "heating-resistance-out-of-band",
    Severity.WARNING,
    "A heating that does not read what its label says",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V; resistance 176 ohm
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
record heating-before on floor 2026-03-10 by "P. Wire"; reading 210 ohm
""",
    good="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V; resistance 176 ohm
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
record heating-before on floor 2026-03-10 by "P. Wire"; reading 178 ohm
""",
    limits=("heating-resistance-low", "heating-resistance-high"),
)
