"""BS 5385-1:2018, as reported in the trade press, asks for a solid bed under small wall tiles too, once they weigh more than 70
% of what the base carries: each tile then needs all of its back to hold. The contact figure for dry walls, 80 %, is less than
that.

Ask for a solid bed on paper and at the lift check: `limit contact-dry 95 %`, or take a lighter tile.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.tiling_too_heavy_for_base import carries
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called, cited
from tilespec.diagnostics.model import Severity
from tilespec.quantity import work
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    share, solid = context.practice.find("solid-bed-load-share"), context.practice.limit("contact-wet")
    if share is None or context.takeoff is None:
        return  # only the United Kingdom has this rule
    contacts = {(n.place, n.tile): n.contact for n in context.takeoff.notches}
    for surface in context.job.tiled:
        capacity = carries(context, surface) if surface.kind == "wall" else None
        if capacity is None:
            continue
        most = work("capacity * share", "kg/m2", source="load from which the bed is solid", capacity=capacity, share=share)
        for covering in surface.coverings:
            tile, contact = covering.tile, contacts.get((surface.id, covering.tile.name))
            if tile.weight is None or tile.weight.value <= most.value or contact is None or contact.value >= solid.value:
                continue
            if tile.weight.value > capacity.value:
                continue  # too heavy altogether: told by another rule
            yield RULE.at(
                (surface.id,),
                context.span(tile.span, covering.span, surface.span),
                f"{called(tile)} weighs {typed(tile.weight)}, more than {typed(share)} of what {context.name(surface)} carries "
                f"({typed(capacity)}): it takes a solid bed, and {typed(contact)} of contact is asked.",
                label="heavy for its base",
                help=f"Write `limit contact-dry {typed(solid)}` at the margin.",
                notes=(cited(share),),
            )


RULE = Rule(
    "T2125",
    "bed-not-solid",
    Severity.NOTE,
    "Heavy wall tiles on a bed with voids",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice UK
tile wall-tile 200x200x7 ceramic; weight 15 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard skimmed
  tile wall-tile; joint 3
""",
    good="""\
job "Bathroom"
  practice UK
tile wall-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard skimmed
  tile wall-tile; joint 3
""",
    limits=("solid-bed-load-share", "contact-wet", "contact-dry"),
)
