"""A tile is held by its adhesive. Without one nothing is ordered, mixed or combed on for this surface, and its weight, bed and
levels are left out of the print. Common practice, no source.

Take `adhesive none` out, or name the one that is meant. Where tiles are held in another way (hung, laid loose), say so in a
deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        refused = surface.refusal("adhesive")
        if refused is None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(refused, surface.span),
            f"{context.name(surface)} is tiled and gets no adhesive.",
            label="no adhesive here",
            help="Take `adhesive none` out, or name one: `adhesive NAME`.",
            notes=("Common practice, no source.",),
        )


RULE = Rule(
    "T2133",
    "tiles-without-adhesive",
    Severity.ERROR,
    "Tiles with no adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; adhesive none
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
)
