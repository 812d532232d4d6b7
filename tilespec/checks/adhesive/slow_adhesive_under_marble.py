"""Marble, limestone and travertine draw the water out of a slow bed: salts and iron in the stone come up with it as stains, and
thin slabs bend. Common practice, from memory: a white adhesive that sets fast (option F of EN 12004-1) under stone that moves
or stains with moisture.

Name an adhesive with an F in its class for the tile, or say in a deviation that the stone's supplier has tried this one.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import TYPES, also, another, bedded, option, spot
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.diagnostics.model import Severity
from tilespec.vocabulary import LIME_STONES


def find(context: Context) -> Iterator[Finding]:
    for b in bedded(context):
        adhesive, words = b.adhesive, b.tile.words
        if not b.tile.stone or not any(w in LIME_STONES for w in words) or adhesive.cls[:1] not in (("C1",), ("C2",)):
            continue
        # What the compiler itself takes is asked about on the print; green marble takes no cement at all.
        if adhesive.generic or option(adhesive, "F") or "fast" in adhesive.flags or "green" in words and "marble" in words:
            continue
        better = " ".join((TYPES[1] + "".join(o for o in "FTE" if o == "F" or option(adhesive, o)),
                           *(p for p in adhesive.cls if p in ("S1", "S2"))))
        yield RULE.at(
            (b.surface.id,),
            spot(context, b),
            f"{called(b.tile)} on {context.name(b.surface)} takes water up, and {adhesive.name} ({' '.join(adhesive.cls)}) sets "
            "slowly: the stone may stain or bend.",
            label="no F",
            secondary=also(context, b),
            help=another(context, b, "a fast one", f"class {better}; colour white"),
            notes=("Common practice, from memory: fast setting where stone moves with moisture.",),
        )


RULE = Rule(
    "T2130",
    "slow-adhesive-under-marble",
    Severity.NOTE,
    "A slow adhesive under stone that takes water up",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive slow-set class C2TE S1; colour white; pack 25 kg; for tile pale
tile pale 300x300x10 limestone; weight 26 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile pale; joint 3
""",
    good="""\
adhesive slow-set class C2FTE S1; colour white; pack 25 kg; for tile pale
tile pale 300x300x10 limestone; weight 26 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile pale; joint 3
""",
)
