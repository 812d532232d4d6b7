"""A wet floor can be within the limit and still be steeper than is comfortable: one stands askew on it, a stool rocks, and
the folds of the tiling show. 1:40 is often quoted as the steepest for BS 5385-3; two pages of the trade's press that cite the
standard print 1:35, so that what lies between is advice only. Families that print one figure (US, AU) have no such band.

Write a flatter fall; 1:60 is the usual aim. Where the drain's height forces the steeper one, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    good, most, usual = (context.practice.limit(k) for k in ("fall-good-max", "fall-max", "fall-usual"))
    for room in context.job.rooms:
        # Steeper than the limit is an error of its own.
        if room.fall is None or room.floor is None or not good.value < room.fall.slope.value <= most.value:
            continue
        slope = room.fall.slope
        span = said_at(slope)
        yield RULE.at(
            (room.floor.id,),
            context.span(span, room.fall.span, room.span),
            f"A fall of {both(slope)} on {context.name(room.floor)} is allowed ({both(most)} at most), but steeper than "
            f"{both(good)}, from which one feels it underfoot.",
            label="steep to stand on",
            help=f"Write `{typed(usual)}` where the drain's height lets you.",
            notes=(cited(good),),
            fixes=(Fix(f"write {typed(usual)}", (Edit(span, typed(usual)),)),) if span is not None else (),
        )


RULE = Rule(
    "T2040",
    "fall-steep",
    Severity.WARNING,
    "A fall that is steep to stand on",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:38 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:40 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    limits=("fall-good-max", "fall-max", "fall-usual"),
)
