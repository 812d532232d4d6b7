"""A heated screed is warmed through once before it is tiled, so that it moves and cracks then and not under the tiles: EN
1264-4 has 3 days at a flow of 25 degrees C and 4 days at the highest of the design (the 4 from memory), BS 5385-3 annex C at
least 3 days at the highest, reached by 5 K a day. A cycle that was cut short has tested nothing.

Run it in full, without a pause at night, and record how long it lasted. The heating engineer's protocol and the screed
maker's sheet govern: where they differ, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import of_floor
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity import UNITS, work


def find(context: Context) -> Iterator[Finding]:
    first, full = context.practice.limit("heating-cycle-first"), context.practice.limit("heating-cycle-full")
    whole = work("first + full", "d", source="heating cycle", first=first, full=full)
    for room in context.job.rooms:
        floor = room.floor
        # The newest cycle counts.
        for record in of_floor(context, room, "heating-cycle")[-1:]:
            if floor is None or record.lasted is None or record.lasted.value >= whole.value:
                continue
            yield RULE.at(
                (floor.id,),
                context.span(said_at(record.lasted), record.span),
                f"The heating cycle of {context.name(floor)} lasted {both(record.lasted.shown_in(UNITS['d']))}; {both(first)}, "
                f"and then {both(full)} at the highest temperature, are the least.",
                label="cut short",
                help=f"Run it again for {both(whole)} or more and record that, before the moisture is measured.",
                notes=(cited(first), cited(full)),
            )


RULE = Rule(
    "T2616",
    "heating-cycle-too-short",
    Severity.WARNING,
    "A heating cycle that was cut short",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-11-01
  heating pipes
  tile floor-tile; joint 3
record heating-cycle on floor 2025-12-20 by "H. Warmer"; lasted 3 d
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-11-01
  heating pipes
  tile floor-tile; joint 3
record heating-cycle on floor 2025-12-20 by "H. Warmer"; lasted 7 d
""",
    limits=("heating-cycle-first", "heating-cycle-full"),
)
