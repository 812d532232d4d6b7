"""Below about 5 degrees C cement all but stops hardening and films do not close; above about 30 they dry before they
grip. The base counts as much as the air (common practice; the European window is from memory).

Heat or shade the room from before the work until it has set, and write the temperatures it then has. Never lay on a
base that is frozen. Heaters that burn fuel need fresh air.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.climate.ranges import broken, measured, window
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    for words, q in measured(context):
        limit = broken(q, *window(context))
        if limit is None:
            continue
        cold = q.value < limit.value
        yield RULE.at(
            tuple(s.id for s in context.job.tiled),
            context.span(said_at(q)),
            f"The {words} is at {both(q)}: too {'cold' if cold else 'warm'} for tiling, which takes "
            f"{both(limit)} at {'least' if cold else 'most'}.",
            label="too cold" if cold else "too warm",
            help=f"{'Heat' if cold else 'Shade or cool'} the room before and while it sets, and write what it then has.",
            notes=(cited(limit),),
        )


RULE = Rule(
    "T2302",
    "too-cold-or-too-warm-to-work",
    Severity.ERROR,
    "Too cold or too warm for any tiling",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
conditions air 4 C; humidity 60 %; surface 3 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
conditions air 19 C; humidity 60 %; surface 17 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("work-temperature-min", "work-temperature-max"),
    whole=True,
)
