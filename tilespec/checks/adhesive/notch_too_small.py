"""The notch sets how much adhesive there is to fill the back of the tile. One that is far below the usual table leaves ridges
that never meet, whoever presses the tile. Trade practice, from memory: 4 mm for mosaic to 12 mm over an edge of 300 mm, one
step less on walls; US trade practice 1/4 to 1/2 in. A rule can only catch the slip: the lifted tile decides.

Write the notch for this tile, give the tile an adhesive of its own with `for tile NAME`, or leave `notch` out: then the table
is taken.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import also, bedded, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited
from tilespec.diagnostics.model import Severity
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity
from tilespec.quantity.typed import typed
from tilespec.setout.bed import notch_size


def least_notch(usual: Quantity, practice: Practice) -> Quantity:
    """One step down the table from the usual notch: the lower end of what is published for such a tile."""
    steps = sorted((practice.limit(f"notch-{n}") for n in range(1, 6)), key=lambda q: q.value)
    return next((q for q in reversed(steps) if q.value < usual.value), steps[0])


def find(context: Context) -> Iterator[Finding]:
    for b in bedded(context):
        notch = b.adhesive.notch
        if notch is None or b.tile.mosaic:
            continue
        usual = notch_size(b.surface, b.tile, None, context.practice)
        least = least_notch(usual, context.practice)
        if notch.value >= least.value:
            continue
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(b.tile)} on {context.name(b.surface)}, with an edge of {both(b.tile.long_side)}, is bedded with the "
            f"{both(notch)} notch of {b.adhesive.name}; {both(usual)} is usual and {both(least)} the least.",
            label="too small",
            secondary=also(context, b),
            help=f"Write `notch {typed(usual)}`, or leave `notch` out of {b.adhesive.name}.",
            notes=(cited(usual),),
        )


RULE = Rule(
    "T2124",
    "notch-too-small",
    Severity.WARNING,
    "A trowel too small for the tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive firm-set class C2TE; pack 25 kg; notch 4 mm
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    good="""\
adhesive firm-set class C2TE; pack 25 kg; notch 8 mm
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    limits=("notch-1", "notch-2", "notch-3", "notch-4", "notch-5", "notch-wall-steps"),
)
