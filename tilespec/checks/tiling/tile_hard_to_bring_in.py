"""A large tile has to get into the room whole: standing up through the door, or lying on its edge and then turned inside. One
that is longer than the door is high, and longer than the longest line across the room, does neither without being tilted
between ceiling and frame, where it breaks. Geometry, no source.

Try it with a batten of its length before the tiles are ordered; then take a smaller tile, or say in a deviation how it gets
in.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Opening, Room, Tile
from tilespec.quantity import UNITS, Kind, Quantity, work
from tilespec.sequence.site import tiles_of


def across(room: Room) -> Quantity | None:
    """The longest straight line from corner to corner of the room's outline."""
    lengths = [line.length for line in room.walls]
    if not lengths:
        return None
    metre = UNITS["m"]
    points = [line.start for line in room.walls]
    one, other = max(
        ((a, b) for a in points for b in points), key=lambda ab: (ab[0][0] - ab[1][0]) ** 2 + (ab[0][1] - ab[1][1]) ** 2,
    )
    along, deep = (Quantity(abs(one[i] - other[i]), Kind.LENGTH, metre, lengths[0].why) for i in (0, 1))
    return work("sqrt(along * along + deep * deep)", "m", source="longest line of the plan", along=along, deep=deep)


def gets_in(tile: Tile, door: Opening, longest: Quantity) -> bool:
    long, short = tile.long_side.value, min(tile.width.value, tile.height.value)
    stands = long <= door.rect.height.value and short <= door.rect.width.value
    return stands or (short <= door.rect.height.value and long <= longest.value)


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        doors = [o for s in room.wall_surfaces for o in s.openings if o.kind == "door"]
        longest = across(room)
        if not doors or longest is None:
            continue
        for surface in room.surfaces:
            tile = next((t for t in tiles_of(surface) if not t.mosaic and not any(gets_in(t, d, longest) for d in doors)), None)
            if tile is None:
                continue
            door = max(doors, key=lambda d: d.rect.height.value)
            yield RULE.at(
                (surface.id,),
                context.span(tile.span, surface.span),
                f"{called(tile)} is {both(tile.long_side)} long: it neither stands in a door of {both(door.rect.height)} nor "
                f"lies in a room that is {both(longest)} across.",
                label="how does it get in?",
                secondary=(Label(door.span, "the door"),) if door.span is not None else (),
                help="Try it with a batten of that length, then take a smaller tile or say in a deviation how it gets in.",
            )
            break


RULE = Rule(
    "T2448",
    "tile-hard-to-bring-in",
    Severity.WARNING,
    "A tile that may not get into the room",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile panel 200x2400x6 porcelain rectified; weight 14 kg/m2
floor 1.5 x 1.2; base concrete; tile panel; joint 3
wall A 1.5 x 2.6
  base cement board
  tile panel; joint 3
  door 0.8 x 2.0; 0.4 from left
""",
    good="""\
tile panel 200x2400x6 porcelain rectified; weight 14 kg/m2
floor 1.5 x 1.2; base concrete; tile panel; joint 3
wall A 1.5 x 2.6
  base cement board
  tile panel; joint 3
  door 1.1 x 2.45; 0.2 from left
""",
)
