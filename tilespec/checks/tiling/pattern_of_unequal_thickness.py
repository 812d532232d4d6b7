"""Two sizes laid in one pattern share one combed bed: where one tile is thinner, every joint between them becomes a step. NHBC
Standards 9.1.7 accept 1 mm for joints up to 6 mm, ANSI A108.02 1/32 in on top of the tile's own warp.

Choose sizes of one series and one thickness, or write both thicknesses as the data sheets give them.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import work


def find(context: Context) -> Iterator[Finding]:
    most = context.practice.limit("lippage-max")
    for surface in context.job.tiled:
        for covering in surface.coverings:
            first, second = covering.tile, covering.pattern.second
            if second is None:
                continue
            thick, thin = sorted((first.thickness, second.thickness), key=lambda q: -q.value)
            step = work("thick - thin", "mm", source="difference of the tiles", thick=thick, thin=thin)
            if step.value <= most.value:
                continue
            yield RULE.at(
                (surface.id,),
                context.span(covering.pattern.span, covering.span, surface.span),
                f"{called(first)} on {context.name(surface)} is {both(first.thickness)} thick and {called(second)} "
                f"{both(second.thickness)}: their joints get steps of {both(step)}.",
                label="laid in one bed",
                secondary=(Label(second.span, "the other tile"),) if second.span is not None else (),
                help="Choose tiles of one thickness, or correct it from the data sheets.",
                notes=(cited(most),),
            )


RULE = Rule(
    "T2421",
    "pattern-of-unequal-thickness",
    Severity.WARNING,
    "Tiles of unequal thickness in one pattern",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile large 400x400x9 porcelain
tile small 200x200x7 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile large; joint 3; modular with small
""",
    good="""\
tile large 400x400x9 porcelain
tile small 200x200x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile large; joint 3; modular with small
""",
    limits=("lippage-max",),
)
