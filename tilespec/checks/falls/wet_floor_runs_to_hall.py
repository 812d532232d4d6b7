"""In a room with a level shower or a floor drain, water on the floor is expected: a blocked grate or a hose is enough. Where
the floor outside lies lower and no threshold stands in the door, the first water that reaches the door runs out over the
hall, into a floor that nobody has waterproofed (common practice; no figure is needed for it).

Let the wet floor lie lower than the hall, or put a threshold into the door and say its height: `threshold 15`. Where a
channel in the doorway takes the water, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.falls.doors import runs_out
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity import work


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        hall = room.levels.hall
        if not runs_out(room) or room.floor is None or hall is None:
            continue
        lower = work("-(hall)", "mm", source="the hall below the wet floor", hall=hall)
        yield RULE.at(
            (room.floor.id,),
            context.span(said_at(hall), room.floor.span),
            f"The hall lies {both(lower)} lower than {context.name(room.floor)}, which gets wet, and no door has a threshold: "
            "water that reaches the door runs out.",
            label="lower than the wet floor",
            help="Lay the wet floor lower than the hall (`hall floor +10`), or say the threshold at the door: "
            "`door 0.8 x 2.0; 0.9 from left; threshold 15`.",
        )


RULE = Rule(
    "T2043",
    "wet-floor-runs-to-hall",
    Severity.WARNING,
    "A wet floor from which water runs out at the door",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  hall floor -5
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  hall floor +5
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
)
