"""An old glaze gives adhesive nothing to hold by. Common practice, from memory: old tiles are sounded, degreased, and given a
key, by a bonding primer with grit in it or by abrasion. `primer none` leaves the abrasion alone to do it.

Take `primer none` out, or say in a deviation that the glaze is ground off all over, with dust extraction.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        if surface.base.kind != "old-tiles" or surface.refusal("primer") is None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(surface.refusal("primer"), surface.base.span),
            f"{context.name(surface)} is old tiles and gets no primer: nothing holds the new adhesive on their glaze.",
            label="no primer here",
            secondary=(Label(surface.base.span, "dense and smooth"),) if surface.base.span is not None else (),
            help="Take `primer none` out, or name a bonding primer in its place.",
            notes=("Common practice, from memory: old tiling is sounded, and abraded or primed.",),
        )


RULE = Rule(
    "T2220",
    "unprimed-old-tiles",
    Severity.WARNING,
    "Old tiles without a key for the new",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base old tiles
  tile floor-tile; joint 3
  primer none
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 2.4 x 1.8
  base old tiles
  tile floor-tile; joint 3
""",
)
