"""A screed that is heated while it still hardens dries from its pipes outwards, cracks and curls. EN 1264-4 has the first
heating start 21 days after a cement screed was laid and 7 days after a calcium sulfate screed (as the heating trade's press
quotes it; BS 5385-3 has three weeks too).

Let it harden first, then heat it through by the protocol of the heating engineer. A screed with accelerator follows its
maker's sheet: say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from math import ceil

from tilespec.checks.heating.readings import of_floor
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.vocabulary import SCREEDS

DAY = 86400


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        floor = room.floor
        if floor is None or floor.base.kind not in SCREEDS or floor.base.laid is None:
            continue
        least = context.practice.limit(f"heating-first-{floor.base.kind}")
        for record in of_floor(context, room, "heating-cycle")[:1]:  # the first one does the harm
            # It is signed at its end; where its length is said, it began so much earlier.
            lasted = record.lasted.value / DAY if record.lasted is not None else 0
            began = record.on - timedelta(days=int(lasted))
            ready = floor.base.laid + timedelta(days=ceil(least.value / DAY))
            if began >= ready:
                continue
            age = (began - floor.base.laid).days
            yield RULE.at(
                (floor.id,),
                context.span(record.span),
                f"The screed of {context.name(floor)} was heated at an age of {age} {'day' if age == 1 else 'days'}; "
                f"{both(least)} is the least.",
                label="heated while it hardens",
                secondary=(Label(floor.base.span, "this screed"),) if floor.base.span is not None else (),
                help=f"Heat it from {ready.isoformat()} on. If it was heated before, look for cracks, have it judged, and run "
                "the cycle again.",
                notes=(cited(least),),
            )


RULE = Rule(
    "T2615",
    "screed-heated-too-early",
    Severity.ERROR,
    "A screed heated before it is hard",
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
record heating-cycle on floor 2025-11-24 by "H. Warmer"; lasted 7 d
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-11-01
  heating pipes
  tile floor-tile; joint 3
record heating-cycle on floor 2025-11-29 by "H. Warmer"; lasted 7 d
""",
    limits=("heating-first-cement-screed", "heating-first-calcium-sulfate-screed"),
)
