"""A comparison for people: as text for a terminal, and as Markdown for the comment of a review."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from datetime import date, datetime
from itertools import groupby

from tilespec.compare.types import Came, Change, Changed, Comparison, Fact, Gone, Moved, Part, Value
from tilespec.diagnostics.printable import printable, width
from tilespec.diagnostics.text import PLAIN, Palette
from tilespec.document.escape import md_escape
from tilespec.document.show import show
from tilespec.document.text import date_ref
from tilespec.quantity import Quantity

TITLES = {
    "job": "Job", "rooms": "Rooms and sizes", "bases": "Bases", "tiling": "Tiling", "tiles": "Tiles", "products": "Products",
    "set_out": "Set-out", "quantities": "To order", "working": "Mixes, trowels, heating", "steps": "Steps",
    "programme": "Hours and dates", "points": "Hold and witness points", "deviations": "Deviations", "records": "Records",
    "questions": "Open questions", "diagnostics": "Messages",
}
SAME = "Nothing changed in the job."
_UNSOUND = {
    "old": "The old one has errors or nothing to tile: only messages are compared.",
    "new": "The new one has errors or nothing to tile: only messages are compared.",
}
_GIST = ("on", "trade", "labour")
# What has no name of its own, in a table that needs one.
_WHOLE = "job"


def said(value: Value | None, family: str) -> str:
    """A value as printed; a dash where one side says nothing."""
    match value:
        case None:
            return "–"
        case Quantity():
            return show(value, family)
        case datetime():
            return f"{date_ref(value.date()).text} {value:%H:%M}"
        case date():
            return date_ref(value).text
    return printable(value)


def signed(difference: Quantity | None, family: str) -> str:
    """`+3`, `−0.40 m`; empty where there is none, or one that is printed as nought."""
    text = show(difference, family) if difference is not None else ""
    if difference is None or not any(digit in text for digit in "123456789"):
        return ""
    return f"+{text}" if difference.value > 0 else text


def _alike(change: Change, family: str) -> bool:
    """A change so small that both sides are printed alike: it says nothing to a person."""
    return isinstance(change, Changed) and said(change.old, family) == said(change.new, family)


def _too_small(part: Part, seen: tuple[Change, ...]) -> Iterator[str]:
    count = len(part.changes) - len(seen)
    if count:
        yield f"{count} change{'s' if count > 1 else ''} too small to show"


# ---------------------------------------------------------------- text


def text(c: Comparison, columns: int | None = None, palette: Palette = PLAIN) -> str:
    """Text with a line break at its end. columns: width of the terminal; None: lines are not broken."""
    if c.same:
        return SAME + "\n"
    lines = [f"old: {printable(c.old)}", f"new: {printable(c.new)}"]
    lines += [_UNSOUND[side] for side in c.unsound]
    for part in c.parts:
        lines += ["", f"{palette.strong}{TITLES[part.key]}{palette.end}"]
        seen = tuple(x for x in part.changes if not _alike(x, c.family))
        for heading, group in groupby(seen, _heading):
            lines += _group(heading, tuple(group), c.family, columns, part.key == "steps")
        lines += [f"  {words}" for words in _too_small(part, seen)]
    if c.diagnostics:
        lines += ["", f"{palette.strong}{TITLES['diagnostics']}{palette.end}"]
        for d in c.diagnostics:
            lead = "  + " if d.new else "  − cleared: "
            colour = palette.of(d.severity)
            head = f"{lead}{d.severity.value}[{d.code}] {d.name}: "
            first, *more = _filled(head + printable(d.message), 4, columns)
            if colour:
                first = first.replace(f"{d.severity.value}[{d.code}]", f"{colour}{d.severity.value}[{d.code}]{palette.end}", 1)
            lines += [first, *more]
    return "\n".join(lines) + "\n"


def _heading(change: Change) -> str | None:
    """Where several facts of one thing changed, its name stands over them."""
    return printable(", ".join(change.about)) if isinstance(change, Changed) else None


def _group(heading: str | None, changes: tuple[Change, ...], family: str, columns: int | None, short: bool) -> Iterator[str]:
    """`short`: of what came or went, the gist; the rest of a new step stands in the print."""
    if heading is None:
        for change in changes:
            yield from _filled(_alone(change, family, short), 4, columns)
        return
    if heading and len(changes) == 1 and isinstance(one := changes[0], Changed):
        line = f"  {heading}: {printable(one.what)} {said(one.old, family)} → {said(one.new, family)}"
        yield from _filled(line + (f" ({more})" if (more := signed(one.difference, family)) else ""), 4, columns)
        return
    if heading:
        yield f"  {heading}"
    indent = 4 if heading else 2
    rows = [(printable(x.what), said(x.old, family), said(x.new, family), signed(x.difference, family))
            for x in changes if isinstance(x, Changed)]
    # A long text does not push the numbers of its neighbours to the right.
    wide = [max((width(r[n]) for r in rows if width(r[n]) <= 32), default=0) for n in range(3)]
    for r in rows:
        a, b, d = (cell + " " * (w - width(cell)) for cell, w in zip(r, wide))
        line = f"{' ' * indent}{a}  {b} → " + (f"{d}  ({r[3]})" if r[3] else r[2])
        yield from _filled(line.rstrip(), indent + 2, columns)


def _alone(change: Change, family: str, short: bool) -> str:
    name = printable(", ".join(change.about))
    if isinstance(change, Moved):
        return f"  ~ {name}: {_after(change.old)} → {_after(change.new)}"
    assert isinstance(change, Came | Gone)
    facts = _facts(_gist(change.facts, short), family)
    return f"  {'+' if isinstance(change, Came) else '−'} {name}" + (f": {facts}" if facts else "")


def _after(step: str) -> str:
    return f"after {printable(step)}" if step else "first of all"


def _gist(facts: tuple[Fact, ...], short: bool) -> tuple[Fact, ...]:
    return tuple(f for f in facts if f.what in _GIST) if short else facts


def _facts(facts: tuple[Fact, ...], family: str) -> str:
    return ", ".join(printable(f.what) if f.value == "yes" else f"{printable(f.what)} {said(f.value, family)}" for f in facts)


def _filled(line: str, indent: int, columns: int | None) -> list[str]:
    if columns is None or width(line) <= columns:
        return [line]
    return textwrap.wrap(
        line, max(columns, indent + 20), subsequent_indent=" " * (indent + 2), drop_whitespace=True, break_on_hyphens=False,
        replace_whitespace=False,
    )


# ---------------------------------------------------------------- Markdown


def markdown(c: Comparison) -> str:
    """Markdown: a heading and a table for each subject."""
    if c.same:
        return f"### What changed in the job\n\n{md_escape(SAME)}\n"
    lines = ["### What changed in the job", "", f"From {md_escape(c.old)} to {md_escape(c.new)}."]
    lines += [line for side in c.unsound for line in ("", md_escape(_UNSOUND[side]))]
    for part in c.parts:
        lines += ["", f"#### {TITLES[part.key]}", ""]
        seen = tuple(x for x in part.changes if not _alike(x, c.family))
        if seen:
            lines += ["| | what | old | new | difference |", "|---|---|---|---|---|"]
            lines += [f"| {' | '.join(_row(change, c.family, part.key == 'steps'))} |" for change in seen]
        for words in _too_small(part, seen):
            lines += [""] * bool(seen) + [f"{words[:1].upper()}{words[1:]}."]
    if c.diagnostics:
        lines += ["", f"#### {TITLES['diagnostics']}", ""]
        for d in c.diagnostics:
            state = "new" if d.new else "cleared"
            lines.append(f"- {state}: {d.severity.value} {d.code} {md_escape(d.name)}: {md_escape(d.message)}")
    return "\n".join(lines) + "\n"


def _row(change: Change, family: str, short: bool) -> tuple[str, ...]:
    name = md_escape(", ".join(change.about) or _WHOLE)
    match change:
        case Moved():
            return name, "moved", md_escape(_after(change.old)), md_escape(_after(change.new)), ""
        case Came():
            return name, "**added**", "", md_escape(_facts(_gist(change.facts, short), family)), ""
        case Gone():
            return name, "**removed**", md_escape(_facts(_gist(change.facts, short), family)), "", ""
        case Changed():
            old, new = md_escape(said(change.old, family)), md_escape(said(change.new, family))
            return name, md_escape(change.what), old, new, md_escape(signed(change.difference, family))
