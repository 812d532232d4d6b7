"""In a room with a bath or shower every circuit stands behind a residual current device of 30 mA or less (IEC 60364-7-701,
701.415, as the electrical trade's press quotes it): more than that through a wet body is what kills. A device of 100 or 300
mA guards against fire, not people.

Have a licensed electrician fit one of 30 mA or less and test it, and write `rcd 30 mA`. Local codes go further in places.
People are killed by it: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import electric
from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    most = context.practice.limit("rcd-max")
    for room in context.job.rooms:
        wet = room.showers or room.baths or room.drains or electric(room) is not None
        if room.rcd is None or not wet or room.rcd.value <= most.value:
            continue
        where = room.name if len(context.job.rooms) > 1 else "this room"
        yield RULE.at(
            (room.floor.id if room.floor is not None else room.name,),
            context.span(said_at(room.rcd), room.span),
            f"The residual current device of {where} trips at {both(room.rcd)}; where there is water or a heated floor, "
            f"{both(most)} is the most.",
            label="too late for a person",
            help=f"Have the electrician fit one of {both(most)} or less, and write `rcd {typed(most)}`.",
            notes=(cited(most),),
        )


RULE = Rule(
    "T2620",
    "rcd-trips-too-late",
    Severity.ERROR,
    "A residual current device that does not protect people",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated; rcd 100 mA
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    good="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated; rcd 30 mA
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    limits=("rcd-max",),
    whole=True,
)
