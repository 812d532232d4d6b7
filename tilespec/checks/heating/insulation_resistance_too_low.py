"""A heating element whose insulation is cut or damp puts its voltage on the wet floor. The reading between its conductor and
earth shows it before it is covered: 1 megohm at least at 500 V d.c., 0.5 megohm at 250 V d.c. for extra-low voltage (IEC
60364-6, seen as another body prints its table). A low reading does not mend itself under tiles.

Do not cover it and do not switch it on: a licensed electrician finds the fault, repairs or replaces the element by its
maker's instructions and measures again; write the new record. People are hurt by it: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import INSULATION, electric, extra_low, last_of_each, test_of
from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    mains, low = context.practice.limit("insulation-resistance-min"), context.practice.limit("insulation-resistance-min-selv")
    for room in context.job.rooms:
        heating, floor = electric(room), room.floor
        if heating is None or floor is None:
            continue
        least = low if extra_low(heating, context) else mains
        for record in last_of_each(context, room, INSULATION):
            q = record.reading
            if q is None or q.value >= least.value:
                continue
            yield RULE.at(
                (floor.id,),
                context.span(said_at(q), record.span),
                f"The insulation of the heating in {context.name(floor)} read {both(q)} {test_of(record)}; "
                f"{both(least)} is the least.",
                label="its insulation is damaged or damp",
                help=f"{'' if record.kind.text == 'insulation-after' else 'Do not cover it. '}Do not switch it on. Let the "
                "electrician find the fault and measure again, and add his new record.",
                notes=(cited(least),),
            )


RULE = Rule(
    "T2610",
    "insulation-resistance-too-low",
    Severity.ERROR,
    "Heating with damaged insulation",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
record insulation-before on floor 2026-03-10 by "P. Wire"; reading 0.6 Mohm
""",
    good="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
record insulation-before on floor 2026-03-10 by "P. Wire"; reading 200 Mohm
""",
    limits=("insulation-resistance-min", "insulation-resistance-min-selv", "extra-low-voltage"),
)
