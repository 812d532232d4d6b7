"""The membrane ends on the flange of the drain, and that narrow ring is where wet floors leak first: a collar needs enough
width to bond all round and to be worked into. 50 mm is the width usually asked for (common practice, from memory; makers of
slim channels give less together with a collar of their own).

Take a drain or channel with a wider flange. Where its maker supplies a collar that is made and tested for the narrower one,
say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("drain-flange-min")
    for room in context.job.rooms:
        if room.floor is None or room.floor.product("membrane") is None:
            continue
        for drain in room.drains:
            if drain.flange is None or drain.flange.value >= least.value:
                continue
            yield RULE.at(
                (room.floor.id,),
                context.span(said_at(drain.flange), drain.span, room.floor.span),
                f"The {drain.kind} in {context.name(room.floor)} has a flange {both(drain.flange)} wide; a membrane is usually "
                f"given {both(least)} to bond to.",
                label="little to bond to",
                help=f"Take a {drain.kind} with a flange of {both(least)} or more; a collar of its maker's for this one is a "
                "reason for a deviation.",
                notes=(cited(least),),
            )


RULE = Rule(
    "T2041",
    "drain-flange-too-narrow",
    Severity.WARNING,
    "A drain with too narrow a flange for the membrane",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A; flange 30
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A; flange 50
""",
    limits=("drain-flange-min",),
)
