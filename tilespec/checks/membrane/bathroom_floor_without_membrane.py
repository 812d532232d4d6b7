"""The floor of a bathroom is wetted by every bath that runs over and every joint that wears out. BS 5385-1:2018 (6.1.1.3, as
reported) recommends a tanking membrane also for wet areas at home, before they are tiled; on timber above a ceiling it is
what stands between a splash and the room below.

Take `membrane none` out of the floor, or say in a deviation why the floor can do without.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.membrane.open_shower_reach_short import bare, open_tray
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    # Advice of the UK family alone.
    if context.practice.entry("membrane-bathroom") is None:
        return
    advice = context.practice.word("membrane-bathroom")
    for room in context.job.rooms:
        floor = room.floor
        # The spray of an open shower is more than a splash now and then, and is told as that.
        if floor is None or not (room.baths or room.showers) or not bare(context, floor) or open_tray(room) is not None:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(floor.refusal("membrane"), floor.span),
            f"{context.name(floor)} is that of a bathroom and has no membrane.",
            label="no membrane here",
            help="Take `membrane none` out: the floor then gets one, turned up at its walls.",
            notes=(cited(advice),),
        )


RULE = Rule(
    "T2013",
    "bathroom-floor-without-membrane",
    Severity.WARNING,
    "The floor of a bathroom with no membrane",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice UK
tile plain-tile 300x300x9 porcelain; pendulum 40
floor 2.4 x 1.8
  base concrete
  tile plain-tile; joint 3
  membrane none
bath along wall A, 1.7 x 0.75, 0 from left; rim 0.56
wall A 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
wall D 1.8 x 2.4
  base cement render
  tile plain-tile; joint 3
""",
    good="""\
job "Bathroom"
  practice UK
tile plain-tile 300x300x9 porcelain; pendulum 40
floor 2.4 x 1.8
  base concrete
  tile plain-tile; joint 3
bath along wall A, 1.7 x 0.75, 0 from left; rim 0.56
wall A 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
wall D 1.8 x 2.4
  base cement render
  tile plain-tile; joint 3
""",
    limits=("membrane-bathroom",),
)
