"""Tiles that are laid before they came: one of the two dates is wrong, or other tiles were laid than those whose shade,
caliber and size the delivery states. A second delivery of more tiles is no fault. Plain order of time, no source.

Correct the date of the delivery or of the record.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import about
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.checks.tiling.came import laid_with
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Delivery


def find(context: Context) -> Iterator[Finding]:
    first: dict[str, Delivery] = {}
    undated = {d.tile.name for d in context.job.deliveries if d.on is None}
    for delivery in context.job.deliveries:
        if delivery.on is not None and delivery.tile.name not in undated:
            known = first.get(delivery.tile.name)
            if known is None or known.on is None or delivery.on < known.on:
                first[delivery.tile.name] = delivery
    for delivery in first.values():
        for surface in laid_with(context, delivery.tile):
            for record in context.job.records:
                if record.kind.text != "tiling" or not about(record, surface) or delivery.on is None or record.on >= delivery.on:
                    continue
                yield RULE.at(
                    (surface.id,),
                    context.span(record.span),
                    f"{context.name(surface)} was tiled by {record.on}, and {called(delivery.tile)} came on {delivery.on}.",
                    label="before they came",
                    secondary=(Label(delivery.span, "this delivery"),) if delivery.span is not None else (),
                    help="Correct the date of this record, or that of the delivery.",
                )


RULE = Rule(
    "T2964",
    "tiled-before-delivery",
    Severity.WARNING,
    "Tiles laid before they were delivered",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-16; shade A1
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; shade A1
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
""",
    whole=True,
)
