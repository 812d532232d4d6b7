"""A floor of plaster or a wall of screed is most likely a slip of the pen, and everything that follows from the base is then
wrong: priming, drying time, load, steps. This is a check of the spec against plain sense, without a source.

Write what the surface really is made of.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity
from tilespec.vocabulary import FLOORS_ONLY, WALLS_ONLY


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        base, floor = surface.base, surface.kind == "floor"
        if base.kind not in (WALLS_ONLY if floor else FLOORS_ONLY):
            continue
        words = base.words.text if base.words is not None else base.kind.replace("-", " ")
        yield RULE.at(
            (surface.id,),
            context.span(base.span, surface.span),
            f"The base of {context.name(surface)} is said to be {words}, which is the base of a {'wall' if floor else 'floor'}.",
            label="under a floor?" if floor else "on a wall?",
            help=f"Write what it is, for example `base cement {'screed' if floor else 'render'}`.",
        )


RULE = Rule(
    "T2219",
    "base-of-another-surface",
    Severity.WARNING,
    "The base of a wall under a floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
floor 2.4 x 1.8
  base cement render
  tile plain-tile; joint 3
""",
    good="""\
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
floor 2.4 x 1.8
  base concrete
  tile plain-tile; joint 3
""",
)
