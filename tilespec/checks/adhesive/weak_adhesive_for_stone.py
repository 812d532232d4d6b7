"""Stone is heavy, often dense, and its sawn back has little for cement to grow into. Common practice, from memory: class C2 of
EN 12004 under natural stone, white under light stone, fast setting where it moves with moisture.

Name an adhesive of class C2 or better for the tile, or leave its name out: a generic one of that class is then used.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "natural stone", "too weak for stone")


RULE = Rule(
    "T2131",
    "weak-adhesive-for-stone",
    Severity.WARNING,
    "Natural stone in a normal adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive stiff-set class C1T; pack 25 kg; for tile slab
tile slab 300x300x10 slate; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
    good="""\
adhesive firm-set class C2TE; pack 25 kg; for tile slab
tile slab 300x300x10 slate; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
    limits=("adhesive-stone",),
)
