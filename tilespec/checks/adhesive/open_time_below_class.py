"""The class already says how long a combed bed stays tacky: 30 minutes at least with option E, 20 without, 10 for a fast
adhesive (F) (EN 12004-1, as restated). A shorter open time in the same line means that one of the two was read off wrongly, and
the steps would tell the tiler to comb too much or too little.

Look at the data sheet again and correct the class or the `open time`.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import TYPES, option
from tilespec.checks.adhesive.declared import declared, stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Product


def _key(adhesive: Product) -> str:
    return "open-time-extended" if option(adhesive, "E") else "open-time-fast" if option(adhesive, "F") else "open-time"


def find(context: Context) -> Iterator[Finding]:
    for adhesive, places in declared(context):
        said = adhesive.open_time
        if not adhesive.cls or adhesive.cls[0] not in TYPES or adhesive.cls[0][0] == "R" or said is None:
            continue
        least = context.practice.limit(_key(adhesive))
        if said.value >= least.value or not stated(adhesive, said):
            continue
        yield RULE.at(
            places,
            context.span(said_at(said), adhesive.span),
            f"Adhesive {adhesive.name} is {' '.join(adhesive.cls)}, which stays open for {both(least)} at least; it is said "
            f"to be open for {both(said)}.",
            label="shorter than its class",
            help="Correct one of them from the data sheet: the class, or the open time.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2127",
    "open-time-below-class",
    Severity.WARNING,
    "An open time that the class rules out",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive long-set class C2TE; pack 25 kg; open time 20 min
tile wall-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
adhesive long-set class C2TE; pack 25 kg; open time 30 min
tile wall-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("open-time", "open-time-extended", "open-time-fast"),
    whole=True,
)
