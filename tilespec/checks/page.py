"""The page of all rules, as Markdown: `grammar/RULES.md`. `tilespec explain --page` prints it."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks import RULES
from tilespec.checks.register import GUARDS, NEEDS, SEEN, Held, LimitOf, Subject, count, limits_of, subjects, well_sourced
from tilespec.checks.rule import Rule, noted

COMMAND = "python -m tilespec explain --page > grammar/RULES.md"
_HEADS = {"body": "body", "press": "press", "restated": "restated", "memory": "memory", "": "no limit"}


def page() -> str:
    """The whole page. The same rules and practice give the same text."""
    return "\n".join(_lines())


def _lines() -> Iterator[str]:
    yield f"""\
# The rules of fitness

This page is made from the rules themselves and from the practice data; nobody writes it by hand. To make it again:

    {COMMAND}

`tilespec check` tells what a rule finds; `tilespec explain CODE` shows one rule, `tilespec explain SUBJECT` those of a subject.
A limit is the owner's whom it names; a family that has none of its own borrows it. Local codes, data sheets and licensed
practice go before all of them.

How a limit was verified:
"""
    for how, words in SEEN.items():
        yield f"- **{_HEADS[how]}**: {words}"
    yield ""
    yield (
        f"{len(RULES)} rules; {well_sourced()} of them rest on at least one limit that was seen with the body itself or in the"
        " trade's press. Each is counted by the best verification of its limits."
    )
    yield ""
    yield "| Subject | Rules | " + " | ".join(_HEADS.values()) + " |"
    yield "|---|--:|" + "--:|" * len(_HEADS)
    for subject in subjects():
        yield _counted(subject.title, subject.rules)
    yield _counted("All", RULES)
    for subject in subjects():
        yield from _subject(subject)


def _counted(title: str, rules: tuple[Rule, ...]) -> str:
    found = count(rules)
    return f"| {title} | {len(rules)} | " + " | ".join(str(found[how] or "") for how in _HEADS) + " |"


def _subject(subject: Subject) -> Iterator[str]:
    yield ""
    yield f"## {subject.title}"
    if not subject.rules:
        yield ""
        yield "No rule yet."
    for rule in subject.rules:
        yield from _rule(rule)


def _rule(rule: Rule) -> Iterator[str]:
    yield ""
    yield f"### {rule.code} {rule.name}"
    yield ""
    yield f"**{rule.title}.** {rule.severity.value.capitalize()}. Guards: {GUARDS[rule.guards]}. Looks at: {NEEDS[rule.needs]}."
    for part in rule.entry.explanation.split("\n\n"):
        yield ""
        yield " ".join(part.split())
    limits = limits_of(rule)
    if limits:
        yield ""
        yield "| Limit | Family | Value | Source | Verified |"
        yield "|---|---|---|---|---|"
        for limit in limits:
            yield from _limit(limit)
    for title, spec in (("With the fault", rule.bad), ("Without it", rule.good)):
        yield ""
        yield f"{title}:"
        yield ""
        yield "```tilespec"
        yield spec.strip("\n")
        yield "```"


def _limit(limit: LimitOf) -> Iterator[str]:
    for n, held in enumerate(limit.held):
        v = held.value
        note = f" ({noted(v.note)})" if v.note else ""
        cells = (limit.what if n == 0 else "", family(held), held.text, v.source + note, _HEADS[v.seen])
        yield "| " + " | ".join(_cell(c) for c in cells) + " |"
    if limit.without:
        yield f"| | {', '.join(limit.without)} | none | | |"


def family(held: Held) -> str:
    """Whose a value is, and who borrows it."""
    if held.value.family == "common":
        return "all"
    return f"{held.value.family}, borrowed by {', '.join(held.borrowers)}" if held.borrowers else held.value.family


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("<", "&lt;")
