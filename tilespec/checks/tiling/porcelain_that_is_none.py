"""Porcelain is what takes up 0.5 % of water or less (EN 14411, group BIa, as the trade press has it; impervious in ANSI
A137.1). A tile called porcelain with a higher figure is another one: adhesive, grout, sealing and frost then follow other
rules.

Look at the data sheet again: correct the absorption, or write `ceramic`.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, cited, said_at
from tilespec.checks.tiling.used import used
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    most = context.practice.limit("porcelain-absorption")
    for tile in context.job.tiles:
        if tile.body != "porcelain" or tile.absorption is None or tile.absorption.value <= most.value:
            continue
        yield RULE.at(
            used(context, tile),
            context.span(said_at(tile.absorption), tile.span),
            f"{called(tile)} is said to be porcelain and to take up {both(tile.absorption)} of water; porcelain takes up "
            f"{both(most)} at most.",
            label="no porcelain",
            help="Correct the figure from the data sheet, or write `ceramic` for `porcelain`.",
            notes=(cited(most),),
        )


RULE = Rule(
    "T2417",
    "porcelain-that-is-none",
    Severity.WARNING,
    "A porcelain that takes up too much water",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2; absorption 0.8 %
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2; absorption 0.5 %
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("porcelain-absorption",),
    whole=True,
)
