"""Whoever did a piece of work sees in it what was meant. Two eyes that did not do it see what is there: a hold point is worth
as much as the second person. Common practice, no source.

Let somebody else look and sign, and write who: `by` the one who looked, `work by` the one who did it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import about, place
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Words


def same(one: Words, other: Words) -> bool:
    """The same person, however the name is spaced and capitalised."""
    return one.text.casefold().split() == other.text.casefold().split()


def find(context: Context) -> Iterator[Finding]:
    for record in context.job.records:
        if record.work_by is None or not same(record.by, record.work_by):
            continue
        own = tuple(s.id for s in context.job.tiled if about(record, s))
        yield RULE.at(
            own or (record.place,),
            context.span(record.by.span),
            f"{record.by} signs `{record.kind}` for {place(context, record)} and did the work that is signed for.",
            label="signs for own work",
            secondary=(Label(record.work_by.span, "did the work"),),
            help="Let somebody else look at it and sign, and write that name after `by`.",
        )


RULE = Rule(
    "T2957",
    "signed-by-the-doer",
    Severity.WARNING,
    "Somebody who signs for their own work",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"; work by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"; work by "J. Rook"
""",
    whole=True,
)
