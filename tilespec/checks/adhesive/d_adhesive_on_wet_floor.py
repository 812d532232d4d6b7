"""A ready-mixed dispersion adhesive (class D of EN 12004) hardens by drying and softens again when it stays wet. On a floor
that is wetted it lets go. Common practice: C2, or R2, on shower and wet-room floors.

Name an adhesive of class C2 (or R2) for the floor.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.declared import instead, where_named
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called, cited
from tilespec.checks.wet import soaked_zones
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.resolve import adhesive_for


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("adhesive-floor-wet")
    for surface in context.job.tiled:
        if surface.kind != "floor" or not soaked_zones(context, surface):
            continue
        for covering in surface.coverings:
            adhesive = adhesive_for(surface, covering.tile)
            if adhesive is None or not (adhesive.cls[:1] in (("D1",), ("D2",)) or "dispersion" in adhesive.flags):
                continue
            yield RULE.at(
                (surface.id,),
                context.span(covering.span, surface.span),
                f"{called(covering.tile)} on the wet floor is laid in {adhesive.name}, a dispersion: it softens in water.",
                label="walked on wet",
                secondary=(
                    *((Label(adhesive.span, "this adhesive"),) if adhesive.span is not None else ()),
                    *where_named(surface, adhesive),
                ),
                help=instead(
                    context, surface, adhesive,
                    f"an adhesive of class {asked.text}", f"class {' '.join(asked.choices[0])}", "for floor",
                ),
                notes=(cited(asked),),
            )


RULE = Rule(
    "T2102",
    "d-adhesive-on-wet-floor",
    Severity.ERROR,
    "A dispersion adhesive on a wet floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive ready-mix class D2TE; pack 15 kg
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
""",
    good="""\
adhesive flex-set class C2TE S1; pack 25 kg
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
""",
    limits=("adhesive-floor-wet",),
)
