"""A joint takes up what the tiles differ by. ANSI A108.02 makes it three times the measured difference in size at least: with
tiles that vary by 1 mm a joint of 2 mm is closed at one tile and 3 mm at the next, and the courses step.

Write a wider joint, or sort the tiles by size and measure again. Nobody is asked to measure: the rule speaks where it was
done.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, reckoned, said_at
from tilespec.checks.tiling.came import coverings, sides, spread
from tilespec.checks.tiling.delivery_beyond_rectified_tolerance import beyond
from tilespec.diagnostics.model import Edit, Fix, Label, Severity
from tilespec.quantity import UNITS, Quantity, work
from tilespec.quantity.typed import typed


def written(least: Quantity, like: Quantity) -> str:
    """A joint that spacers are made for: up to the next half millimetre, or sixteenth of an inch where the job measures so."""
    step = Fraction(1, 16) if like.shown.symbol == "in" else Fraction(1, 2)
    u = like.shown if like.shown.symbol == "in" else UNITS["mm"]
    return typed(Quantity(ceil(least.in_unit(u) / step) * step * u.factor, least.kind, u, like.why))


def find(context: Context) -> Iterator[Finding]:
    factor = context.practice.limit("joint-variation-factor")
    for delivery in context.job.deliveries:
        # What goes back to the maker needs no wider joint.
        if not sides(delivery) or delivery.tile.mosaic or beyond(context, delivery) is not None:
            continue
        name, measured = max(sides(delivery), key=lambda side: spread(side[1]).value)
        vary = spread(measured)
        least = work("factor * difference", "mm", source="joint by difference in size", factor=factor, difference=vary)
        for surface, covering in coverings(context, delivery.tile):
            span = said_at(covering.joint)
            if span is None or covering.joint.value >= least.value:
                continue
            low, text = said_at(measured[0]), written(least, covering.joint)
            yield RULE.at(
                (surface.id,),
                span,
                f"{called(delivery.tile)} came with {name}s that differ by {both(vary)}: a joint of "
                f"{both(covering.joint)} on {context.name(surface)} does not take that up.",
                label="too narrow for them",
                secondary=(Label(low, "measured"),) if low is not None else (),
                help=f"Write `joint {text}` or more, or sort the tiles and measure again.",
                notes=(cited(factor), reckoned("Joint", least)),
                fixes=(Fix(f"write {text}", (Edit(span, text),)),),
            )


RULE = Rule(
    "T2443",
    "joint-too-narrow-for-size-spread",
    Severity.WARNING,
    "A joint that does not take up how the tiles vary",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; measured width 297 to 298.2; measured height 297.4 to 298
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 4
delivery wall-tile 2026-03-02; measured width 297 to 298.2; measured height 297.4 to 298
""",
    limits=("joint-variation-factor", "rectified-size-share", "rectified-size-max"),
)
