"""The larger a tile, the more one joint has to take up: differences in size, movement of the wall, and the bow of the tile. BS
5385-1:2018 as restated advises 2 mm on walls, and 3 mm from a tile face of 0.1 m2. NHBC Standards still accept 1.5 mm, so that
less is no fault of the work as such.

Write the advised joint, or say in a deviation that the tile's maker gives a narrower one.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, said_at
from tilespec.checks.tiling.joint_too_narrow import least_joint
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.quantity import work
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    look = context.practice.find
    small, large, face = (look(f"joint-advised-wall{part}") for part in ("", "-large", "-face"))
    if small is None or large is None or face is None:
        return  # only the United Kingdom has this advice
    for surface in context.job.tiled:
        for covering in surface.coverings if surface.kind == "wall" else ():
            tile, joint = covering.tile, covering.joint
            area = work("width * height", "m2", source="face of the tile", width=tile.width, height=tile.height)
            advised = large if area.value >= face.value else small
            if tile.mosaic or joint.value >= advised.value or joint.value < least_joint(context, surface, covering).value:
                continue
            span = said_at(joint)
            yield RULE.at(
                (surface.id,),
                context.span(span, covering.span, surface.span),
                f"A joint of {both(joint)} on {context.name(surface)} is narrower than advised for {called(tile)}, "
                f"{both(tile.width)} x {both(tile.height)}: {both(advised)}.",
                label="narrow for this face",
                help=f"Write `joint {typed(advised)}`.",
                fixes=(Fix(f"write {typed(advised)}", (Edit(span, typed(advised)),)),) if span is not None else (),
                notes=(cited(advised),),
            )


RULE = Rule(
    "T2412",
    "joint-below-advice-for-face",
    Severity.WARNING,
    "A narrow joint between large faces",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice UK
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 2
""",
    good="""\
job "Bathroom"
  practice UK
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("joint-advised-wall", "joint-advised-wall-large", "joint-advised-wall-face"),
)
