"""Work in old buildings that went past a survey for asbestos or lead."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.recorded import about, goes_on
from tilespec.checks.rule import Context, Finding, Rule, both, cited
from tilespec.diagnostics.model import Label
from tilespec.job.records import meet
from tilespec.job.types import Surface


def uncleared(context: Context, rule: Rule, kind: str, surfaces: tuple[Surface, ...], fear: str, who: str) -> Iterator[Finding]:
    """The first work on each of these surfaces that no survey came before. Told only where the building's year is."""
    built = context.job.built
    for surface in surfaces:
        # A source that names floor coverings is none for a wall; a firm's own, later year counts everywhere.
        wall = context.practice.find(f"{kind}-year-wall") if surface.kind == "wall" else None
        known = [q for q in (wall, context.practice.limit(f"{kind}-year")) if q is not None]
        year = max(known, key=lambda q: q.value)
        if built is None or built.value >= year.value:
            continue
        work = [r for r in context.job.records if about(r, surface) and goes_on(kind, r.kind.text)]
        if not work or any(r.kind.text == kind and meet(r.place, surface.id) for r in context.job.records):
            continue
        first = min(work, key=lambda r: r.on)
        base = surface.base
        yield rule.at(
            (surface.id,),
            context.span(first.kind.span),
            f"`{first.kind}` of {first.on} shows work on {context.name(surface)} in a building of {both(built)}, and no survey "
            f"for {kind} is recorded: {fear}.",
            label=f"no `{kind}` before this",
            secondary=(Label(base.span, "old"),) if base.existing and base.span is not None else (),
            help=f"Stop and keep others out until {who} has looked; if that was done, add `record {kind}` with its day.",
            notes=(cited(year),),
        )
