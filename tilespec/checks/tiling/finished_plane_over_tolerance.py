"""A finished face that bellies shows against every straight thing that is fixed to it, and a shower screen does not close on it.
NHBC Standards 9.1.7 take 3 mm under a straightedge of 2 m as the most, a guide to tolerances of New South Wales 4 mm; DIN 18202
has a table by length.

Lay again what is off while it can be done, or agree it with the client and say so in a deviation. Say the straightedge beside the
reading: `reading 2 mm; over 2 m`. The last reading of a surface counts.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import standing
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, said_at
from tilespec.checks.straightedge import allowed
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in standing(context, "finished-plane"):
        surface, record = found.surface, found.record
        most = allowed(context, record, "finished-plane")
        if found.value.value <= most.gap.value:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(said_at(found.value), record.span),
            f"The finished face of {context.name(surface)} is {both(found.value)} off under {both(most.over)}; "
            f"{both(most.gap)} is the most.",
            label="not flat enough",
            help="Lay again what is off and add the new record, or agree it with the client.",
            notes=most.notes,
        )


RULE = Rule(
    "T2441",
    "finished-plane-over-tolerance",
    Severity.WARNING,
    "A finished face that is not flat enough",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record finished-plane on wall A 2026-03-14 by "A. Finch"; work by "J. Rook"; reading 4 mm; over 2 m
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record finished-plane on wall A 2026-03-14 by "A. Finch"; work by "J. Rook"; reading 2 mm; over 2 m
""",
    limits=("finished-plane", "finished-plane-length", "finished-plane-table"),
)
