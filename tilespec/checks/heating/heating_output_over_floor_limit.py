"""A floor gives its room only so much heat before it is too warm to stand on: about 100 W for each square metre of a
bathroom floor, 9 K above a room of 24 degrees C (EN 1264-2, from memory). Electric heating of a higher output drives
the floor past that unless a sensor in the floor switches it off; rugs and low units make it worse.

Write where the floor sensor comes down, or choose heating of that output or less. Design, connection and tests belong
to a licensed electrician, and the maker's instructions govern. Bare feet stand on it: this rule cannot be deviated
from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.formula import warmth
from tilespec.vocabulary import ELECTRIC, TIMBER


def find(context: Context) -> Iterator[Finding]:
    limit, around = context.practice.limit("floor-temperature-max"), context.practice.limit("floor-room-temperature")
    most = warmth.output(limit, around, context.practice)
    for room in context.job.rooms:
        heating, floor = room.heating, room.floor
        if heating is None or floor is None or heating.kind not in ELECTRIC or heating.sensor_wall is not None:
            continue
        # Timber has limits of its own, and needs its sensor at any output.
        if floor.base.kind in TIMBER:
            continue
        output = heating.product.output
        # A generic mat is only a guess, and the sensor is asked for: a warning never rests on what was assumed.
        if output is None or heating.product.generic or output.value <= most.value:
            continue
        warm = warmth.surface(output, around, context.practice)
        yield RULE.at(
            (floor.id,),
            context.span(heating.span, said_at(output), floor.span),
            f"Heating {heating.product.name} gives {both(output)} and no floor sensor is said: left on in a room at "
            f"{both(around)}, it makes the floor {both(warm)} warm.",
            label="nothing switches it off",
            help="Write where the floor sensor comes down, for example `sensor at wall B`, or choose heating of "
            f"{both(most)} or less.",
            notes=(cited(limit), f"Output: {warmth.CURVE}, to be confirmed by the heating's designer."),
        )


RULE = Rule(
    "T2602",
    "heating-output-over-floor-limit",
    Severity.WARNING,
    "Electric heating that overheats the floor where no sensor stops it",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 150 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat
  tile floor-tile; joint 3
""",
    good="""\
heating warm-mat mat screened; output 150 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    limits=("floor-temperature-max", "floor-room-temperature", "floor-output-rate", "floor-output-exponent"),
)
