"""Gypsum plaster takes about four weeks to dry, cement render two to shrink (trade practice; BS 5385-1 for render). Tiles
lock the water in and the plaster stays weak.

Begin later, or say in a deviation how it was found to be dry.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.age import young
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Severity

KINDS = ("gypsum-plaster", "cement-render", "gypsum-plasterboard")


def find(context: Context) -> Iterator[Finding]:
    for found in young(context, KINDS):
        base = found.surface.base
        words = base.words.text if base.words is not None else base.kind.replace("-", " ")
        yield RULE.at(
            (found.surface.id,),
            context.span(base.span, found.surface.span),
            f"{context.name(found.surface)} is {words}, {both(found.age)} old when the job begins; "
            f"it takes {both(found.least)}.",
            label="too young",
            notes=(cited(found.least),),
            help=f"It is old enough on {found.ready}: tile {context.name(found.surface)} then or later.",
        )


RULE = Rule(
    "T2207",
    "plaster-too-young",
    Severity.WARNING,
    "Plaster or render too young to tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base gypsum plaster; laid 2026-03-01
  tile plain-tile; joint 3
""",
    good="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base gypsum plaster; laid 2026-01-01
  tile plain-tile; joint 3
""",
    limits=("age-gypsum-plaster", "age-cement-render"),
)
