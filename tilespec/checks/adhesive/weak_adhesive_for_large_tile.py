"""The base under a large tile shrinks and warms by a measure that the tile does not follow, and there are few joints to take it
up: the adhesive has to give. Common practice, from memory: C2 S1 (EN 12004) above an edge of 600 mm, the edge from which BS
5385-1:2018 as reported calls a tile large; option E helps, because a large tile takes time to bed.

Name an adhesive of class C2 S1 or better for the tile.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, f"an edge of {both(found.bedded.tile.long_side)}", "too stiff for a large tile")


RULE = Rule(
    "T2111",
    "weak-adhesive-for-large-tile",
    Severity.WARNING,
    "A large tile in a stiff adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive firm-set class C2TE; pack 25 kg
tile wall-tile 800x400x9 porcelain rectified; weight 21 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
adhesive flex-set class C2TE S1; pack 25 kg
tile wall-tile 800x400x9 porcelain rectified; weight 21 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("adhesive-large-format", "large-format-edge"),
)
