"""A joint takes up the differences between tiles, lets the grout fill it to the bottom and gives a little when the base
moves. A butt joint does none of it. NHBC Standards 9.1.7: floors 3 mm; ANSI A108.02: 1/16 in, and 1/8 or 3/16 in where long
tiles are laid in a bond; common practice elsewhere: 2 mm.

Write a joint of the limit or more. The joints inside a mosaic sheet are the maker's; sheets are set at the same joint.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.job.types import Covering, Surface
from tilespec.quantity import Quantity
from tilespec.quantity.typed import typed

# Bonds in which neighbouring rows are shifted, so that the bow of long tiles shows.
SHIFTED = ("half", "third", "quarter", "run")


def least_joint(context: Context, surface: Surface, covering: Covering) -> Quantity:
    """The widest of the limits that hold for this covering."""
    tile, find = covering.tile, context.practice.find
    limits = [context.practice.limit("joint-min-floor" if surface.kind == "floor" else "joint-min-wall")]
    if surface.kind == "wall" and tile.stone:
        limits.append(context.practice.limit("joint-min-stone"))
        # Cleft and bush-hammered edges are no lines.
        if "textured" in tile.words and (rough := find("joint-min-stone-textured")) is not None:
            limits.append(rough)
    shifted = covering.pattern.name in SHIFTED and tile.long_side.value > context.practice.limit("offset-long-edge").value
    if shifted and (bond := find(f"joint-min-offset-{'rectified' if tile.rectified else 'calibrated'}")) is not None:
        limits.append(bond)
    return max(limits, key=lambda q: q.value)


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        for covering in surface.coverings:
            joint, chips = covering.joint, covering.tile.chip_joint
            least = least_joint(context, surface, covering)
            if joint.value >= least.value or (covering.tile.mosaic and chips is not None and joint.value >= chips.value):
                continue
            span = said_at(joint)
            yield RULE.at(
                (surface.id,),
                context.span(span, covering.span, surface.span),
                f"A joint of {both(joint)} on {context.name(surface)} is narrower than the practice allows ({both(least)}).",
                label="too narrow",
                help=f"Write `joint {typed(least)}` or more.",
                notes=(cited(least),),
                fixes=(Fix(f"write {typed(least)}", (Edit(span, typed(least)),)),) if span is not None else (),
            )


RULE = Rule(
    "T2401",
    "joint-too-narrow",
    Severity.WARNING,
    "A joint narrower than the practice allows",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain rectified
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 1
""",
    good="""\
tile wall-tile 300x300x9 porcelain rectified
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 2
""",
    limits=(
        "joint-min-floor", "joint-min-wall", "joint-min-stone", "offset-long-edge", "joint-min-offset-calibrated",
        "joint-min-offset-rectified",
    ),
)
