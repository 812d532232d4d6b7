"""Over heating pipes a thin screed cracks along them: it warms fast in stripes and has little section left. UK trade practice
from BS 8204, as restated: cement screed over pipes 65 mm in homes, 75 mm elsewhere.

Write the thickness as measured; where a special screed may be thinner by its data sheet, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("heated-screed-thickness-min")
    for room in context.job.rooms:
        floor, heating = room.floor, room.heating
        if floor is None or heating is None or heating.kind != "pipes" or floor.base.kind != "cement-screed":
            continue
        thick = floor.base.thickness
        if thick is None or thick.value >= least.value:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(said_at(thick), floor.base.span, floor.span),
            f"The screed of {context.name(floor)} is {both(thick)} thick and holds heating pipes; "
            f"{both(least)} is the least.",
            label="too thin over pipes",
            secondary=(Label(heating.span, "pipes in the screed"),) if heating.span is not None else (),
            help="Measure the screed, or have its designer confirm it and say so in a deviation.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2217",
    "heated-screed-too-thin",
    Severity.WARNING,
    "A screed too thin over heating pipes",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
heating loops pipes; output 80 W/m2
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 60 mm; laid 2025-10-01
  heating loops
  tile floor-tile; joint 3
""",
    good="""\
heating loops pipes; output 80 W/m2
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating loops
  tile floor-tile; joint 3
""",
    limits=("heated-screed-thickness-min",),
)
