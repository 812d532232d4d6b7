"""A timber floor bends under every step and swells with the weather; a stiff adhesive cracks away from it. Common practice,
from memory: C2 S1 (EN 12004), better S2, on a tile board or an uncoupling layer.

Name an adhesive of class C2 S1 or better for the floor.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "a timber floor", "too stiff on timber")


RULE = Rule(
    "T2117",
    "weak-adhesive-on-timber",
    Severity.WARNING,
    "A stiff adhesive on a timber floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive firm-set class C2TE; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up uncoupling 3, bed 4
  tile floor-tile; joint 3
""",
    good="""\
adhesive flex-set class C2TE S1; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base timber; joists 400 mm; boards 22 mm; span 2.4 m
  build-up uncoupling 3, bed 4
  tile floor-tile; joint 3
""",
    limits=("adhesive-timber",),
)
