"""Porcelain takes up hardly any water, so that cement finds no pores to grow into: it holds by the polymer in the adhesive
alone. Common practice, from memory: class C2 of EN 12004 under porcelain and under every tile that takes up 0.5 % or less.

Name an adhesive of class C2 or better for the tile, or leave its name out: a generic one of that class is then used.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "porcelain", "too weak for porcelain")


RULE = Rule(
    "T2110",
    "weak-adhesive-for-porcelain",
    Severity.WARNING,
    "Porcelain in a normal adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive stiff-set class C1T; pack 25 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
adhesive firm-set class C2TE; pack 25 kg
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("adhesive-porcelain", "porcelain-absorption"),
)
