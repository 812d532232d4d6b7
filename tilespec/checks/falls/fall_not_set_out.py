"""A fall is set out over the level shower that its drain lies in, or over a whole rectangular floor. On another floor nobody can
tell from the spec where the fall begins, so that its planes, heights and cuts are left out of the print.

Say the part that falls as a shower: `shower in corner D A, 0.9 x 0.9` with the drain in it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity
from tilespec.setout import falls


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        if room.fall is None or room.floor is None or not room.drains or falls.ground(room) is not None:
            continue
        yield RULE.at(
            (room.floor.id,),
            context.span(room.fall.span, room.floor.span, room.span),
            f"It is not said which part of {context.name(room.floor)} falls: it is no rectangle, and its drain lies in no level "
            "shower.",
            label="falls from where?",
            help="Say the shower that falls, with the drain in it: `shower in corner D A, 0.9 x 0.9`.",
        )


RULE = Rule(
    "T2007",
    "fall-not-set-out",
    Severity.WARNING,
    "A fall of which nobody knows where it begins",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor walk A 2.4, B 1.8, C 1.2, corner external, D 0.6, E 1.2, F 2.4
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 0.45 from wall F, 0.45 from wall A
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor walk A 2.4, B 1.8, C 1.2, corner external, D 0.6, E 1.2, F 2.4
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 0.45 from wall F, 0.45 from wall A
shower in corner F A, 0.9 x 0.9; head at height 2.1; valve on wall A 0.45 from left, 1.1 up
""",
)
