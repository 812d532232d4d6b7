"""Wood swells, moves and rots where water gets to it, and a wet-room floor is wet for all its life. BS 5385-3:2024, as reported
in the trade press, does not recommend timber in floors that are wet or often damp, and asks for a layer between wood sheets and
tiles anywhere.

Take another base where the floor gets wet, or put the shower on a tray; where a designer answers for the deck, write so in a
deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.checks.wet import soaked_zones
from tilespec.diagnostics.model import Severity

KEY = "timber-floor-wet"


def find(context: Context) -> Iterator[Finding]:
    if context.practice.entry(KEY) is None:
        return  # other families accept timber below a membrane
    for surface in context.job.tiled:
        if surface.kind != "floor" or surface.base.kind not in ("timber", "plywood") or not soaked_zones(context, surface):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(surface.base.span, surface.span),
            f"{context.name(surface)} gets wet, and its base is timber.",
            label="timber",
            help="Give the wet part another base or a tray, or say in a deviation who answers for the deck.",
            notes=(cited(context.practice.word(KEY)),),
        )


RULE = Rule(
    "T2212",
    "timber-in-wet-area",
    Severity.WARNING,
    "Timber under a wet floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  practice UK
tile floor-tile 100x100x8 porcelain; pendulum 40
floor 2.4 x 1.8
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up board 12, bed 4
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    good="""\
job "Bathroom"
  practice UK
tile floor-tile 100x100x8 porcelain; pendulum 40
floor 2.4 x 1.8
  base concrete
  build-up board 12, bed 4
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
""",
    limits=("timber-floor-wet",),
)
