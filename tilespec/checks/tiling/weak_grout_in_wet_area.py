"""A normal grout takes up water like a sponge: in a shower it stays dark, feeds mould and carries water behind the tiles.
Common practice, from memory: class CG2 W of EN 13888 (takes up little water) on wet walls, CG2 WA (hard wearing too) on wet
floors, or reaction resin. No grout is a waterproof layer: that is the membrane.

Name a grout of that class, or leave its name out: a generic one is then used.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.checks.tiling.grouts import told, weak
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "a place that is wetted", "drinks water")


RULE = Rule(
    "T2414",
    "weak-grout-in-wet-area",
    Severity.WARNING,
    "A grout that drinks, in a shower",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
grout plain-fill class CG1; pack 5 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
grout tight-fill class CG2W; pack 5 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("grout-wet", "grout-bathroom"),
)
