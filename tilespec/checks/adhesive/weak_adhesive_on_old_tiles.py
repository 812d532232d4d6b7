"""An old glaze is as dense as glass: new adhesive finds no pores in it and shears off when wall and tiles move apart. Common
practice, from memory: C2 S1 (EN 12004) on old tiles that are sounded, clean, and roughened or primed.

Name an adhesive of class C2 S1 or better for this surface.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import told, weak
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for found in weak(context, RULE.name):
        yield told(RULE, context, found, "a base of old tiles", "too weak on old tiles")


RULE = Rule(
    "T2116",
    "weak-adhesive-on-old-tiles",
    Severity.WARNING,
    "Old tiles under a weak adhesive",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive firm-set class C2TE; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base old tiles
  tile floor-tile; joint 3
""",
    good="""\
adhesive flex-set class C2TE S1; pack 25 kg
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base old tiles
  tile floor-tile; joint 3
""",
    limits=("adhesive-old-tiles",),
)
