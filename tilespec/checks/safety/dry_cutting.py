"""A dry saw or grinder throws fine silica dust into the room; it scars the lungs and causes cancer years later. In a study of
short cuts a quarter of an hour of uncontrolled cutting in a shift was enough to reach the limit of eight hours (HSE Science
Division, case study on roof tiles). 29 CFR 1926.1153, Table 1, has no row for cutting tile dry by hand.

Score and snap what is straight and cut the rest wet: `cutting snap, wet saw`. Where neither will do, a tool with extraction,
masks and an assessment of the exposure by local law. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.sequence.exposure import DRY

_WORDS = {"dry-saw": "a dry saw", "dry-grinder": "a dry grinder"}


def find(context: Context) -> Iterator[Finding]:
    cutting = context.job.cutting
    for cutter in cutting:
        if cutter.method not in DRY:
            continue
        limit, time = context.practice.limit("silica-limit"), context.practice.limit("dust-dry-time")
        notes: tuple[str, ...] = (
            cited(limit), f"{both(time)} of it in a shift can be enough to reach a limit: {_source(context)}.",
        )
        if context.practice.find("table-1-hours") is not None:
            notes += ("29 CFR 1926.1153, Table 1, has no row for it: without one the exposure must be assessed first.",)
        instead = "wet saw" if not any(c.method == "wet-saw" for c in cutting) else ""
        fixes = (Fix(f"write {instead}", (Edit(cutter.span, instead),)),) if instead and cutter.span is not None else ()
        yield RULE.at(
            tuple(r.name for r in context.job.rooms),
            context.span(cutter.span),
            f"Tiles are to be cut with {_WORDS[cutter.method]}: its dust is far above what may be breathed.",
            label="dry",
            help="Write `cutting snap, wet saw`: snap what is straight, and cut the rest with water on the blade.",
            notes=notes,
            fixes=fixes,
        )


def _source(context: Context) -> str:
    entry = context.practice.entry("dust-dry-time")
    return entry.source if entry is not None else ""


RULE = Rule(
    "T2801",
    "dry-cutting",
    Severity.ERROR,
    "Tile cut dry",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
job "Guest shower room"
  cutting snap, dry grinder
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
    limits=("silica-limit", "dust-dry-time", "table-1-hours"),
    whole=True,
)
