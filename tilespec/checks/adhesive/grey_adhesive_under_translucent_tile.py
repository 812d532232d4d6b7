"""Translucent stone and glass show what is behind them: a grey adhesive, its ridges and its damp patches shine through for good.
Common practice: a white adhesive, fast setting for stone, in a solid bed.

Name a white adhesive for the tile: `colour white` in its line, `for tile NAME` when only that tile takes it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.adhesive.declared import instead, where_named
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.resolve import adhesive_for


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        laid = [(c.tile, c.span) for c in surface.coverings] + [(n.tile, n.span) for n in surface.niches if n.tile is not None]
        for tile, span in laid:
            adhesive = adhesive_for(surface, tile)
            if not tile.translucent or adhesive is None or "white" in (adhesive.colour, *adhesive.flags):
                continue
            colour = adhesive.colour or ("grey" if "grey" in adhesive.flags else None)
            yield RULE.at(
                (surface.id,),
                context.span(span, surface.span),
                f"{called(tile)} on {context.name(surface)} is translucent and its adhesive {adhesive.name} "
                + (f"is {colour}: it will show through." if colour else "has no stated colour: all but white shows through."),
                label="lets light through",
                secondary=(
                    *((Label(adhesive.span, "this adhesive"),) if adhesive.span is not None else ()),
                    *where_named(surface, adhesive),
                ),
                help=instead(context, surface, adhesive, "a white one", "class C2FT S1; colour white", f"for tile {tile.name}")
                if colour
                else f"Add `colour white` to {adhesive.name} if the data sheet says so.",
                notes=("Common practice, no source.",),
            )


RULE = Rule(
    "T2103",
    "grey-adhesive-under-translucent-tile",
    Severity.WARNING,
    "A grey adhesive under a translucent tile",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
adhesive grey-set class C2FT S1; colour grey; pack 25 kg; for tile onyx
tile onyx 305x305x8 mosaic stone translucent; weight 21 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile onyx; joint 3
""",
    good="""\
adhesive white-set class C2FT S1; colour white; pack 25 kg; for tile onyx
tile onyx 305x305x8 mosaic stone translucent; weight 21 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile onyx; joint 3
""",
    limits=("adhesive-translucent",),
)
