"""Glass takes up no water at all and grows more with heat than the wall behind it: a normal cement adhesive, or one that
hardens by drying, lets go of its smooth back. Common practice, from memory: C2 of EN 12004, or reaction resin, as the maker of
the glass says.

Name an adhesive of class C2 or R2 for the tile, white where light passes through.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "glass", "too weak for glass")


RULE = Rule(
    "T2118",
    "weak-adhesive-for-glass",
    Severity.WARNING,
    "Glass in a weak adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive stiff-set class C1T; colour white; pack 25 kg
tile gem 300x300x6 mosaic glass; weight 14 kg/m2; chips 25 x 25
wall A 2.4 x 2.4
  base cement render
  tile gem; joint 2
""",
    good="""\
adhesive firm-set class C2TE; colour white; pack 25 kg
tile gem 300x300x6 mosaic glass; weight 14 kg/m2; chips 25 x 25
wall A 2.4 x 2.4
  base cement render
  tile gem; joint 2
""",
    limits=("adhesive-glass",),
)
