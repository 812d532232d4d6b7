"""A rectified tile is ground to size so that a narrow joint runs straight. ANSI A137.1 lets each side lie within 0.25 % of
the average, and no more than 0.03 in (0.8 mm) off it; what varies more was not ground, or not to one size.

Sort the tiles or send them back. Tiles that stay are not rectified ones: take the word out and give them the joint that they
need.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, reckoned, said_at
from tilespec.checks.tiling.came import middle, places, sides
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Delivery
from tilespec.quantity import Quantity, work


def beyond(context: Context, delivery: Delivery) -> tuple[str, Quantity, Quantity] | None:
    """A side of a rectified tile that varies too much: how far it lies off its middle, and the most."""
    share, most = context.practice.limit("rectified-size-share"), context.practice.limit("rectified-size-max")
    for name, measured in sides(delivery) if delivery.tile.rectified else ():
        off = work("(largest - smallest) / 2", "mm", source="off the middle", smallest=measured[0], largest=measured[1])
        allowed = work(
            "min(middle * share, most)", "mm", source="share of the size, to a most", middle=middle(measured), share=share,
            most=most,
        )
        if off.value > allowed.value:
            return name, off, allowed
    return None


def find(context: Context) -> Iterator[Finding]:
    for delivery in context.job.deliveries:
        found = beyond(context, delivery)
        if found is None:
            continue
        name, off, allowed = found
        low = next(q for n, q in sides(delivery) if n == name)[0]
        yield RULE.at(
            places(context, delivery.tile),
            context.span(said_at(low), delivery.span),
            f"The {name} of {called(delivery.tile)} lies up to {both(off)} off its middle; "
            f"{both(allowed)} is the most for a rectified tile.",
            label="varies too much",
            secondary=(Label(delivery.tile.span, "said to be rectified"),) if delivery.tile.span is not None else (),
            help="Sort them or send them back; or take `rectified` out and lay them with a wider joint.",
            notes=(cited(context.practice.limit("rectified-size-share")), reckoned("Most", allowed)),
        )


RULE = Rule(
    "T2444",
    "delivery-beyond-rectified-tolerance",
    Severity.WARNING,
    "Rectified tiles that vary more than ground ones do",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain rectified
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 6
delivery wall-tile 2026-03-02; measured width 297 to 298.8; measured height 297.8 to 298
""",
    good="""\
tile wall-tile 300x300x9 porcelain rectified
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 6
delivery wall-tile 2026-03-02; measured width 297.4 to 298.6; measured height 297.8 to 298
""",
    limits=("rectified-size-share", "rectified-size-max"),
    whole=True,
)
