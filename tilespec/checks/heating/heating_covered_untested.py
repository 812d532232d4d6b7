"""A heating element is measured before it is laid, before it is covered and after tiling, and each value is written down
(makers' instructions agree on it; US electrical code NEC 424.46 has it inspected before it is covered). A test that was left
out cannot be made up: if the floor stays cold, nobody can say whether the mat was bad, or the laying hurt it.

Have the electrician measure before work goes on, and record it: `record heating-cover on floor 2026-03-11 by "name"; reading
176 ohm`. Where the test sheet is kept elsewhere, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import INSULATION, RESISTANCE, electric, of_floor
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Record, Room

# What is recorded after each test.
STAGES = (
    (0, ("heating-cover", "insulation-cover", "tiling", "grouting", "heating-after", "insulation-after", "heating-start")),
    (1, ("tiling", "grouting", "heating-after", "insulation-after", "heating-start")),
    (2, ("heating-start",)),
)
WHEN = ("before it was laid", "before it was covered", "after tiling")


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("heating-tests")
    for room in context.job.rooms:
        floor = room.floor
        if electric(room) is None or floor is None:
            continue
        missing = _missing(context, room)
        if not missing:
            continue
        # The newest record shows it best; each test that was left out is named.
        record = max((r for _, r in missing), key=lambda r: r.on)
        tests = [n for n, _ in missing]
        lines = " and ".join(f"`record {RESISTANCE[n]}`" for n in tests)
        yield RULE.at(
            (floor.id,),
            context.span(record.kind.span, record.span),
            f"`{record.kind}` is recorded for {context.name(floor)}, and its heating was not measured "
            f"{' nor '.join(WHEN[n] for n in tests)}.",
            label="a test is missing before this",
            help=f"Add the electrician's {'reading' if len(tests) == 1 else 'readings'}, {lines}, or let him measure before work "
            "goes on.",
            notes=(cited(asked),),
        )


def _missing(context: Context, room: Room) -> list[tuple[int, Record]]:
    """Each test that was left out, with the newest record that comes after it."""
    found = []
    for n, after in STAGES:
        later = of_floor(context, room, *after)
        if later and not of_floor(context, room, RESISTANCE[n], INSULATION[n]):
            found.append((n, later[-1]))
    return found


RULE = Rule(
    "T2613",
    "heating-covered-untested",
    Severity.WARNING,
    "A heating that was covered without its test",
    QUALITY,
    "job",
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
record substrate on floor 2026-03-09 by "A. Finch"
record tiling on floor 2026-03-12 by "J. Rook"
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
record substrate on floor 2026-03-09 by "A. Finch"
record tiling on floor 2026-03-12 by "J. Rook"
""",
    limits=("heating-tests",),
)
