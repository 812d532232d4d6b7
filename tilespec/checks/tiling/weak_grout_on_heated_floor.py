"""A heated floor dries its grout out again and again, and pulls at it with every change of temperature: a normal one cracks
along its edges and wears. Common practice, from memory: class CG2 WA of EN 13888, or reaction resin.

Name a grout of that class for the floor.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.checks.tiling.grouts import told, weak
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "a heated floor", "too weak over heating")


RULE = Rule(
    "T2415",
    "weak-grout-on-heated-floor",
    Severity.WARNING,
    "A normal grout on a heated floor",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
grout plain-fill class CG2W; pack 5 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    good="""\
grout hard-fill class CG2WA; pack 5 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8 heated
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    limits=("grout-heated-floor",),
)
