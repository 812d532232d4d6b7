"""Tiles do not bend with a floor that springs: joints open, then tiles crack. The NTCA Reference Manual takes a deflection under
load of 1/360 of the span as the most for ceramic tile; the stone trade asks for half of that, 1/720.

Have the floor stiffened: joists doubled, a shorter span, a thicker deck. It is its designer who reckons it; the tiler reports the
doubt. Write the new value, `deflection 6 mm`, with its span.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.quantity import work


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        base = surface.base
        if surface.kind != "floor" or base.deflection is None or base.span_length is None:
            continue
        stone = next((c for c in surface.coverings if c.tile.stone), None)
        share = context.practice.limit("deflection-max-stone" if stone is not None else "deflection-max")
        most = work("span * share", base.deflection.shown.symbol, source="share of the span", span=base.span_length, share=share)
        if base.deflection.value <= most.value:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(said_at(base.deflection), base.span, surface.span),
            f"{context.name(surface)} gives {both(base.deflection)} over a span of {both(base.span_length)}; "
            f"{'natural stone' if stone is not None else 'ceramic tile'} takes {both(most)}.",
            label="too springy",
            secondary=(Label(stone.span, "natural stone"),) if stone is not None and stone.span is not None else (),
            help="Have the floor stiffened by its designer, then write the new deflection.",
            notes=(cited(share), reckoned("Most", most)),
        )


RULE = Rule(
    "T2242",
    "floor-too-springy",
    Severity.WARNING,
    "A timber floor that gives too much under its load",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 300x300x9 porcelain
floor 3.0 x 2.4
  base timber; joists 400 mm; boards 22 mm; span 3.0; deflection 12 mm
  build-up uncoupling 3, bed 4
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 300x300x9 porcelain
floor 3.0 x 2.4
  base timber; joists 400 mm; boards 22 mm; span 3.0; deflection 8 mm
  build-up uncoupling 3, bed 4
  tile floor-tile; joint 3
""",
    limits=("deflection-max", "deflection-max-stone"),
)
