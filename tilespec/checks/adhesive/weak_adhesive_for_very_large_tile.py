"""Panels with an edge over 1200 mm gather all the movement between few joints, and their own stiffness lets none of it through.
Common practice, from memory: C2 S2 (EN 12004), or C2 S1 where the maker of the adhesive approves the whole system in writing.

Name an adhesive of class C2 S2 for the tile; where the maker approves S1, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, f"an edge of {both(found.bedded.tile.long_side)}", "too stiff for a very large tile")


RULE = Rule(
    "T2112",
    "weak-adhesive-for-very-large-tile",
    Severity.WARNING,
    "A very large tile in an adhesive that gives too little",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive flex-set class C2TE S1; pack 25 kg
tile wall-tile 1300x600x9 porcelain rectified; weight 18 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
adhesive stretch-set class C2TE S2; pack 20 kg
tile wall-tile 1300x600x9 porcelain rectified; weight 18 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("adhesive-very-large", "very-large-edge"),
)
