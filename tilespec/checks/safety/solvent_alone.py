"""Solvent and isocyanate vapours are heavier than air and fill a small room from the floor up; whoever is overcome in there
alone is found late. From memory of the guidance on lone work: no solvents and no coating of closed rooms by one person.

Put a second person in the crew who looks in, or take a product that is free of solvent. Doors open, a fan in the window, no
flame. It is about lives: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, said_at
from tilespec.diagnostics.model import Label, Severity

_VAPOURS = ("solvent", "polyurethane")


def find(context: Context) -> Iterator[Finding]:
    crew = context.job.crew
    alone = [q for _, q in crew if q.value]
    at = said_at(alone[0]) if alone else None
    # A crew that the spec does not say may be larger.
    if at is None or sum(q.value for q in alone) > 1:
        return
    for product in context.job.products:
        word = next((w for w in _VAPOURS if w in product.flags), None)
        if word is None or product.generic:
            continue
        yield RULE.at(
            tuple(s.id for s in context.job.tiled if product in s.products) or tuple(r.name for r in context.job.rooms),
            at,
            f"One person is in the crew, and {product.kind} {product.name} gives off the vapours of "
            f"{'a solvent' if word == 'solvent' else 'isocyanates'}.",
            label="alone with it",
            secondary=(Label(product.span, word),) if product.span is not None else (),
            help="Add somebody who looks in, `crew tiler 1, helper 1`, or take a product without it.",
        )


RULE = Rule(
    "T2826",
    "solvent-alone",
    Severity.WARNING,
    "One person alone with vapours",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  crew tiler 1
primer quick-dry solvent; pack 5 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
job "Bathroom"
  crew tiler 1, helper 1
primer quick-dry solvent; pack 5 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    whole=True,
)
