"""A tile of 600 measures 597 or 598, as its joint belongs to the size that it is called by. From memory of EN 14411 the real
size lies within 2 % and 5 mm of the one that is written on the box; what is further off is another tile, or a mistake in
measuring.

Look at the boxes and measure again. If it is the tile that was ordered, correct its size where it is declared.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, reckoned, said_at
from tilespec.checks.tiling.came import middle, places, sides
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import work


def find(context: Context) -> Iterator[Finding]:
    share, most = context.practice.limit("work-size-share"), context.practice.limit("work-size-max")
    for delivery in context.job.deliveries:
        tile = delivery.tile
        for name, measured in sides(delivery):
            declared, real = (tile.width if name == "width" else tile.height), middle(measured)
            off = work("abs(declared - real)", "mm", source="off its name", declared=declared, real=real)
            allowed = work(
                "min(declared * share, most)", "mm", source="share of the size, to a most", declared=declared, share=share,
                most=most,
            )
            if off.value <= allowed.value or tile.mosaic:
                continue
            yield RULE.at(
                places(context, tile),
                context.span(said_at(measured[0]), delivery.span),
                f"{called(tile)} is {both(declared)} in {name} by its declaration, and what came measures {both(real)}.",
                label="another size",
                secondary=(Label(tile.span, "declared here"),) if tile.span is not None else (),
                help="Look at the boxes and measure again; if it is the tile, correct its size where it is declared.",
                notes=(cited(most), reckoned("Most", allowed)),
            )
            break


RULE = Rule(
    "T2446",
    "delivered-size-other-than-declared",
    Severity.WARNING,
    "A delivery that is not the size of the tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; measured width 291 to 291.4; measured height 291 to 291.4
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; measured width 297 to 297.4; measured height 297 to 297.4
""",
    limits=("work-size-share", "work-size-max"),
    whole=True,
)
