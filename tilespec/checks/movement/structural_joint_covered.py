"""A joint of the building or the screed moves whatever is laid over it: tiles that bridge it crack along it, and the membrane
below them with it. All practices say the same (The Tile Association's guide; EJ171; DIN 18560-2): such a joint is carried
through bed and tile in the same place and at least as wide.

Write a movement joint in the same place, and set the tiles out so that it falls between them. A crack that has come to rest
is another matter: have it judged.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import pairs
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import MovementJoint, Surface
from tilespec.quantity import UNITS, Quantity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    for surface, below, above in pairs(context):
        if above is not None:
            continue
        beside = _beside(surface, below)
        near = ""
        labels: tuple[Label, ...] = ()
        if beside is not None:
            joint, apart = beside
            near = f"; the movement joint stands {both(apart)} beside it"
            labels = (Label(joint.span, "beside it"),) if joint.span is not None else ()
        yield RULE.at(
            (surface.id,),
            context.span(below.span, surface.span),
            f"Tiles of {context.name(surface)} lie over a joint of the base{near}: they crack along it.",
            label="tiled over",
            secondary=labels,
            help="Put the movement joint over it: the same place in both lines."
            if beside is not None
            else f"Write the same place again as `movement joint`, with `width {typed(below.width)}` or more.",
            notes=("Common to all practices: The Tile Association, Tiling Guide section 10; TCNA Handbook EJ171.",),
        )


def _beside(surface: Surface, below: MovementJoint) -> tuple[MovementJoint, Quantity] | None:
    """A movement joint that was meant for it: nearer than a tile is wide."""
    tile = surface.field.tile if surface.field is not None else None
    found: list[tuple[MovementJoint, Quantity]] = []
    for joint in surface.movement_joints:
        for a, b, side in (
            (joint.x, below.x, tile.width if tile else None), (joint.y, below.y, tile.height if tile else None),
        ):
            if a is not None and b is not None and side is not None and abs(a.value - b.value) < side.value:
                found.append((joint, Quantity(abs(a.value - b.value), a.kind, UNITS["mm"], a.why)))
    return min(found, key=lambda t: t[1].value, default=None)


RULE = Rule(
    "T2706",
    "structural-joint-covered",
    Severity.ERROR,
    "Tiles over a joint of the base",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  structural joint 1.8 from wall D; width 8
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  structural joint 1.8 from wall D; width 8
  movement joint 1.8 from wall D; width 8
""",
)
