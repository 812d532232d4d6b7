"""A mosaic is beaten into its bed: adhesive of a coarse notch comes up through all the joints between the chips, has to be
picked out of each, and what stays shows through the grout. Trade practice, from memory: notches of 3 to 4 mm for chips up to 50
mm, 4 to 6 mm above; US trade practice 3/16 to 1/4 in.

Declare an adhesive with a small notch for the mosaic: `notch 4 mm; for tile NAME`.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import also, another, bedded, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited
from tilespec.diagnostics.model import Severity
from tilespec.setout.bed import notch_size


def find(context: Context) -> Iterator[Finding]:
    steps = [context.practice.limit(key) for key in ("notch-1", "notch-2", "notch-3", "notch-4")]
    for b in bedded(context):
        notch = b.adhesive.notch
        if notch is None or not b.tile.mosaic:
            continue
        usual = notch_size(b.surface, b.tile, None, context.practice)
        # One step over the usual one, and a wall counts as a floor: the upper end of what is published.
        most = next((q for q in steps if q.value > usual.value), usual)
        if notch.value <= most.value:
            continue
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(b.tile)} on {context.name(b.surface)} is mosaic and is bedded with the {both(notch)} notch of "
            f"{b.adhesive.name}: the adhesive comes up through its joints. {both(usual)} is usual.",
            label="too coarse for mosaic",
            secondary=also(context, b),
            help=another(context, b, "an adhesive of its own for the mosaic", f"class C2TE; notch {both(usual)}"),
            notes=(cited(usual),),
        )


RULE = Rule(
    "T2129",
    "notch-too-large-for-mosaic",
    Severity.WARNING,
    "A coarse trowel under mosaic",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive coarse-set class C2TE; pack 25 kg; notch 10 mm
tile chips 300x300x6 mosaic porcelain; weight 14 kg/m2; chips 23 x 23
wall A 2.4 x 2.4
  base cement render
  tile chips; joint 2
""",
    good="""\
adhesive coarse-set class C2TE; pack 25 kg; notch 4 mm
tile chips 300x300x6 mosaic porcelain; weight 14 kg/m2; chips 23 x 23
wall A 2.4 x 2.4
  base cement render
  tile chips; joint 2
""",
    limits=("notch-1", "notch-2", "notch-3", "notch-4"),
)
