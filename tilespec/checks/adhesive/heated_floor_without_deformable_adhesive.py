"""A heated floor grows and shrinks every day. A deformable adhesive (S1 or S2 of EN 12004) gives way; a stiff one shears off
and the tiles come loose or crack. Common practice, widely published: C2 S1 at least.

Name an adhesive of class C2 S1 or better for the floor, or leave its name out: a generic one of that class is then used.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.declared import instead, where_named
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.product import meets
from tilespec.job.resolve import adhesive_for


def find(context: Context) -> Iterator[Finding]:
    asked = context.practice.word("adhesive-heated-floor")
    for room in context.job.rooms:
        if room.heating is None or room.floor is None:
            continue
        for covering in room.floor.coverings:
            adhesive = adhesive_for(room.floor, covering.tile)
            if adhesive is None or any(meets(adhesive, choice) for choice in asked.choices):
                continue
            if adhesive.cls and adhesive.cls[0].startswith("A118"):
                continue  # of a standard that has no such class: its data sheet decides
            cls = " ".join(adhesive.cls) or "no stated class"
            yield RULE.at(
                (room.floor.id,),
                context.span(covering.span, room.floor.span),
                f"{called(covering.tile)} on the heated floor is laid in {adhesive.name} ({cls}); "
                f"a heated floor takes {asked.text} at least.",
                label="heated from below",
                secondary=(
                    *((Label(adhesive.span, "this adhesive"),) if adhesive.span is not None else ()),
                    *where_named(room.floor, adhesive),
                ),
                notes=(cited(asked),),
                help=instead(
                    context, room.floor, adhesive,
                    f"an adhesive of class {asked.text} for the floor", f"class {asked.text}", "for floor",
                ),
            )


RULE = Rule(
    "T2101",
    "heated-floor-without-deformable-adhesive",
    Severity.ERROR,
    "A heated floor laid in stiff adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive stiff-set class C2TE; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    good="""\
adhesive flex-set class C2TE S1; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    limits=("adhesive-heated-floor",),
)
