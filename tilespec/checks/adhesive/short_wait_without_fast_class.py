"""Only an adhesive with option F proves that it holds after six hours (EN 12004-1, as restated); a normal one is still soft
then, and tiles that are grouted or walked on move in their bed. Common practice for a normal adhesive: 24 hours.

Look at the data sheet again: add the F to the class, or write the wait of the normal adhesive.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.classes import option
from tilespec.checks.adhesive.declared import declared, stated
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    least, usual = context.practice.limit("wait-adhesive-fast"), context.practice.limit("wait-adhesive")
    for adhesive, places in declared(context):
        if adhesive.cls[:1] not in (("C1",), ("C2",)) or option(adhesive, "F") or "fast" in adhesive.flags:
            continue
        for before in ("grouting", "walking"):
            wait = adhesive.wait(before)
            if wait is None or wait.minimum.value >= least.value or not stated(adhesive, wait.minimum):
                continue
            yield RULE.at(
                places,
                context.span(said_at(wait.minimum), adhesive.span),
                f"Adhesive {adhesive.name} ({' '.join(adhesive.cls)}) has no F in its class and waits only "
                f"{both(wait.minimum)} before {before}; even a fast adhesive takes {both(least)}.",
                label="too short",
                help=f"Write `wait {typed(usual)} before {before}`, or the class with its F.",
                notes=(cited(least),),
            )


RULE = Rule(
    "T2128",
    "short-wait-without-fast-class",
    Severity.WARNING,
    "A short wait for an adhesive that is not fast",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive quick-set class C2TE; pack 25 kg
  wait 4 h before grouting
tile wall-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
adhesive quick-set class C2FTE; pack 25 kg
  wait 4 h before grouting
tile wall-tile 200x200x7 ceramic; weight 13 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("wait-adhesive-fast", "wait-adhesive"),
    whole=True,
)
