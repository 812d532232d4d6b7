"""A heated floor grows and shrinks every day. Guidance of The Tile Association and the German rules with DIN 18560-2 keep a
bay to 40 m2 and 8 m a side; the TCNA Handbook (EJ171) gives 12 ft (3.7 m) for floors in the sun or the wet, and practice
counts heated ones with them. Beyond that tiles come loose, and the screed cracks where it likes.

Divide the floor with movement joints that go through tile, bed and screed. Heating pipes cross them in sleeves, and no mat
or cable crosses them: agree their place with the heating's designer.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import bays, heated, reach, stricter, too_long, where_to_cut
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import Quantity


def find(context: Context) -> Iterator[Finding]:
    limit = context.practice.limit
    most = stricter(limit("movement-spacing-heated"), limit("movement-spacing-floor"))
    area, width = limit("movement-bay-heated"), limit("perimeter-joint-heated")
    for surface in context.job.tiled:
        if not heated(context, surface):
            continue
        heating = context.room(surface).heating
        near = (Label(heating.span, "it is heated"),) if heating is not None and heating.span is not None else ()
        if (found := too_long(surface, most)) is not None:
            bay, n = found
            yield RULE.at(
                (surface.id,),
                context.where(surface),
                f"{context.name(surface)} is heated and runs {both(bay.sides[n])} {reach(bay, n)}: {both(most)} at most.",
                label="too long a bay",
                secondary=near,
                help=f"Divide it, {where_to_cut(context, surface, bay, n, most, width)}.",
                notes=(cited(most),),
            )
            continue
        large = max(bays(surface), key=lambda b: b.area, default=None)
        if large is None or large.area <= area.value:
            continue
        n = large.longer
        side = large.sides[n]
        half = Quantity(side.value / 2, side.kind, side.shown, side.why)
        yield RULE.at(
            (surface.id,),
            context.where(surface),
            f"{context.name(surface)} is heated and has a bay of {both(Quantity(large.area, area.kind, area.shown, area.why))}: "
            f"{both(area)} at most.",
            label="too large a bay",
            secondary=near,
            help=f"Divide it, {where_to_cut(context, surface, large, n, half, width)}.",
            notes=(cited(area),),
        )


RULE = Rule(
    "T2703",
    "heated-bay-too-large",
    Severity.ERROR,
    "A bay of a heated floor that is too large",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 600x600x9 porcelain; barefoot class B
floor 9 x 5.1 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 600x600x9 porcelain; barefoot class B
floor 9 x 5.1 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating pipes
  tile floor-tile; joint 3
  movement joint 4.5 from wall D; width 10
""",
    limits=("movement-spacing-heated", "movement-spacing-floor", "movement-bay-heated", "perimeter-joint-heated"),
)
