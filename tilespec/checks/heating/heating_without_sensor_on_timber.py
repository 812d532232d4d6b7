"""Timber under an electric floor is kept at 35 degrees C or less, which only a sensor in the floor with a limiter can do:
under a rug or a low unit even a weak mat goes on warming, because the heat cannot get out (EN 60335-2-96 as described).

Write where the floor sensor comes down, `sensor at wall B`; its limiter, the connection and the tests are a licensed
electrician's. Fire hurts people: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import electric
from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.vocabulary import TIMBER


def find(context: Context) -> Iterator[Finding]:
    warm = context.practice.limit("floor-temperature-max-timber")
    for room in context.job.rooms:
        heating, floor = electric(room), room.floor
        if heating is None or floor is None or heating.sensor_wall is not None or floor.base.kind not in TIMBER:
            continue
        # A generic mat is only a guess.
        if heating.product.generic:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(heating.span, floor.span),
            f"{context.name(floor)} is heated electrically on timber, and no floor sensor is said: nothing keeps the wood at "
            f"{both(warm)}.",
            label="nothing switches it off",
            secondary=(Label(floor.base.span, "timber"),) if floor.base.span is not None else (),
            help="Write where the floor sensor comes down, for example `sensor at wall B`.",
            notes=(cited(warm),),
        )


RULE = Rule(
    "T2623",
    "heating-without-sensor-on-timber",
    Severity.WARNING,
    "Electric heating on timber that no floor sensor stops",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 80 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up board 12, bed 6
  heating warm-mat
  tile floor-tile; joint 3
""",
    good="""\
heating warm-mat mat screened; output 80 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up board 12, bed 6
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    limits=("floor-temperature-max-timber",),
)
