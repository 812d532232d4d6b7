"""Engineered stone holds up to 97 % crystalline silica, and its dust has killed young workers within years. Since 1 July 2024
benchtops, panels and slabs of it may not be made, supplied, processed or installed in Australia (model WHS Regulations; Safe
Work Australia).

Choose another tile. Porcelain, sintered stone and ceramic tiles without resin are outside the ban; where the product's data sheet
leaves it open, ask the regulator before it is ordered. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, called, cited
from tilespec.diagnostics.model import Severity

_KEY = "engineered-stone-ban"


def find(context: Context) -> Iterator[Finding]:
    job = context.job
    entry = context.practice.entry(_KEY)
    # Days as ISO text stand in their order. Without a day in the spec the work is still to come.
    day = job.begin or job.date
    if entry is None or (day is not None and day.isoformat() < entry.text):
        return
    word = context.practice.word(_KEY)
    for tile in job.tiles:
        if "engineered" not in tile.words:
            continue
        places = tuple(s.id for s in job.surfaces if any(c.tile.name == tile.name for c in s.coverings))
        yield RULE.at(
            places,
            context.span(tile.span),
            f"{called(tile)} is engineered stone: from {word.text} it may not be processed or installed in Australia.",
            label="engineered stone",
            help="Choose porcelain, ceramic or natural stone. If its sheet says that it holds no resin, take `engineered` out.",
            notes=(cited(word),),
        )


RULE = Rule(
    "T2803",
    "engineered-stone-banned",
    Severity.ERROR,
    "Engineered stone where it is banned",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
job "Guest shower room"
  practice AU; begin 2026-03-09
tile wall-tile 300x300x9 engineered stone light
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
job "Guest shower room"
  practice AU; begin 2026-03-09
tile wall-tile 300x300x9 porcelain light
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=(_KEY,),
    whole=True,
)
