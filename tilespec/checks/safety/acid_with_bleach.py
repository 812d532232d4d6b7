"""Acid and bleach make chlorine, in a small room enough to be carried out. One is used for cement haze and the other for
mould, on the same joints, and what is left of the first is still there when the second comes. Common knowledge; the sheets of
both say so.

Have one of them on the job. Where both are needed say what each is for, `for floor`, `for walls`, and never use them on the
same day. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule
from tilespec.checks.tiling.came import of_this_job
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    cleaners = of_this_job(context, "cleaner")
    acid = [p for p in cleaners if "acid" in p.flags]
    bleach = [p for p in cleaners if "bleach" in p.flags]
    for one in acid:
        other = next((p for p in bleach if not one.for_ or not p.for_ or set(one.for_) & set(p.for_)), None)
        if other is None:
            continue
        yield RULE.at(
            tuple(r.name for r in context.job.rooms),
            context.span(one.span),
            f"Cleaner {one.name} is acid and cleaner {other.name} is bleach: together they make chlorine."
            if other is not one
            else f"Cleaner {one.name} is said to be acid and bleach: together they make chlorine.",
            label="acid",
            secondary=(Label(other.span, "bleach"),) if other.span is not None else (),
            help="Take one of them off the job, or say what each is for: `for floor`, `for walls`.",
        )


RULE = Rule(
    "T2825",
    "acid-with-bleach",
    Severity.WARNING,
    "Acid and bleach on one job",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
cleaner haze-off acid; pack 1 L
cleaner mould-off bleach; pack 1 L
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
cleaner haze-off acid; pack 1 L
cleaner mould-off alkaline; pack 1 L
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    whole=True,
)
