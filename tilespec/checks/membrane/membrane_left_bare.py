"""A membrane is made to lie behind tiles: bare in the spray of a shower it is scratched, worn thin and yellowed by light, and
water stands on the top edge of the tiles. Common practice, no source: tiles go up to the shower head, or at the least as high
as the walls of a shower are made waterproof.

Write a greater height after `tiled to`, or leave it out. Where another finish covers the membrane, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Room
from tilespec.quantity import Quantity
from tilespec.quantity.typed import typed
from tilespec.sequence.site import with_membrane
from tilespec.source import Span


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.limit("membrane-shower-height-min")
    for surface in context.job.tiled:
        end = surface.tiled_height
        if surface.kind != "wall" or end is None or not with_membrane(surface):
            continue
        head, span = max(_heads(context.room(surface), surface.letter), key=lambda found: found[0].value, default=(None, None))
        if head is None or end.value >= min(head.value, least.value):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(said_at(end), surface.span),
            f"The tiles of {context.name(surface)} end {both(end)} up and the shower head is at {both(head)}: above them the "
            "membrane lies bare in the spray.",
            label="ends in the spray",
            secondary=(Label(span, "this shower"),) if span is not None else (),
            help=f"Write `tiled to {typed(head).removesuffix(' m')}` or more, or leave it out: then the whole wall is tiled.",
            notes=(cited(least),),
        )


def _heads(room: Room, letter: str) -> Iterator[tuple[Quantity, Span | None]]:
    """The shower heads that a wall is in the spray of, also over a bath."""
    for shower in room.showers:
        if letter in shower.walls:
            yield shower.head_height, shower.span
    for bath in room.baths:
        if bath.shower_over and bath.head_height is not None and letter in bath.walls:
            yield bath.head_height, bath.span


RULE = Rule(
    "T2030",
    "membrane-left-bare",
    Severity.WARNING,
    "Tiles that end below the shower head",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
room "Shower room" height 2.4
floor 2.2 x 1.7
  base cement screed; thickness 65 mm; laid 2025-10-01
shower in corner D A, 0.9 x 0.9; tray; screen; head at 2.0
wall A
  base cement render
  tile wall-tile; joint 3; tiled to 1.65
wall D
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
tile wall-tile 300x300x9 porcelain
room "Shower room" height 2.4
floor 2.2 x 1.7
  base cement screed; thickness 65 mm; laid 2025-10-01
shower in corner D A, 0.9 x 0.9; tray; screen; head at 2.0
wall A
  base cement render
  tile wall-tile; joint 3; tiled to 2.0
wall D
  base cement render
  tile wall-tile; joint 3
""",
    limits=("membrane-shower-height-min",),
)
