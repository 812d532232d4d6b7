"""A wet floor that is too flat holds water; one that is too steep is unsafe to stand on and hard to tile. Each family has its
range: BS 5385-3 as reported 1:80 to 1:35, IRC P2709.1 1/4 to 1/2 in per foot, the ABCB Housing Provisions 1:80 to 1:50.

Write a fall within the range; 1:60 (US 1:48) is the usual aim. Where the drain's height forces another fall, say so in a
deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    low, high, usual = (context.practice.limit(k) for k in ("fall-min", "fall-max", "fall-usual"))
    for room in context.job.rooms:
        if room.fall is None or room.floor is None:
            continue
        slope = room.fall.slope
        flat = slope.value < low.value
        if not flat and slope.value <= high.value:
            continue
        span = said_at(slope)
        yield RULE.at(
            (room.floor.id,),
            context.span(span, room.fall.span, room.span),
            f"A fall of {both(slope)} is {'flatter' if flat else 'steeper'} than the practice allows "
            f"({both(low)} to {both(high)}).",
            label="water would stand" if flat else "too steep to stand on",
            help=f"Write `{typed(usual)}`.",
            notes=(cited(low if flat else high),),
            fixes=(Fix(f"write {typed(usual)}", (Edit(span, typed(usual)),)),) if span is not None else (),
        )


RULE = Rule(
    "T2005",
    "fall-outside-limits",
    Severity.ERROR,
    "A fall that is too flat or too steep",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:120 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    limits=("fall-min", "fall-max", "fall-usual"),
)
