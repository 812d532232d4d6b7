"""One tile tells little: the first of the morning is bedded well, the last before noon in adhesive that has skinned. ANSI A108
has three tiles or sheets lifted, in different places, and takes their average.

Lift as many as the practice asks for on each surface, and write how many: `samples 3`. Records of one surface count together.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import standing
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity.total import total
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("contact-samples")
    for surface in context.job.tiled:
        records = [f.record for f in standing(context, "contact") if f.surface is surface]
        counts = [(f"record {n}", r.samples) for n, r in enumerate(records, 1) if r.samples is not None]
        # A record that does not say how many were lifted may make up for it.
        if not counts or len(counts) < len(records):
            continue
        lifted = total(counts, "count", of="tiles lifted")
        if lifted.value >= least.value:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(said_at(counts[-1][1]), records[-1].span, surface.span),
            f"{both(lifted)} {'tile was' if lifted.value == 1 else 'tiles were'} lifted on {context.name(surface)} "
            f"to look at the adhesive; {both(least)} show how it was laid.",
            label="too few to judge by",
            help=f"Lift {both(least)} in different places and write their average with `samples {typed(least)}`.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2141",
    "too-few-tiles-lifted",
    Severity.WARNING,
    "Too few tiles lifted to judge the bed",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record contact on wall A 2026-03-12 by "A. Finch"; work by "J. Rook"; reading 96 %; samples 1
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record contact on wall A 2026-03-12 by "A. Finch"; work by "J. Rook"; reading 96 %; samples 3
""",
    limits=("contact-samples",),
)
