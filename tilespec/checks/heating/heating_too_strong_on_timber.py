"""Electric heating on a timber floor must not overheat the wood: about 100 W for each square metre is the usual limit, with a
floor sensor and a limiter that keep the timber at 35 degrees C or less (as EN 60335-2-96 is described).

Choose a mat of that output or less. The layout, the connection and the tests belong to a licensed electrician. Fire hurts
people: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.vocabulary import ELECTRIC, TIMBER


def find(context: Context) -> Iterator[Finding]:
    limit = context.practice.limit("timber-heating-max")
    for room in context.job.rooms:
        heating, floor = room.heating, room.floor
        if heating is None or floor is None or heating.kind not in ELECTRIC or floor.base.kind not in TIMBER:
            continue
        output = heating.product.output
        if output is None or output.value <= limit.value:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(said_at(output), heating.span, floor.span),
            f"Heating {heating.product.name} gives {both(output)}; on a timber floor {both(limit)} is the most.",
            label="too strong for timber",
            secondary=(Label(floor.base.span, "timber"),) if floor.base.span is not None else (),
            help=f"Choose heating of {both(limit)} or less.",
            notes=(cited(limit),),
        )


RULE = Rule(
    "T2601",
    "heating-too-strong-on-timber",
    Severity.ERROR,
    "Electric heating too strong for timber",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 150 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up uncoupling 3, bed 4
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    good="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up uncoupling 3, bed 4
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    limits=("timber-heating-max",),
)
