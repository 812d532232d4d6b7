"""Checks of fitness: small rules, one a file, each with a code and a source.

    check(job, practice, takeoff, sequence)     # what is wrong with the work as the spec describes it
    review(job, practice, takeoff, sequence)    # the same, with what deviations silence

A new rule is a new file with a `RULE`, and a line in `RULES`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from tilespec.checks import (
    d_adhesive_on_wet_floor,
    deviation,
    direct_stone_on_gypsum_plaster,
    fall_beside_level_floor,
    fall_not_set_out,
    fall_outside_limits,
    grey_adhesive_under_translucent_tile,
    heated_floor_without_deformable_adhesive,
    heating_too_strong_on_timber,
    joint_too_narrow,
    low_window_cut,
    membrane_too_low,
    membrane_too_thin,
    moisture_over_limit,
    moisture_reading_unjudged,
    plane_of_fall_too_flat,
    plaster_too_young,
    screed_too_young,
    slip_class_missing,
    slip_class_too_low,
    sliver_cut,
    splash_area_without_membrane,
    temperature_outside_product_range,
    tiling_too_heavy_for_base,
    unprimed_gypsum,
    wet_zone_without_membrane,
)
from tilespec.checks.deviation import Waived
from tilespec.checks.rule import Context, Finding, Rule
from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.model import Diagnostic
from tilespec.job.types import Job
from tilespec.practice.lookup import Practice
from tilespec.sequence.types import Sequence
from tilespec.takeoff.types import TakeOff

__all__ = ["ENTRIES", "RULES", "Review", "Waived", "check", "review"]

# By code. Codes are never reused or renumbered. T20 membrane and falls, T21 adhesive, T22 base, T23 climate,
# T24 set-out and joints, T25 slip, T26 heating, T29 deviations.
RULES: tuple[Rule, ...] = (
    wet_zone_without_membrane.RULE,
    splash_area_without_membrane.RULE,
    membrane_too_low.RULE,
    membrane_too_thin.RULE,
    fall_outside_limits.RULE,
    plane_of_fall_too_flat.RULE,
    fall_not_set_out.RULE,
    fall_beside_level_floor.RULE,
    heated_floor_without_deformable_adhesive.RULE,
    d_adhesive_on_wet_floor.RULE,
    grey_adhesive_under_translucent_tile.RULE,
    unprimed_gypsum.RULE,
    tiling_too_heavy_for_base.RULE,
    direct_stone_on_gypsum_plaster.RULE,
    moisture_over_limit.RULE,
    moisture_reading_unjudged.RULE,
    screed_too_young.RULE,
    plaster_too_young.RULE,
    temperature_outside_product_range.RULE,
    joint_too_narrow.RULE,
    low_window_cut.RULE,
    sliver_cut.RULE,
    slip_class_too_low.RULE,
    slip_class_missing.RULE,
    heating_too_strong_on_timber.RULE,
)

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
    standing, waived = deviation.apply(context, RULES, findings)
    found = [deviation.offered(context, rule, f).diagnostic for rule, f in _merged(context, standing)]
    found += deviation.faults(context, RULES)
    if all(given.values()):
        found += deviation.unused(context, RULES, waived)
    order = {name: n for n, name in enumerate(job.files)}
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
