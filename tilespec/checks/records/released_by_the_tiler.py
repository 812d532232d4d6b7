"""Some hold points are not the tiler's to release: the membrane is the site manager's, pipes and drain the licensed plumber's,
heating cables the licensed electrician's, asbestos and lead the surveyor's, the finished room the client's. A signature of
somebody who did the tiling there is none of theirs. Common practice; licences by local law.

Have the one who releases it look and sign. Where one person is both, in a small firm, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import TILING, about, place
from tilespec.checks.records.signed_by_the_doer import same
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity

# Who releases a hold point in the sequence of operations.
_RELEASES = {
    "asbestos": "an asbestos surveyor", "lead": "a lead assessor", "pressure-test": "a licensed plumber",
    "drain": "a licensed plumber", "leak-test": "a licensed plumber", "membrane": "the site manager",
    "heating-before": "a licensed electrician", "heating-cover": "a licensed electrician",
    "heating-after": "a licensed electrician", "insulation-before": "a licensed electrician",
    "insulation-cover": "a licensed electrician", "insulation-after": "a licensed electrician", "final": "the client",
}


def find(context: Context) -> Iterator[Finding]:
    did = [(r, r.work_by) for r in context.job.records if r.work_by is not None and r.kind.text in TILING]
    for record in context.job.records:
        who = _RELEASES.get(record.kind.text)
        if who is None or (record.work_by is not None and same(record.by, record.work_by)):
            continue
        work = next(((r, name) for r, name in did if r is not record and same(record.by, name)), None)
        if work is None:
            continue
        own = tuple(s.id for s in context.job.tiled if about(record, s))
        yield RULE.at(
            own or (record.place,),
            context.span(record.by.span),
            f"{record.by} signs `{record.kind}` for {place(context, record)}, and did the `{work[0].kind}` of the same job.",
            label=f"{who} releases this",
            secondary=(Label(work[1].span, "did this work"),),
            help=f"Let {who} look at it and sign, and write that name after `by`.",
        )


RULE = Rule(
    "T2958",
    "released-by-the-tiler",
    Severity.WARNING,
    "A hold point released by one who did the tiling",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record pressure-test on wall A 2026-03-05 by "J. Rook"
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"; work by "J. Rook"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record pressure-test on wall A 2026-03-05 by "T. Wells"
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"; work by "J. Rook"
""",
    whole=True,
)
