"""The threshold of the door is the dam of the test: water above it runs into the hall, and what is read then is what ran out,
not what leaked. The test stands on the membrane, so the tile, its bed and the fall down to the drain are below the
threshold too, and are reckoned in.

Test with less water, or put a dam into the door for the test and say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import places, ponding
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Opening, Room, Surface
from tilespec.quantity import Quantity, work


def find(context: Context) -> Iterator[Finding]:
    for record, room, floor in ponding(context):
        lowest = lowest_dam(room)
        if record.reading is None or lowest is None or lowest.threshold is None:
            continue
        most = _depth(room, floor, lowest.threshold)
        if record.reading.value <= most.value:
            continue
        yield RULE.at(
            places(context, record),
            context.span(said_at(record.reading), record.span),
            f"{both(record.reading)} of water on {context.name(floor)} runs over the threshold of the door: "
            f"it dams {both(most)}.",
            label="higher than its dam",
            secondary=(Label(span, "the threshold"),) if (span := said_at(lowest.threshold)) is not None else (),
            help=f"Test with {both(most)} or less, or with a dam in the door.",
            notes=(reckoned("Depth", most),),
        )


def lowest_dam(room: Room) -> Opening | None:
    """The opening that water runs out of first; None where one of them has no threshold said: its dam is not known."""
    doors = [o for s in room.wall_surfaces for o in s.openings if o.kind != "window" and o.rect.y.value <= 0]
    known = [(o.threshold.value, n) for n, o in enumerate(doors) if o.threshold is not None]
    return doors[min(known)[1]] if known and len(known) == len(doors) else None


def _depth(room: Room, floor: Surface, threshold: Quantity) -> Quantity:
    """From the membrane at the deepest place up to the threshold."""
    parts = {"threshold": threshold}
    if floor.field is not None:
        parts["tile"] = floor.field.tile.thickness
    bed = next((q for layer, q in room.levels.build_up if layer.casefold().startswith("bed")), None)
    if bed is not None:
        parts["bed"] = bed
    formula = " + ".join(parts)
    if room.levels.drain_grate is not None:
        parts["grate"] = room.levels.drain_grate
        formula += " - grate"
    return work(formula, threshold.shown.symbol, source="what the threshold dams above the membrane", **parts)


RULE = Rule(
    "T2023",
    "ponding-over-the-door-dam",
    Severity.WARNING,
    "A ponding test that runs out of the door",
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
wall C 2.4 x 2.4
  base cement render
  tile floor-tile; joint 3
  door 0.8 x 2.0; 0.8 from left; threshold 20
record ponding on floor 2026-03-12 by "A. Finch"; reading 80 mm; lasted 24 h
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
wall C 2.4 x 2.4
  base cement render
  tile floor-tile; joint 3
  door 0.8 x 2.0; 0.8 from left; threshold 20
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h
""",
)
