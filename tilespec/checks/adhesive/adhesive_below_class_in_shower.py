"""Where the tiling is wetted every day, a normal cement adhesive loses much of its bond, and on a membrane it has no pores to
hold by. Common practice: C2 of EN 12004 on the membrane of a shower, a bath or a wet floor. The Tile Association's guidance as
quoted also accepts C1 on walls, which holds for bases without a membrane.

Name an adhesive of class C2 or better for these tiles, or leave its name out: a generic one of that class is then used.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "a shower, a bath or a wet floor", "too weak where it is wet")


RULE = Rule(
    "T2120",
    "adhesive-below-class-in-shower",
    Severity.WARNING,
    "A normal adhesive in a shower",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive stiff-set class C1T; pack 25 kg
tile wall-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
adhesive firm-set class C2TE; pack 25 kg
tile wall-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("adhesive-wall-wet", "adhesive-floor-wet", "adhesive-dispersion-membrane"),
)
