"""An acid that takes cement haze off takes lime stone off with it: marble, limestone, travertine and terrazzo go blind where it
runs, and no polish on site brings them back. Common knowledge of the trade.

Take a neutral or alkaline cleaner, or say what the acid one is meant for: `for floor`, `for tile NAME`. Cover the stone all the
same where it is used.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.checks.tiling.came import meant_for, of_this_job
from tilespec.diagnostics.model import Label, Severity
from tilespec.vocabulary import LIME_STONES


def find(context: Context) -> Iterator[Finding]:
    for cleaner in of_this_job(context, "cleaner"):
        if "acid" not in cleaner.flags:
            continue
        for surface in context.job.tiled:
            stone = next((c for c in surface.coverings if set(c.tile.words) & set(LIME_STONES)), None)
            if stone is None or not meant_for(cleaner, surface, stone.tile):
                continue
            word = next(w for w in stone.tile.words if w in LIME_STONES)
            yield RULE.at(
                (surface.id,),
                context.span(cleaner.span),
                f"Cleaner {cleaner.name} is acid, and {called(stone.tile)} on {context.name(surface)} is {word}: it etches it.",
                label="eats lime stone",
                secondary=(Label(stone.span, word),) if stone.span is not None else (),
                help="Take a neutral cleaner, or say what this one is for: `for floor`, `for tile NAME`.",
            )


RULE = Rule(
    "T2453",
    "acid-cleaner-on-lime-stone",
    Severity.ERROR,
    "An acid cleaner for stone that acid eats",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
cleaner haze-off acid; pack 1 L
tile wall-stone 300x300x10 marble dark; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement board
  tile wall-stone; joint 3
""",
    good="""\
cleaner haze-off neutral; pack 1 L
tile wall-stone 300x300x10 marble dark; weight 27 kg/m2
wall A 2.4 x 2.4
  base cement board
  tile wall-stone; joint 3
""",
    whole=True,
)
