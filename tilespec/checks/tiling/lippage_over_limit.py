"""A step between two tiles catches the toe, the mop and the light from the side. NHBC Standards 9.1.7 allow 1 mm at joints up to
6 mm and 2 mm at wider ones, ANSI A108.02 1/32 in and 1/16 in; how far the delivered tiles are bowed comes on top, as it was
measured and not as a standard would allow.

Take up what stands too high while the adhesive lets it, lay it again, and write the new record: the last reading of a surface
counts. Where the tiles themselves are bowed, measure them and write `warp` beside their delivery.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import standing
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Surface
from tilespec.quantity import Quantity, work
from tilespec.sequence.laying import lippage
from tilespec.sequence.site import Site, tiles_of


def warp(context: Context, surface: Surface) -> Quantity | None:
    """How far the worst bowed of its tiles is off, as measured on what came."""
    names = {t.name for t in tiles_of(surface)}
    came = [d.warp for d in context.job.deliveries if d.warp is not None and d.tile.name in names]
    return max(came, key=lambda q: q.value, default=None)


def find(context: Context) -> Iterator[Finding]:
    if context.takeoff is None:
        return
    site = Site(context.job, context.practice, context.takeoff)
    for found in standing(context, "lippage"):
        surface, bow = found.surface, warp(context, found.surface)
        limit = lippage(surface, site)
        most = limit if bow is None else work(
            "limit + bow", limit.shown.symbol, source="the tile's own bow comes on top", limit=limit, bow=bow,
        )
        if found.value.value <= most.value:
            continue
        joint = surface.coverings[0].joint
        yield RULE.at(
            (surface.id,),
            context.span(said_at(found.value), found.record.span),
            f"The tiles of {context.name(surface)} stand {both(found.value)} off each other; {both(most)} is the most "
            f"at a joint of {both(joint)}{' with tiles bowed as these are' if bow is not None else ''}.",
            label="a step",
            secondary=tuple(Label(s, "bowed so much") for s in (said_at(bow),) if s is not None),
            help="Lay the tiles that stand off again and add the new record."
            + ("" if bow is not None else " If the tiles are bowed, write `warp` beside their delivery."),
            notes=(cited(limit), *((reckoned("Most", most),) if bow is not None else ())),
        )


RULE = Rule(
    "T2440",
    "lippage-over-limit",
    Severity.WARNING,
    "Steps between tiles that are over the limit",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record lippage on wall A 2026-03-14 by "A. Finch"; work by "J. Rook"; reading 1.5 mm
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record lippage on wall A 2026-03-14 by "A. Finch"; work by "J. Rook"; reading 0.8 mm
""",
    limits=(
        "lippage-max", "lippage-max-wide", "lippage-wide-joint", "lippage-wide-joint-from", "lippage-max-large",
        "lippage-large-face", "lippage-max-stone",
    ),
)
