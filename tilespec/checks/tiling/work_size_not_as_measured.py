"""A work size that the spec says goes before what was measured: the set-out is reckoned with it. Where the tiles that came are
smaller or larger, each course is off by a little more, and over a wall that is a joint or a cut. Arithmetic, no source.

Take the work size out, so that the measured middle counts, or write what was measured.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, said_at
from tilespec.checks.tiling.came import middle, places, sides
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for delivery in context.job.deliveries:
        tile = delivery.tile
        for name, measured in sides(delivery):
            said = tile.work_width if name == "width" else tile.work_height
            span = said_at(said)
            if said is None or span is None or measured[0].value <= said.value <= measured[1].value:
                continue
            came = said_at(measured[0])
            yield RULE.at(
                places(context, tile),
                span,
                f"The set-out takes {called(tile)} as {both(said)} in {name}; what came measures "
                f"{both(measured[0])} to {both(measured[1])}.",
                label="not what came",
                secondary=(Label(came, "measured"),) if came is not None else (),
                help=f"Take `work size` out, or write the measured {both(middle(measured))}.",
            )
            break


RULE = Rule(
    "T2447",
    "work-size-not-as-measured",
    Severity.WARNING,
    "A work size that the delivery does not have",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain; work size 299 x 299
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; measured width 297 to 297.6; measured height 297 to 297.6
""",
    good="""\
tile wall-tile 300x300x9 porcelain; work size 297.4 x 297.4
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; measured width 297 to 297.6; measured height 297 to 297.6
""",
    whole=True,
)
