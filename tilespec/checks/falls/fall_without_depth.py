"""A fall has to be made of something. Where the base is a flat slab or old tiles that stay, only the layers above it can be
laid to a fall; a thin bed of adhesive cannot, and thickening it there lets the tiles sink and the bed shrink (common
practice: plane geometry against the build-up). Otherwise the drain stands proud of its membrane, or the floor ends higher
than was planned.

Write the layer that makes the fall into the build-up (`falls 20`, `screed 45` or `leveller 10`), or a flatter fall. Where the
slab itself is laid to the fall, or a recess is cut in it, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import Quantity, work

# Bases that are there and flat. A screed is laid to the fall, a timber floor is furred or lowered.
FLAT = ("concrete", "old-tiles")
MAKES = ("falls", "screed", "leveller")
# Comes with its fall, so its thickness says nothing.
READY = ("board", "insulation")


def find(context: Context) -> Iterator[Finding]:
    for room in context.job.rooms:
        floor, grate, layers = room.floor, room.levels.drain_grate, room.levels.build_up
        if floor is None or grate is None or room.fall is None or not layers or floor.base.kind not in FLAT:
            continue
        # A drain on the edge itself is told as that.
        if grate.value == 0 or any(name in READY for name, _ in layers):
            continue
        deep: Quantity | None = None
        for name, q in layers:
            if name in MAKES:
                deep = q if deep is None else work("depth + layer", "mm", source="layers laid to a fall", depth=deep, layer=q)
        drop = work("-(grate)", "mm", source="the drain below the level edge", grate=grate)
        if deep is not None and deep.value >= drop.value:
            continue
        has = f"only {both(deep)} of its build-up" if deep is not None else "nothing in its build-up"
        yield RULE.at(
            (floor.id,),
            context.span(said_at(room.fall.slope), room.fall.span, floor.span),
            f"The fall of {context.name(floor)} is {both(drop)} deep at the drain, and {has} can be laid to it.",
            label="made of what?",
            secondary=(Label(floor.base.span, "this base is flat"),) if floor.base.span is not None else (),
            help="Write the layer that makes the fall into the build-up, for example "
            f"`build-up falls {_up(drop)}, membrane 1, bed 4`.",
            notes=(reckoned("Height of the grate", grate),),
        )


def _up(drop: Quantity) -> int:
    """A depth that is enough, with something left at the drain."""
    return int(drop.mm // 5 + 2) * 5


RULE = Rule(
    "T2046",
    "fall-without-depth",
    Severity.WARNING,
    "A fall that no layer of the build-up can make",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base concrete; laid 2025-06-01
  build-up leveller 6, membrane 1, bed 4
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base concrete; laid 2025-06-01
  build-up falls 25, membrane 1, bed 4
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
)
