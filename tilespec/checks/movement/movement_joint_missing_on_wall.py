"""A long tiled wall moves against what is behind it, and with no joint its tiles crack or come off in a sheet. The Tile
Association and BS 5385-1 ask for joints at 3 to 4.5 m both ways and over every change of the base, the TCNA Handbook
(EJ171) for 25 ft (7.6 m) each way indoors.

Add a movement joint, best where the base changes or beside an opening. Inside corners are movement joints by
themselves and need no line.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import reach, too_long, where_to_cut
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    most, width = context.practice.limit("movement-spacing-wall"), context.practice.limit("corner-joint-wall")
    for surface in context.job.tiled:
        found = too_long(surface, most) if surface.kind == "wall" else None
        if found is None:
            continue
        bay, n = found
        yield RULE.at(
            (surface.id,),
            context.where(surface),
            f"The tiles of {context.name(surface)} run {both(bay.sides[n])} {reach(bay, n)} without a movement joint: "
            f"{both(most)} at most.",
            label="no joint within it",
            help=f"Divide them, {where_to_cut(context, surface, bay, n, most, width)}.",
            notes=(cited(most),),
        )


RULE = Rule(
    "T2702",
    "movement-joint-missing-on-wall",
    Severity.WARNING,
    "A wall too long for having no movement joint",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 600x300x9 porcelain; weight 20 kg/m2
wall A 5.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
tile wall-tile 600x300x9 porcelain; weight 20 kg/m2
wall A 5.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  movement joint 2.7 from left; width 6
""",
    limits=("movement-spacing-wall", "corner-joint-wall"),
)
