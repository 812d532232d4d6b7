"""The dust of a dry tool with extraction differs from set to set: in one test three sets on one cutter left between 0.85 and
15.65 mg/m3 (HSE, as reported in the construction press, 2020). Taken with the silica in the tile and the hours of cutting,
averaged over eight hours (29 CFR 1910.1000(d)(1)(i)), the upper end can lie above the limit of the practice family.

Snap and cut wet, so that less is left to the tool; else measure the exposure with the very tool, vacuum and tile before the work
begins, and wear the mask that local law asks for. It compares methods and proves none safe. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited, reckoned
from tilespec.diagnostics.model import Severity
from tilespec.sequence.exposure import DRY

_WORDS = {"extraction-saw": "a saw with extraction", "extraction-grinder": "a grinder with extraction"}


def find(context: Context) -> Iterator[Finding]:
    assert context.sequence is not None
    exposure = context.sequence.exposure
    # What is cut dry is told by its own rule.
    if exposure is None or exposure.high is None or any(d.method in DRY for d in exposure.planned):
        return
    if exposure.high.value <= exposure.limit.value:
        return
    known = [d for d in exposure.planned if d.high is not None]
    method = known[0].method
    span = next((c.span for c in context.job.cutting if c.method == method), None)
    low = f"{both(exposure.low)} to " if exposure.low is not None else ""
    by_area = ("The cuts are reckoned from the sizes of the surfaces.",) if exposure.by_area else ()
    yield RULE.at(
        tuple(r.name for r in context.job.rooms),
        context.span(span),
        f"One worker cutting with {_WORDS[method]} may come to {low}{both(exposure.high)} of silica over eight hours; "
        f"the limit is {both(exposure.limit)}.",
        label="more dust than snapping or water",
        help="Write `cutting snap, wet saw`, or measure the exposure with this tool and this tile before the work begins.",
        notes=(cited(exposure.limit), *(reckoned("A day of it", d.a_day) for d in known), *by_area),
    )


RULE = Rule(
    "T2802",
    "silica-over-limit",
    Severity.WARNING,
    "More silica dust than the limit allows",
    INJURY,
    "sequence",
    __doc__,
    find,
    bad="""\
job "Guest shower room"
  cutting grinder with extraction
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
job "Guest shower room"
  cutting snap, wet saw
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("silica-limit", "dust-extraction-low", "dust-extraction-high", "exposure-shift"),
)
