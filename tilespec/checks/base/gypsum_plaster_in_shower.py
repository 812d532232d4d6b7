"""Gypsum plaster softens when water gets behind the tiles, and a shower looks for every way there. NHBC Standards 9.2.5: no
gypsum plaster where it may be wetted repeatedly or for long; BS 5385-4:2015 as reported: plaster is unsuitable behind frequent
wetting as it is. A membrane guards it, and yet its first leak takes the wall along. In the UK the same standard, as reported,
counts plasterboard with it, moisture-resistant or not.

Take the plaster off there and tile on a tile-backer board, a cement board or cement render; or say in a deviation why the
plaster stays.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.checks.wet import exposures, soaked_zones
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Surface, Zone

BOARD = "plasterboard-in-shower"


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        base, zones = surface.base, soaked_zones(context, surface)
        plaster = base.kind == "gypsum-plaster" or (base.kind == "gypsum-plasterboard" and base.skim is True)
        if surface.kind != "wall" or not zones:
            continue
        if not plaster:
            # Advice of the UK family alone, for showers.
            showers = tuple(z for z in zones if z.exposure == "shower")
            if base.kind == "gypsum-plasterboard" and showers and context.practice.entry(BOARD) is not None:
                yield _found(context, surface, showers, "plasterboard", BOARD)
            continue
        yield _found(context, surface, zones, "gypsum plaster", "plaster-in-shower")


def _found(context: Context, surface: Surface, zones: tuple[Zone, ...], what: str, key: str) -> Finding:
    return RULE.at(
        (surface.id,),
        context.span(surface.base.span, surface.span),
        f"{context.name(surface)} is wetted by {exposures(zones)}, and {what} softens in water.",
        label=what,
        help="Give the wall another base: `base tile-backer board`, `base cement board` or `base cement render`.",
        notes=(cited(context.practice.word(key)),),
    )


RULE = Rule(
    "T2215",
    "gypsum-plaster-in-shower",
    Severity.WARNING,
    "Gypsum plaster behind a shower",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base gypsum plaster
  tile plain-tile; joint 3
  shower zone
""",
    good="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
  shower zone
""",
    limits=("plaster-in-shower", BOARD),
)
