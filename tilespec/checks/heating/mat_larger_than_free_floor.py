"""A heating mat is never cut shorter and never laid double: its heating wire has the length that its resistance needs, and
where it crosses itself it burns through. It has to fit on the floor that is left free of baths, trays, fixed units and the
strip along the walls (makers' instructions agree on it; common practice).

Choose the next smaller mat, whole mats side by side, or a loose cable. What stands on the floor is said as `fixture`, so that
no heating comes below it. Layout and connection are a licensed electrician's.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.heating.readings import electric
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import Kind


def find(context: Context) -> Iterator[Finding]:
    edge = context.practice.limit("heating-edge-distance")
    for m in context.takeoff.heating if context.takeoff is not None else ():
        room = next(r for r in context.job.rooms if r.name == m.room)
        heating, floor = electric(room), room.floor
        if heating is None or floor is None or heating.kind != "mat" or heating.product.generic:
            continue
        pack = heating.product.pack
        if pack is None or pack.kind is not Kind.AREA or pack.value <= m.free_area.value:
            continue
        yield RULE.at(
            (floor.id,),
            context.span(said_at(pack), heating.span, floor.span),
            f"Heating {heating.product.name} covers {both(pack)}, and only {both(m.free_area)} of {context.name(floor)} is "
            "free for it.",
            label="does not fit",
            secondary=(Label(heating.span, "laid here"),) if heating.span is not None else (),
            help=f"Choose a mat of {both(m.free_area)} or less: a mat is never cut and never laid double.",
            notes=(reckoned("Free floor", m.free_area), cited(edge)),
        )


RULE = Rule(
    "T2624",
    "mat-larger-than-free-floor",
    Severity.ERROR,
    "A heating mat that does not fit on the floor",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
heating warm-mat mat screened; pack 5 m2; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    good="""\
heating warm-mat mat screened; pack 3.5 m2; output 100 W/m2; voltage 230 V
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  heating warm-mat; sensor at wall B
  tile floor-tile; joint 3
""",
    limits=("heating-edge-distance",),
)
