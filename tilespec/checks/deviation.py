"""Deviations: what a written reason silences, and what none does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tilespec.checks.rule import INJURY, QUALITY, Context, Finding, Rule
from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.language import ENTRIES as LANGUAGE
from tilespec.diagnostics.model import Diagnostic, Edit, Fix, Severity
from tilespec.diagnostics.suggest import nearest
from tilespec.job.types import Deviation

# The note that offers a deviation, where one line is enough.
_MEANT, _ONE = "If it is meant, write why: ", "."

_WINDOW = """\
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
datum 1.0 above finished floor
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; full tile at datum
  window 0.6 x 0.9; 0.6 from left, 1.2 up
"""
_WHY = 'on wall A because "matches the hall, agreed by the client 2026-02-20"\n'
_ACCEPTED = _WINDOW + "deviation low-window-cut " + _WHY

REFUSED = Entry(
    "T2901",
    "deviation-refused",
    Severity.ERROR,
    "A deviation from a rule that allows none",
    "Rules that guard against injury, and the legal minima of waterproofing, cannot be silenced, whatever the reason;"
    " nor can what is wrong in the spec itself.\n\nPut right what the rule found, and take the deviation out.",
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone; membrane none
deviation wet-zone-without-membrane on wall A because "the client wants no membrane"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
)
UNKNOWN = Entry(
    "T2902",
    "deviation-of-unknown-rule",
    Severity.ERROR,
    "A deviation from a rule that does not exist",
    "A deviation names a rule by its name or its code, as the message shows it. One that names nothing silences nothing.",
    bad=_WINDOW + "deviation low-windw-cut " + _WHY,
    good=_ACCEPTED,
)
UNUSED = Entry(
    "T2903",
    "deviation-without-effect",
    Severity.WARNING,
    "A deviation that silences nothing",
    "The rule finds nothing at this place, so there is nothing to deviate from. A stale one misleads its reader."
    "\n\nTake it out, or name the place where the rule speaks.",
    bad=_ACCEPTED.replace("0.6 x 0.9", "0.6 x 0.85"),
    good=_ACCEPTED,
)
ENTRIES = (REFUSED, UNKNOWN, UNUSED)


@dataclass(frozen=True, slots=True)
class Waived:
    """What a deviation silences: for the print's register of deviations."""

    deviation: Deviation
    diagnostic: Diagnostic


def named(deviation: Deviation, rules: Sequence[Rule]) -> Rule | None:
    """The rule that a deviation names, by name or by code."""
    asked = deviation.rule.text.strip().casefold()
    return next((r for r in rules if asked in (r.name, r.code.casefold())), None)


def covers(deviation: Deviation, finding: Finding) -> bool:
    """All places of the finding lie in the deviation's place: the surface itself, or the room that it is in."""
    return bool(finding.places) and all(p == deviation.place or p.startswith(deviation.place + "/") for p in finding.places)


def faults(context: Context, rules: Sequence[Rule]) -> tuple[Diagnostic, ...]:
    """Deviations that cannot stand: from an unknown rule, or from one that allows none."""
    found: list[Diagnostic] = []
    for d in context.job.deviations:
        rule = named(d, rules)
        if rule is not None and rule.guards == QUALITY:
            continue
        text, span = d.rule.text, d.rule.span
        if rule is not None:
            danger = "injury" if rule.guards == INJURY else "water in the building"
            found.append(
                REFUSED.at(
                    span,
                    f"{rule.name} guards against {danger}: no reason silences it.",
                    "cannot be deviated from",
                    "Put right what the rule found, and take the deviation out.",
                )
            )
        elif (entry := _language(text)) is not None:
            found.append(
                REFUSED.at(
                    span,
                    f"{entry.name} is about the spec itself, not about the work: it cannot be deviated from.",
                    "no rule of fitness",
                    "Put right what the message says, and take the deviation out.",
                )
            )
        else:
            near = nearest(text, [r.name for r in rules])
            found.append(
                UNKNOWN.at(
                    span,
                    f"There is no rule `{text}`.",
                    "not a rule",
                    f"Did you mean `{near}`?"
                    if near
                    else "The message to be silenced shows its rule's name; `tilespec explain` lists them.",
                    (Fix(f"write {near}", (Edit(span, near),)),) if near else (),
                )
            )
    return tuple(found)


def _language(text: str) -> Entry | None:
    asked = text.strip().casefold()
    return next((e for e in LANGUAGE if asked in (e.name, e.code.casefold())), None)


def apply(
    context: Context, rules: Sequence[Rule], findings: Sequence[tuple[Rule, Finding]]
) -> tuple[tuple[tuple[Rule, Finding], ...], tuple[Waived, ...]]:
    """What still stands, and what a deviation silences."""
    standing: list[tuple[Rule, Finding]] = []
    waived: list[Waived] = []
    for rule, finding in findings:
        allowed = context.job.deviations if rule.guards == QUALITY else ()
        accepted = [d for d in allowed if named(d, rules) is rule and covers(d, finding)]
        if accepted:
            waived.append(Waived(accepted[0], finding.diagnostic))
        else:
            standing.append((rule, finding))
    return tuple(standing), tuple(waived)


def unused(context: Context, rules: Sequence[Rule], waived: Sequence[Waived]) -> tuple[Diagnostic, ...]:
    """Deviations from known rules that silenced nothing."""
    used = [w.deviation for w in waived]
    return tuple(
        UNUSED.at(
            d.rule.span,
            f"{d.rule.text} finds nothing here: this deviation silences nothing.",
            "without effect",
            "Take it out, or name the place where the rule speaks.",
        )
        for d in context.job.deviations
        if d not in used and (rule := named(d, rules)) is not None and rule.guards == QUALITY
    )


def offered(context: Context, rule: Rule, finding: Finding) -> Finding:
    """The finding with the line that would silence it, where one may."""
    if rule.guards != QUALITY or not finding.places:
        return finding
    line = f'{_MEANT}`deviation {rule.name} on {_place(context, finding.places[0])} because "..."`'
    line += _ONE if len(finding.places) == 1 else ", and so for each place."
    return replace(finding, diagnostic=replace(finding.diagnostic, notes=(*finding.diagnostic.notes, line)))


def line_offered(d: Diagnostic) -> str | None:
    """The line that would silence a message, with its reason still to be written; None where no single line would."""
    note = next((n for n in d.notes if n.startswith(_MEANT)), "")
    return note.removeprefix(_MEANT).removesuffix(_ONE).strip("`") if note.endswith("`" + _ONE) else None


def _place(context: Context, place: str) -> str:
    """A surface as a spec writes it; with its room where there are several."""
    surface = next((s for s in context.job.surfaces if s.id == place), None)
    if surface is None:
        return f'"{place}"'
    on = "floor" if surface.kind == "floor" else f"wall {surface.letter}"
    return f'"{surface.room}" {on}' if context.several else on
