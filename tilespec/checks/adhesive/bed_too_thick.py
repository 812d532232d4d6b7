"""Adhesive is no levelling material: a thick bed shrinks as it sets, pulls tiles out of plane and keeps its water for weeks. A
foundation for tile training in the United States gives 1/4 in (6.4 mm) as the most after bedding for thin-bed mortar, 1/2 in
(12.7 mm) for mortar for large and heavy tiles; elsewhere those figures are common practice.

Level the base first, `build-up leveller 6, bed 4`, or say in a deviation which adhesive may be laid thicker by its data sheet.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.bed import planned
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for floor, bed in planned(context):
        heating = context.room(floor).heating
        if floor.field is None or heating is not None and heating.kind == "mat":
            continue  # a mat lies in the adhesive, which covers it
        large = floor.field.tile.long_side.value >= context.practice.limit("bed-large-edge").value
        most = context.practice.limit("bed-max-large" if large else "bed-max")
        if bed.value <= most.value:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(said_at(bed), floor.span),
            f"The build-up of {context.name(floor)} has a bed of {both(bed)}; adhesive under "
            f"{'large tiles' if large else 'tiles of this size'} is {both(most)} at most, and no levelling material.",
            label="too thick",
            help="Put a `leveller` into the build-up and write the bed that is left.",
            notes=(cited(most),),
        )


RULE = Rule(
    "T2123",
    "bed-too-thick",
    Severity.WARNING,
    "A bed that is used to level the base",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  build-up bed 8
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  build-up bed 5
  tile floor-tile; joint 3
""",
    limits=("bed-max", "bed-max-large", "bed-large-edge"),
)
