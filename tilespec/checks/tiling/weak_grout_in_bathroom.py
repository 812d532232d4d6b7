"""On a bathroom floor and behind a basin, water stands in the joints for minutes every day, with soap and dirt in it; a normal
grout takes it up and stays stained. Common practice, from memory: class CG2 W of EN 13888, or reaction resin. BS 5385-3:2024,
as reported for paving, asks for CG2 or RG under foot with porcelain.

Name a grout of that class.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.checks.tiling.grouts import told, weak
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "a bathroom floor or a splash area", "stains")


RULE = Rule(
    "T2416",
    "weak-grout-in-bathroom",
    Severity.WARNING,
    "A normal grout where water splashes",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
grout plain-fill class CG1; pack 5 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    good="""\
grout tight-fill class CG2W; pack 5 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
""",
    limits=("grout-bathroom",),
)
