"""A young screed or slab still shrinks and dries under the tiles. The least ages are for planning (NHBC Standards 9.3.5:
cement screed three weeks, concrete six; Germany: 28 days) and never replace the moisture test.

Begin later, or say in a deviation what makes this one ready sooner, for example a fast-drying screed by its data sheet.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.age import damp, young
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Severity

KINDS = ("cement-screed", "calcium-sulfate-screed", "concrete")


def find(context: Context) -> Iterator[Finding]:
    dry = {found.surface.id: found.ready for found in damp(context)}
    for found in young(context, KINDS):
        base, name, later = found.surface.base, context.name(found.surface), dry.get(found.surface.id)
        words = base.words.text if base.words is not None else base.kind.replace("-", " ")
        yield RULE.at(
            (found.surface.id,),
            context.span(base.span, found.surface.span),
            f"{name} is {words}, {both(found.age)} old when the job begins; "
            f"it takes {both(found.least)}.",
            label="too young",
            notes=(cited(found.least),),
            help=f"It is old enough on {found.ready}"
            + (f" and may be dry on {later}" if later is not None and later > found.ready else "")
            + f": tile {name} then or later.",
        )


RULE = Rule(
    "T2206",
    "screed-too-young",
    Severity.WARNING,
    "A screed or slab too young to tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2026-03-01
  tile plain-tile; joint 3
""",
    good="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-12-01
  tile plain-tile; joint 3
""",
    limits=("age-cement-screed", "age-concrete"),
)
