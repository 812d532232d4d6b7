"""Above an edge of about 300 mm a wall tile bridges the bending of the board behind it, and a normal or a ready-mixed adhesive
loses hold at its corners. Common practice, from memory: class C2 of EN 12004 on walls from there, better S1.

Name an adhesive of class C2 or better for the tile, or leave its name out: a generic one of that class is then used.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, f"a wall tile of {both(found.bedded.tile.long_side)}", "too weak for this size")


RULE = Rule(
    "T2132",
    "weak-adhesive-for-wall-tile",
    Severity.WARNING,
    "A middling wall tile in a normal adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive stiff-set class C1T; pack 25 kg
tile wall-tile 400x250x8 ceramic; weight 15 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard unskimmed
  tile wall-tile; joint 3
""",
    good="""\
adhesive firm-set class C2TE; pack 25 kg
tile wall-tile 400x250x8 ceramic; weight 15 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard unskimmed
  tile wall-tile; joint 3
""",
    limits=("adhesive-wall-large", "plasterboard-small-edge"),
)
