"""A bonded membrane under tile is made for water that runs off. DIN 18534-1 ends at 100 mm of standing water; what may stand
deeper is a tank, and is sealed by the standards for tanks and pools. A wet floor whose only way out is a threshold higher
than that can fill so far when its drain is blocked.

Lower the threshold, give the floor an overflow, or have it designed as a tank and say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.membrane.ponding_over_the_door_dam import lowest_dam
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    most = context.practice.limit("standing-water-max")
    for room in context.job.rooms:
        dam, floor = lowest_dam(room), room.floor
        # A floor that no drain or level shower wets does not fill.
        fills = bool(room.drains) or any(not s.tray for s in room.showers)
        if floor is None or dam is None or dam.threshold is None or not fills or dam.threshold.value <= most.value:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(said_at(dam.threshold), dam.span, floor.span),
            f"Water can stand {both(dam.threshold)} deep on {context.name(floor)} before it runs over the threshold: a bonded "
            f"membrane is for {both(most)} at most.",
            label="dams too much",
            help=f"Make it {both(most)} or lower, or give the floor an overflow.",
            notes=(cited(most),),
        )


RULE = Rule(
    "T2025",
    "standing-water-beyond-scope",
    Severity.WARNING,
    "A wet floor that can fill like a tank",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
wall C 2.4 x 2.4
  base cement render
  tile floor-tile; joint 3
  door 0.8 x 2.0; 0.8 from left; threshold 150
deviation step-at-door-too-high on wall C because "ramped on both sides"
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
wall C 2.4 x 2.4
  base cement render
  tile floor-tile; joint 3
  door 0.8 x 2.0; 0.8 from left; threshold 90
deviation step-at-door-too-high on wall C because "ramped on both sides"
""",
    limits=("standing-water-max",),
)
