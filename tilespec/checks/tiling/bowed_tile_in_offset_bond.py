"""A tile that is bowed is highest in its middle. In a bond the end of one tile lies beside the middle of the next, and the bow
stands up as a step however well they are laid: all of it in a half bond, nine tenths in a third, none where joints run
through. Drawn as an arch: geometry. A step is judged by the limit for finished tiling.

Lay them straight, send them back, or have a sample area approved and say so in a deviation. A third bond gains little.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, reckoned, said_at
from tilespec.checks.tiling.came import coverings
from tilespec.checks.tiling.offset_over_a_third import offset
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Covering
from tilespec.quantity import UNITS, Given, Quantity, work
from tilespec.sequence.laying import lippage
from tilespec.sequence.site import Site


def shift(context: Context, covering: Covering) -> Quantity:
    """How far a course is moved against the one before, as share of the tile."""
    percent = UNITS["%"]
    span = context.span(covering.pattern.span, covering.span)
    return Quantity(offset(covering) * percent.factor, percent.kind, percent, Given(span))


def told_already(context: Context, covering: Covering) -> bool:
    """A long tile moved by more than a third: a rule of its own, whatever came."""
    along = covering.tile.height if covering.pattern.upright else covering.tile.width
    limit = context.practice.limit
    return along.value > limit("offset-long-edge").value and shift(context, covering).value > limit("offset-max").value


def find(context: Context) -> Iterator[Finding]:
    if context.takeoff is None:
        return
    site = Site(context.job, context.practice, context.takeoff)
    for delivery in context.job.deliveries:
        for surface, covering in coverings(context, delivery.tile):
            tile = covering.tile
            along = tile.height if covering.pattern.upright else tile.width
            moved = shift(context, covering)
            # The bow is measured along the longer side.
            if delivery.warp is None or not moved.value or tile.mosaic or along.value < tile.long_side.value:
                continue
            step = work("4 * bow * shift * (1 - shift)", "mm", source="arch over the tile", bow=delivery.warp, shift=moved)
            most = lippage(surface, site)
            if step.value <= most.value or told_already(context, covering):
                continue
            yield RULE.at(
                (surface.id,),
                context.span(said_at(delivery.warp), delivery.span),
                f"{called(tile)} came bowed by {both(delivery.warp)}: moved by {both(moved)} of its length on "
                f"{context.name(surface)} it makes steps of {both(step)}; {both(most)} is the most.",
                label=f"steps of {both(step)}",
                help="Lay it with joints that run through, send it back, or have a sample approved.",
                notes=(cited(most), reckoned("Step", step)),
            )


RULE = Rule(
    "T2445",
    "bowed-tile-in-offset-bond",
    Severity.WARNING,
    "Bowed tiles laid in a bond that shows it",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x150x9 porcelain landscape
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; half bond
delivery wall-tile 2026-03-02; warp 1.2
""",
    good="""\
tile wall-tile 300x150x9 porcelain landscape
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; half bond
delivery wall-tile 2026-03-02; warp 0.8
""",
    limits=("lippage-max", "lippage-max-wide", "lippage-max-stone", "offset-long-edge", "offset-max"),
)
