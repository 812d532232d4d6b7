"""Sealant that sticks to the bottom of a joint as well as to its sides cannot stretch: it tears when they move apart. A backer
below it sets its depth and keeps it off the bottom; a flat tape that nothing sticks to does the same in a joint with no room.
Common practice, no source.

Take `backer none` out, or say in a deviation what keeps the sealant off the bottom.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        refused = surface.refusal("backer")
        # Without sealant there is nothing to back: told as that.
        if refused is None or surface.refusal("sealant") is not None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(refused, surface.span),
            f"The sealant on {context.name(surface)} gets no backer and sticks to the bottom of its joints.",
            label="no backer here",
            help="Take `backer none` out.",
            notes=("Common practice, no source.",),
        )


RULE = Rule(
    "T2720",
    "joint-without-backer",
    Severity.WARNING,
    "Sealant with nothing behind it",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; backer none
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
)
