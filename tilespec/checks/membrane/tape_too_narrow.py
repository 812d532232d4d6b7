"""The corner is where a membrane tears first. The tape in it has to be bonded well on both sides: common practice is about 50 mm
on each, as at the laps of the tape, so 100 mm in all. A narrow one peels off as the corner moves.

Take the wider tape of the membrane's system and write its width, or say in a deviation that the system is tested with this one.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.bays import stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("tape-width-min")
    for product in context.job.products:
        width = product.width
        if product.kind != "tape" or product.generic or width is None or not stated(width) or width.value >= least.value:
            continue
        yield RULE.at(
            tuple(s.id for s in context.job.surfaces if product in s.products),
            context.span(said_at(width), product.span),
            f"Tape {product.name} is {both(width)} wide: in the corners of the membrane it takes {both(least)} at least.",
            label="too narrow for a corner",
            help=f"Take one of {both(least)} or more, of the same system as the membrane.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2014",
    "tape-too-narrow",
    Severity.WARNING,
    "A sealing tape too narrow for a corner",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tape own-tape pack 10 m; width 60 mm
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
tape own-tape pack 10 m; width 120 mm
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("tape-width-min",),
    whole=True,
)
