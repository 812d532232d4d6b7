"""ISO 11600 gives a sealant the share of its width that it may move: 25, 20, 12.5 or 7.5 %. Over a joint of the structure the
text of BS 5385 as reported asks for class 25 where it moves often and for 20 at the least; a weaker one tears at its edge
within a season, and the joint leaks.

Take a sealant of class 20 or 25 there, low modulus (`25LM`), and name it on the surface.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import pairs
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("sealant-movement-min")
    for surface, below, above in pairs(context):
        sealant = surface.product("sealant")
        if above is None or sealant is None or sealant.generic or sealant.movement is None:
            continue
        if sealant.movement.value >= least.value:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(said_at(sealant.movement), sealant.span, above.span),
            f"Sealant {sealant.name} moves by {both(sealant.movement)} of its width and goes over a joint of the base of "
            f"{context.name(surface)}: {both(least)} at least.",
            label="moves too little",
            secondary=(Label(below.span, "over this joint"),) if below.span is not None else (),
            help="Take a sealant of class 20 or 25, for example `class XS1 25LM`.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2712",
    "sealant-class-low-over-structural-joint",
    Severity.WARNING,
    "A sealant too stiff for a joint of the structure",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
sealant own-seal class XS1 12.5E; neutral; pack 310 mL
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  structural joint 1.8 from wall D; width 8
  movement joint 1.8 from wall D; width 8
""",
    good="""\
sealant own-seal class XS1 25LM; neutral; pack 310 mL
tile floor-tile 300x300x9 porcelain
floor 3.6 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  structural joint 1.8 from wall D; width 8
  movement joint 1.8 from wall D; width 8
""",
    limits=("sealant-movement-min",),
)
