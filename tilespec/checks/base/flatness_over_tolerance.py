"""Adhesive is no filler: where the base is hollow the bed grows thick, shrinks and drags the tiles into steps, and large tiles
ride on the humps. How large a gap may be under a straightedge differs: BS 8204-1 and NHBC Standards 9.2.5 say 3 mm under 2 m,
ANSI A108.02 1/4 in under 10 ft and half of that from a tile edge of 15 in, DIN 18202 has a table by length.

Level the floor, dub out or grind the wall, measure again and write the new record: the last reading under each straightedge
counts. Say its length: `reading 4 mm; over 2 m`.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import standing
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, said_at
from tilespec.checks.straightedge import allowed
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Surface
from tilespec.sequence.site import tiles_of


def key(context: Context, surface: Surface) -> str:
    """Large tiles need the flatter base."""
    edge = context.practice.limit("flatness-large-edge").value
    large = any(t.long_side.value >= edge for t in tiles_of(surface) if not t.mosaic)
    return f"flatness-{surface.kind}" + ("-large" if large else "")


def find(context: Context) -> Iterator[Finding]:
    for found in standing(context, "substrate-flatness"):
        surface, record = found.surface, found.record
        limit = key(context, surface)
        most = allowed(context, record, limit)
        if found.value.value <= most.gap.value:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(said_at(found.value), record.span),
            f"The base of {context.name(surface)} is {both(found.value)} off under {both(most.over)}; "
            f"{both(most.gap)} is the most{' under tiles this large' if limit.endswith('-large') else ''}.",
            label="not flat enough",
            secondary=(Label(surface.base.span, "this base"),) if surface.base.span is not None else (),
            help=f"{'Level' if surface.kind == 'floor' else 'Fill or grind'} it before tiling, measure again "
            "and add the new record.",
            notes=most.notes,
        )


RULE = Rule(
    "T2240",
    "flatness-over-tolerance",
    Severity.WARNING,
    "A base that is not flat enough",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-flatness on floor 2026-03-06 by "A. Finch"; reading 5 mm; over 2 m
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  tile floor-tile; joint 3
record substrate-flatness on floor 2026-03-06 by "A. Finch"; reading 3 mm; over 2 m
""",
    limits=(
        "flatness-large-edge", "flatness-floor", "flatness-floor-length", "flatness-floor-large", "flatness-floor-large-length",
        "flatness-wall", "flatness-wall-length", "flatness-wall-large", "flatness-wall-large-length", "flatness-short",
        "flatness-short-length", "flatness-short-large", "flatness-short-large-length", "flatness-floor-table",
        "flatness-floor-large-table", "flatness-wall-table", "flatness-wall-large-table",
    ),
)
