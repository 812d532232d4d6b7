"""The tiling holds as well as the weakest layer under it. An adhesive of class C2 is tested to 1.0 N/mm2, one of C1 to 0.5 (EN
12004-1); a base that pulls apart at less gives way before the adhesive does, whatever the adhesive costs. A dusty screed, a burnt
plaster and old paint do.

Take the weak layer off, or bind it with a primer that is made for it and pull again: the last reading of a surface counts. An
adhesive of a lower class does not mend a weak base.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import standing
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product, Surface
from tilespec.quantity import Quantity


def needed(context: Context, surface: Surface) -> tuple[Quantity, Product | None]:
    """What the adhesive in use is tested to; what the least of them is tested to where none of cement was chosen."""
    improved = next((p for p in surface.products if p.kind == "adhesive" and not p.generic and p.cls[:1] == ("C2",)), None)
    return context.practice.limit("adhesion-C2" if improved is not None else "adhesion-C1"), improved


def find(context: Context) -> Iterator[Finding]:
    for found in standing(context, "substrate-strength"):
        surface = found.surface
        least, adhesive = needed(context, surface)
        if found.value.value >= least.value:
            continue
        holds = f"adhesive {adhesive.name} holds" if adhesive is not None else "the weakest class of cement adhesive holds"
        yield RULE.at(
            (surface.id,),
            context.span(said_at(found.value), found.record.span),
            f"The base of {context.name(surface)} pulls apart at {both(found.value)}; {holds} {both(least)}.",
            label="the weakest layer",
            secondary=(Label(surface.base.span, "this base"),) if surface.base.span is not None else (),
            help="Take the weak layer off or bind it, pull again and add the new record.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2241",
    "base-weaker-than-adhesive",
    Severity.WARNING,
    "A base that gives way before its adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive firm-grip class C2TE S1; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-strength on floor 2026-03-06 by "A. Finch"; reading 0.7 N/mm2
""",
    good="""\
adhesive firm-grip class C2TE S1; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-strength on floor 2026-03-06 by "A. Finch"; reading 1.2 N/mm2
""",
    limits=("adhesion-C1", "adhesion-C2"),
)
