"""A ponding test proves the membrane, not the floor. ASTM D5957, written for decks and borrowed for showers, keeps the water
to 100 mm (4 in): each centimetre is 10 kg on every square metre, and deep water finds edges that no shower ever wets.

Let the water down, test with as much as the floor's own edge holds, and write the depth that stood.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import places, ponding
from tilespec.checks.membrane.ponding_too_heavy_for_floor import load, too_heavy
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    most = context.practice.limit("ponding-depth-max")
    for record, _, floor in ponding(context):
        depth = record.reading
        # Water too heavy for the floor is the worse fault, and is told as that.
        if depth is None or depth.value <= most.value or too_heavy(context, floor, depth):
            continue
        yield RULE.at(
            places(context, record),
            context.span(said_at(depth), record.span),
            f"{both(depth)} of water stood on {context.name(floor)}: {both(most)} at most.",
            label="too deep",
            help="Test again with less, and add the new record.",
            notes=(cited(most), f"It weighed {both(load(context, depth))}."),
        )


RULE = Rule(
    "T2018",
    "ponding-too-deep",
    Severity.WARNING,
    "A ponding test with too much water",
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
record ponding on floor 2026-03-12 by "A. Finch"; reading 140 mm; lasted 24 h
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h
""",
    limits=("ponding-depth-max",),
)
