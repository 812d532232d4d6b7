"""Checks of fitness: small rules, one a file, each with a code and a source.

    check(job, practice, takeoff, sequence)     # what is wrong with the work as the spec describes it
    review(job, practice, takeoff, sequence)    # the same, with what deviations silence

A new rule is a new file with a `RULE` in the folder of its subject, and a line in that folder's `RULES`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from tilespec.checks import adhesive, base, climate, deviation, falls, heating, membrane, movement, records, safety, slip, tiling
from tilespec.checks.deviation import Waived
from tilespec.checks.rule import Context, Finding, Rule
from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.model import Diagnostic
from tilespec.job.types import Job
from tilespec.practice.lookup import Practice
from tilespec.sequence.types import Sequence
from tilespec.takeoff.types import TakeOff

__all__ = ["ENTRIES", "RULES", "Review", "Waived", "check", "judge", "review"]

# By code. Codes are never reused or renumbered. T20 membrane, falls, drains and levels; T21 adhesive, T22 base, T23 climate,
# T24 tiles, set-out, joints and grout; T25 slip, T26 heating and electricity, T27 movement joints and sealants, T28 people,
# T290 deviations, T295 records and order of work.
SUBJECTS = (membrane, falls, adhesive, base, climate, tiling, slip, heating, movement, safety, records)
RULES: tuple[Rule, ...] = tuple(sorted((r for subject in SUBJECTS for r in subject.RULES), key=lambda r: r.code))

ENTRIES: tuple[Entry, ...] = (*(r.entry for r in RULES), *deviation.ENTRIES)


@dataclass(frozen=True, slots=True)
class Review:
    """What stands against the job, and what its deviations silence (for the print's register)."""

    diagnostics: tuple[Diagnostic, ...]
    waived: tuple[Waived, ...]


def review(job: Job, practice: Practice, takeoff: TakeOff | None = None, sequence: Sequence | None = None) -> Review:
    """Run the rules. Those that need a stage that is not given (the editor checks before it measures) are left out."""
    context = Context(job, practice, takeoff, sequence)
    given = {"job": True, "takeoff": takeoff is not None, "sequence": takeoff is not None and sequence is not None}
    findings = tuple((rule, f) for rule in RULES if given[rule.needs] for f in rule.find(context))
    return judge(context, findings)


def judge(context: Context, findings: tuple[tuple[Rule, Finding], ...]) -> Review:
    """What stands of all findings on a job, and what its deviations silence."""
    standing, waived = deviation.apply(context, RULES, findings)
    found = [deviation.offered(context, rule, f).diagnostic for rule, f in _merged(context, standing)]
    found += deviation.faults(context, RULES)
    if context.takeoff is not None and context.sequence is not None:
        found += deviation.unused(context, RULES, waived)
    order = {name: n for n, name in enumerate(context.job.files)}
    found.sort(key=lambda d: (order.get(d.primary.span.file, len(order)), d.primary.span.start, d.code))
    return Review(tuple(found), waived)


def check(
    job: Job, practice: Practice, takeoff: TakeOff | None = None, sequence: Sequence | None = None
) -> tuple[Diagnostic, ...]:
    """What is wrong with the work as the spec describes it, in the order of the spec. See `review`."""
    return review(job, practice, takeoff, sequence).diagnostics


def _merged(context: Context, standing: tuple[tuple[Rule, Finding], ...]) -> tuple[tuple[Rule, Finding], ...]:
    """One mistake, one message: what the same words cause on several surfaces (a room's default joint) is said once."""
    groups: dict[tuple[object, ...], list[tuple[Rule, Finding]]] = {}
    for rule, f in standing:
        d = f.diagnostic
        groups.setdefault((rule.code, d.primary, d.secondary, d.help), []).append((rule, f))
    return tuple((same[0][0], _together(context, [f for _, f in same])) for same in groups.values())


def _together(context: Context, same: list[Finding]) -> Finding:
    first = same[0]
    places = tuple(dict.fromkeys(p for f in same for p in f.places))
    others = [context.name(s) for s in context.job.surfaces if s.id in places and s.id not in first.places]
    if not others:
        return first
    d = first.diagnostic
    return Finding(replace(d, notes=(*d.notes, f"The same holds for {', '.join(others)}.")), places)
