"""Where adhesive does not touch the tile the tile is hollow: a heel or a dropped bottle breaks it, and in the wet the voids fill
with water. ANSI A108.5 asks for 80 % of the tile back in contact where it is dry and 95 % where it is wet; floors in the UK and
natural stone get a solid bed.

Look at why: too small a notch, skinned adhesive, no butter on the tile's back. Lay again what was laid so, lift tiles again and
write the new record; the last reading of a surface counts.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import standing
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Surface
from tilespec.quantity import Limit, Quantity
from tilespec.takeoff.adhesive import contact

_BECAUSE = {"contact-floor": "on a floor", "contact-dry": "on a wall", "contact-stone": "under natural stone"}


def least(context: Context, surface: Surface) -> tuple[Quantity, str]:
    """The contact that a surface needs, and what makes it so much."""
    asked = [contact(surface, c.tile, context.practice) for c in surface.coverings]
    found = max(asked, key=lambda q: q.value) if asked else context.practice.limit("contact-dry")
    key = found.why.key if isinstance(found.why, Limit) else ""
    return found, _BECAUSE.get(key, "where it gets wet" if surface.wet else "under tiles so large or heavy")


def find(context: Context) -> Iterator[Finding]:
    for found in standing(context, "contact"):
        surface = found.surface
        needed, why = least(context, surface)
        if found.value.value >= needed.value:
            continue
        cause = surface.zones[0].span if surface.zones and why == "where it gets wet" else None
        yield RULE.at(
            (surface.id,),
            context.span(said_at(found.value), found.record.span),
            f"The tiles lifted on {context.name(surface)} had {both(found.value)} of their back in adhesive; "
            f"{why} it is {both(needed)} at least.",
            label="too little contact",
            secondary=(Label(cause, "wet here"),) if cause is not None else (),
            help="Lay again what was laid so, with a larger notch or butter on the back, and add the new record.",
            notes=(cited(needed),),
        )


RULE = Rule(
    "T2140",
    "contact-too-low",
    Severity.ERROR,
    "Too little adhesive behind the tiles that were lifted",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record contact on wall A 2026-03-12 by "A. Finch"; work by "J. Rook"; reading 88 %; samples 3
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record contact on wall A 2026-03-12 by "A. Finch"; work by "J. Rook"; reading 96 %; samples 3
""",
    limits=("contact-dry", "contact-floor", "contact-wet", "contact-stone", "solid-bed-tile-face", "solid-bed-load-share"),
)
