"""The three readings of one heating (before it is laid, before it is covered, after tiling) are of the same conductor: they
agree but for the warmth of the room. One that moves by more than the label's own tolerance (5 % down, 10 % up by makers'
instructions) says that the element was hurt in between, by a trowel, a foot or a drill.

Find out before anything else is laid on it: the electrician measures again and locates the fault. A repair is his, by the
maker's instructions and with the maker's kit.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import RESISTANCE, electric, last_of_each, mats, measure, outside, test_of
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    below, above = context.practice.limit("heating-resistance-low"), context.practice.limit("heating-resistance-high")
    for room in context.job.rooms:
        heating, floor, m = electric(room), room.floor, measure(context, room)
        if heating is None or floor is None:
            continue
        # What is off the label's band is told by that.
        told = [r for r in last_of_each(context, room, RESISTANCE) if m is not None and outside(m, r, mats(m, heating))]
        first, *later = last_of_each(context, room, RESISTANCE) or (None,)
        if first is None or first.reading is None or first in told:
            continue
        was = first.reading
        for record in later:
            q = record.reading
            if q is None or record in told or 1 - below.value <= q.value / was.value <= 1 + above.value:
                continue
            yield RULE.at(
                (floor.id,),
                context.span(said_at(q), record.span),
                f"The heating in {context.name(floor)} read {both(was)} at first and {both(q)} {test_of(record)}: "
                "it is one conductor, and it has changed.",
                label="hurt in between?",
                secondary=(Label(said_at(was) or first.span, "this was read at first"),) if first.span is not None else (),
                help="Lay nothing more on it: let the electrician measure again and find the fault, and add his new record.",
                notes=(cited(below if q.value < was.value else above),),
            )


RULE = Rule(
    "T2612",
    "heating-resistance-changed",
    Severity.ERROR,
    "A heating that reads otherwise than before it was covered",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
record heating-before on floor 2026-03-10 by "P. Wire"; reading 176 ohm
record heating-cover on floor 2026-03-11 by "P. Wire"; reading 204 ohm
""",
    good="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
record heating-before on floor 2026-03-10 by "P. Wire"; reading 176 ohm
record heating-cover on floor 2026-03-11 by "P. Wire"; reading 177 ohm
""",
    limits=("heating-resistance-low", "heating-resistance-high"),
)
