"""A comparison for people: as text for a terminal, and as Markdown for the comment of a review."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby

from tilespec.compare.types import Came, Change, Changed, Comparison, Fact, Gone, Moved, Part, Value
from tilespec.diagnostics.printable import printable, width
from tilespec.diagnostics.text import PLAIN, Palette
from tilespec.document.escape import md_words
from tilespec.document.show import show, show_change
from tilespec.document.table import filled, table
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


def signed(change: Changed, family: str) -> str:
    """`+3`, `−0.40 m`: the difference of the two as printed; empty where there is none."""
    if change.difference is None:
        return ""
    if isinstance(change.old, Quantity) and isinstance(change.new, Quantity):
        return show_change(change.old, change.new, change.difference, family)
    text = show(change.difference, family)
    return f"+{text}" if change.difference.value > 0 else text


def _alike(change: Change, family: str) -> bool:
    """A change so small that both sides are printed alike says nothing to a person; any that can be seen in the print is told."""
    return isinstance(change, Changed) and said(change.old, family) == said(change.new, family)


def _too_small(part: Part, seen: tuple[Change, ...]) -> Iterator[str]:
    count = len(part.changes) - len(seen)
    if count:
        yield f"{count} change{'s' if count > 1 else ''} too small to be seen in the print"


@dataclass(frozen=True, slots=True)
class _Row:
    what: str
    old: str
    new: str
    difference: str


@dataclass(frozen=True, slots=True)
class _Group:
    """Things in which the very same has changed. names: one at least; "" is the job itself."""

    names: tuple[str, ...]
    rows: tuple[_Row, ...]


def _told(changes: Iterable[Change], family: str) -> Iterator[_Group | Came | Gone | Moved]:
    """The changes in their order, those of one thing together; several in which the same has changed are told once."""
    groups: dict[tuple[_Row, ...], list[str]] = {}
    told: list[tuple[_Row, ...] | Came | Gone | Moved] = []
    for about, group in groupby(changes, lambda x: x.about if isinstance(x, Changed) else None):
        if about is None:
            told += [x for x in group if not isinstance(x, Changed)]
            continue
        rows = tuple(
            _Row(x.what, said(x.old, family), said(x.new, family), signed(x, family)) for x in group if isinstance(x, Changed)
        )
        name = ", ".join(about)
        # A single line says where it belongs: nothing is won by telling it together with others.
        if len(rows) == 1 or rows not in groups:
            told.append(rows)
            groups.setdefault(rows, []).append(name)
        else:
            groups[rows].append(name)
    for one in told:
        if not isinstance(one, tuple):
            yield one
        elif len(one) == 1:
            yield _Group((groups[one].pop(0),), one)
        else:
            yield _Group(tuple(groups[one]), one)


# ---------------------------------------------------------------- text

# What is piped has one row on one line; a list that is longer than this has a line for each of its things.
_LONG = 120
# A text as long as this stands by itself: in a table it would push the numbers of its neighbours to the right.
_WORDY = 32


def text(c: Comparison, columns: int | None = None, palette: Palette = PLAIN) -> str:
    """Text with a line break at its end. columns: width of the terminal; None: nothing is broken."""
    if c.same:
        return SAME + "\n"
    lines = [line for words in (f"old: {printable(c.old)}", f"new: {printable(c.new)}") for line in filled(words, columns, 0, 2)]
    for side in c.unsound:
        lines += filled(_UNSOUND[side], columns)
    for part in c.parts:
        lines += ["", f"{palette.strong}{TITLES[part.key]}{palette.end}"]
        seen = tuple(x for x in part.changes if not _alike(x, c.family))
        for one in _told(seen, c.family):
            match one:
                case _Group():
                    lines += _group(one, columns)
                case Moved():
                    name = printable(", ".join(one.about))
                    lines += filled(f"~ {name}: {_after(one.old)} → {_after(one.new)}", columns, 2, 2)
                case _:
                    lines += _alone(one, c.family, columns, part.key == "steps")
        for words in _too_small(part, seen):
            lines += filled(words, columns, 2, 2)
    if c.diagnostics:
        lines += ["", f"{palette.strong}{TITLES['diagnostics']}{palette.end}"]
        for d in c.diagnostics:
            code = f"{d.severity.value}[{d.code}]"
            first, *more = filled(f"{'+ ' if d.new else '− cleared: '}{code} {d.name}: {printable(d.message)}", columns, 2, 2)
            if colour := palette.of(d.severity):
                first = first.replace(code, f"{colour}{code}{palette.end}", 1)
            lines += [first, *more]
    return "\n".join(lines) + "\n"


def _group(group: _Group, columns: int | None) -> Iterator[str]:
    names = [printable(name) for name in group.names if name]
    if names and len(group.rows) == 1:
        yield from filled(f"{names[0]}: {_line(group.rows[0])}", columns, 2, 2)
        return
    for name in names:
        yield from filled(name, columns, 2, 2)
    indent = 4 if names else 2
    for wordy, run in groupby(group.rows, lambda r: max(map(width, (r.what, r.old, r.new))) > _WORDY):
        rows = tuple(run)
        if wordy:
            for r in rows:
                yield from filled(_line(r), columns, indent, 2)
            continue
        cells = [(printable(r.what), r.old, f"→ {r.new}", f"({r.difference})" if r.difference else "") for r in rows]
        yield from table(("",) * 4, cells, (False,) * 4, columns, indent)


def _line(r: _Row) -> str:
    return f"{printable(r.what)} {r.old} → {r.new}" + (f" ({r.difference})" if r.difference else "")


def _alone(change: Came | Gone, family: str, columns: int | None, short: bool) -> Iterator[str]:
    """What came or went. `short`: its gist; the rest of a new step stands in the print."""
    name = f"{'+' if isinstance(change, Came) else '−'} {printable(', '.join(change.about))}"
    facts = _facts(_gist(change.facts, short), family)
    whole = f"{name}: {', '.join(facts)}" if facts else name
    if len(facts) < 2 or 2 + width(whole) <= min(columns or _LONG, _LONG):
        yield from filled(whole, columns, 2, 2)
        return
    yield from filled(name, columns, 2, 2)
    for fact in facts:
        yield from filled(fact, columns, 6, 2)


def _after(step: str) -> str:
    return f"after {printable(step)}" if step else "first of all"


def _gist(facts: tuple[Fact, ...], short: bool) -> tuple[Fact, ...]:
    return tuple(f for f in facts if f.what in _GIST) if short else facts


def _facts(facts: tuple[Fact, ...], family: str) -> list[str]:
    return [printable(f.what) if f.value == "yes" else f"{printable(f.what)} {said(f.value, family)}" for f in facts]


# ---------------------------------------------------------------- Markdown


def markdown(c: Comparison) -> str:
    """Markdown: a heading and a table for each subject."""
    if c.same:
        return f"### What changed in the job\n\n{SAME}\n"
    lines = ["### What changed in the job", "", f"From {md_words(c.old)} to {md_words(c.new)}."]
    lines += [line for side in c.unsound for line in ("", _UNSOUND[side])]
    for part in c.parts:
        lines += ["", f"#### {TITLES[part.key]}", ""]
        seen = tuple(x for x in part.changes if not _alike(x, c.family))
        if seen:
            lines += ["| | what | old | new | difference |", "|---|---|---|---|---|"]
            rows = (row for one in _told(seen, c.family) for row in _rows(one, c.family, part.key == "steps"))
            lines += [f"| {' | '.join(row)} |" for row in rows]
        for words in _too_small(part, seen):
            lines += [""] * bool(seen) + [f"{words[:1].upper()}{words[1:]}."]
    if c.diagnostics:
        lines += ["", f"#### {TITLES['diagnostics']}", ""]
        for d in c.diagnostics:
            state = "new" if d.new else "cleared"
            lines.append(f"- {state}: {d.severity.value} {d.code} {d.name}: {md_words(d.message)}")
    return "\n".join(lines) + "\n"


def _rows(one: _Group | Came | Gone | Moved, family: str, short: bool) -> Iterator[tuple[str, ...]]:
    if isinstance(one, _Group):
        name = _cell("; ".join(one.names) or _WHOLE)
        yield from ((name, *map(_cell, (r.what, r.old, r.new, r.difference))) for r in one.rows)
        return
    name = _cell(", ".join(one.about))
    if isinstance(one, Moved):
        yield name, "moved", _cell(_after(one.old)), _cell(_after(one.new)), ""
        return
    facts = _cell(", ".join(_facts(_gist(one.facts, short), family)))
    yield (name, "**added**", "", facts, "") if isinstance(one, Came) else (name, "**removed**", facts, "", "")


def _cell(words: str) -> str:
    return md_words(words, cell=True)
