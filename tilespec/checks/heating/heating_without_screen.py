"""Tilers drill, and owners fix things to floors. A heating element in a wet room has an earthed screen or sheath round it, or
an earthed metal grid over it, so that a nail that meets it trips the device at once, unless it runs at extra-low voltage (IEC
60364-7-701, 701.753, from memory: guidance, and the electrician's to decide).

Say `screened` at the product if its sheet says so, choose one that is, or give the earthed grid as the reason for a
deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import electric, extra_low
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("heating-screen")
    for room in context.job.rooms:
        heating, floor = electric(room), room.floor
        if heating is None or floor is None or heating.product.generic or not (room.showers or room.baths or room.drains):
            continue
        if "screened" in heating.product.flags or extra_low(heating, context):
            continue
        product = heating.product
        yield RULE.at(
            (floor.id,),
            context.span(product.span, heating.span, floor.span),
            f"Heating {product.name} is not said to be screened; in {context.name(floor)} of a wet room an earthed screen "
            "surrounds it.",
            label="no earthed screen said",
            secondary=(Label(heating.span, "laid here"),) if heating.span is not None and product.span is not None else (),
            help=f"Write `screened` if its data sheet says so (`heating {product.name} {heating.kind} screened`), or ask the "
            "electrician what earths it.",
            notes=(cited(asked),),
        )


RULE = Rule(
    "T2622",
    "heating-without-screen",
    Severity.WARNING,
    "A heating element without an earthed screen",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
heating warm-mat mat; output 100 W/m2; voltage 230 V
tile floor-tile 100x100x9 porcelain; barefoot class B
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    good="""\
heating warm-mat mat screened; output 100 W/m2; voltage 230 V
tile floor-tile 100x100x9 porcelain; barefoot class B
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    limits=("heating-screen", "extra-low-voltage"),
)
