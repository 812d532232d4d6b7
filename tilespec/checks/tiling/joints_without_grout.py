"""Open joints let water and dirt to the bed, and the edges of the tiles chip. Without a grout none is ordered or mixed for
this surface. Common practice, no source.

Take `grout none` out, or name the one that is meant. Where joints stay open on purpose, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        refused = surface.refusal("grout")
        if refused is None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(refused, surface.span),
            f"{context.name(surface)} is tiled and its joints get no grout.",
            label="no grout here",
            help="Take `grout none` out, or name one: `grout NAME`.",
            notes=("Common practice, no source.",),
        )


RULE = Rule(
    "T2454",
    "joints-without-grout",
    Severity.ERROR,
    "Joints with no grout",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; grout none
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
)
