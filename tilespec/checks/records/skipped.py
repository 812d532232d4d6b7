"""Hold points of a surface that later records show to have been passed without a signature."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tilespec.checks.recorded import DONE, about, goes_on, spelled
from tilespec.checks.rule import Context, Finding, Rule
from tilespec.job.types import Record, Surface


@dataclass(frozen=True, slots=True)
class Skipped:
    surface: Surface
    kind: str
    later: Record


def skipped(context: Context, surface: Surface, kind: str) -> Skipped | None:
    """The first work on a surface after a signature that nobody gave."""
    records = [r for r in context.job.records if about(r, surface)]
    if any(r.kind.text == kind for r in records):
        return None
    later = [r for r in records if r.kind.text in DONE and goes_on(kind, r.kind.text)]
    return Skipped(surface, kind, min(later, key=lambda r: r.on)) if later else None


def finding(context: Context, rule: Rule, found: Skipped, what: str) -> Finding:
    surface, later = found.surface, found.later
    return rule.at(
        (surface.id,),
        context.span(later.kind.span),
        f"{context.name(surface)} was {DONE[later.kind.text]} by {later.on}, and nobody signed for {what} before.",
        label=f"no `{found.kind}` before this",
        help=f'If it was accepted, add the day: `record {found.kind}{spelled(context, later)} YEAR-MONTH-DAY by "..."`. '
        "If nobody looked, stop and look; what is covered has to be opened.",
    )


def all_of(context: Context, rule: Rule, kind: str, what: str, wanted: Iterable[Surface]) -> Iterator[Finding]:
    if not any(r.kind.text in DONE for r in context.job.records):
        return
    for surface in wanted:
        found = skipped(context, surface, kind)
        if found is not None:
            yield finding(context, rule, found, what)
