"""What was measured on the wall counts, not what the data sheet promises. DIN 18534-3 asks for a dry film of 0.5 mm of a
dispersion (DM), 2 mm of a cement membrane (CM), 1 mm of a reaction resin (RM); where the product's own sheet asks for more,
that holds.

Put on another coat, let it dry, measure again and write the new reading: the last one of a surface counts. This rule
cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import of
from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product
from tilespec.quantity import Limit, Quantity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        membrane = surface.product("membrane")
        if membrane is None or membrane.generic or "sheet" in membrane.flags:
            continue
        readings = [r for r in of(context, surface, "membrane-thickness") if r.reading is not None and r.result != "fail"]
        least = _least(context, membrane)
        for record in readings:
            # Several places may be read on one day; an older day is overtaken.
            if least is None or record.on < readings[-1].on or record.reading is None or record.reading.value >= least.value:
                continue
            own = not isinstance(least.why, Limit)
            yield RULE.at(
                (surface.id,),
                context.span(said_at(record.reading), record.span),
                f"The membrane on {context.name(surface)} was read {both(record.reading)} thick; {membrane.name} takes "
                f"{both(least)} at least.",
                label="too thin",
                secondary=(Label(membrane.span, "this membrane"),) if membrane.span is not None else (),
                help="Put on another coat, let it dry, measure again and add the new record.",
                notes=("The film is that of its own data sheet.",) if own else (cited(least),),
            )


def _least(context: Context, membrane: Product) -> Quantity | None:
    """By the practice for its class, or by its own sheet where that asks for more."""
    limit = context.practice.find(f"membrane-film-{membrane.cls[0]}") if membrane.cls else None
    films = [q for q in (limit, membrane.film) if q is not None]
    return max(films, key=lambda q: q.value, default=None)


RULE = Rule(
    "T2010",
    "film-reading-too-thin",
    Severity.ERROR,
    "A membrane that was measured too thin",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
membrane own-film class DM; pack 14 kg; coats 2; consumption 0.75 kg/m2; film 0.5 mm
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record membrane-thickness on wall A 2026-03-10 by "A. Finch"; reading 0.3 mm
""",
    good="""\
membrane own-film class DM; pack 14 kg; coats 2; consumption 0.75 kg/m2; film 0.5 mm
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record membrane-thickness on wall A 2026-03-10 by "A. Finch"; reading 0.6 mm
""",
    limits=("membrane-film-DM", "membrane-film-CM", "membrane-film-RM"),
)
