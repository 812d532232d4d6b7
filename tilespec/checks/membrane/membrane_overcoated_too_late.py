"""Some membranes, reaction resins above all, take their next coat only within a time that the data sheet names: later, the first
coat is too hard for the second to bond, and the two part under the tiles. The time is the product's own; records have a day
and no hour, so this rule speaks only where the coats are surely too far apart.

Do what the sheet says for that case, then sign for both coats again.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import last_before, of, surely_longer
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        membrane, coats = surface.product("membrane"), of(context, surface, "second-coat")
        wait = membrane.wait("coats") if membrane is not None else None
        if membrane is None or wait is None or wait.maximum is None or not coats:
            continue
        second = coats[-1]
        first = last_before(context, surface, second.on, "first-coat")
        if first is None or not surely_longer(first.on, second.on, wait.maximum):
            continue
        yield RULE.at(
            (surface.id,),
            context.span(second.span),
            f"The second coat of {membrane.name} on {context.name(surface)} came on {second.on.isoformat()}, after the first of "
            f"{first.on.isoformat()}: {both(wait.maximum)} between coats at most.",
            label="too late",
            secondary=(Label(first.span, "the first coat"),) if first.span is not None else (),
            help=f"{wait.overrun.text.rstrip('.')}." if wait.overrun is not None
            else "Ask its maker what to do with the first coat, and sign for both again.",
            notes=("The time is that of its own data sheet.",),
        )


RULE = Rule(
    "T2015",
    "membrane-overcoated-too-late",
    Severity.ERROR,
    "A second coat that came too late",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
membrane own-film class DM; pack 14 kg; coats 2; consumption 0.75 kg/m2
  wait 2 h to 24 h between coats; overrun "Roughen the first coat, take the dust off, then go on."
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record first-coat on wall A 2026-03-09 by "J. Rook"
record second-coat on wall A 2026-03-12 by "J. Rook"
""",
    good="""\
membrane own-film class DM; pack 14 kg; coats 2; consumption 0.75 kg/m2
  wait 2 h to 24 h between coats; overrun "Roughen the first coat, take the dust off, then go on."
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record first-coat on wall A 2026-03-09 by "J. Rook"
record second-coat on wall A 2026-03-10 by "J. Rook"
""",
)
