"""`tilespec explain`: a diagnostic, why it matters, the limits behind it, and a spec with and without it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

import click

from tilespec.checks.page import page
from tilespec.checks.register import GUARDS, NEEDS, SEEN, Held, LimitOf, Subject, catalogue, limits_of, rule_of
from tilespec.checks.rule import noted
from tilespec.cli import output
from tilespec.diagnostics.catalogue import UnknownDiagnostic, explain
from tilespec.diagnostics.entry import Entry
from tilespec.document.table import filled, table
from tilespec.job.meaning import Meaning, meaning
from tilespec.practice.lookup import practice
from tilespec.quantity import Limit
from tilespec.quantity.typed import typed

# Prose is no wider, however wide the terminal; and so where there is none.
WIDE = 100


EXAMPLES = """\b
Examples:
  tilespec explain T2401
  tilespec explain joint-too-narrow
  tilespec explain membrane
  tilespec explain C2TES1
"""


def _offered(_context: click.Context, _parameter: click.Parameter, begun: str) -> list[str]:
    """Names, codes and subjects that begin so; codes only where one is begun."""
    subjects = catalogue()
    names = [e.name for s in subjects for e in s.entries] + [s.key for s in subjects]
    codes = [e.code for s in subjects for e in s.entries] if begun[:1] == "T" else []
    return sorted({word for word in (*names, *codes) if word.startswith(begun)})


@click.command("explain", short_help="Explain a message: why it matters and what to do.", epilog=EXAMPLES)
@click.argument("rule", metavar="[CODE, NAME or SUBJECT]", required=False, shell_complete=_offered)
@click.option("--page", "whole", is_flag=True, help="Print the page of all rules of fitness, as Markdown.")
def command(rule: str | None, whole: bool) -> None:
    """Explain the message with this CODE or NAME, such as T2401, with the limits behind it.

    With a SUBJECT, such as membrane, list its messages. Without anything, list them all, subject by subject.
    A class of a product or a tile, such as C2TES1, CG2WA, R10 or BIII, is taken apart into what it stands for.
    """
    columns = output.columns()
    if whole:
        if rule is not None:
            raise click.UsageError("--page prints all rules: leave out the code, name or subject.")
        output.out(page())
        return
    if rule is None:
        output.out(_listed((s for s in catalogue() if s.entries), columns))
        return
    subject = next((s for s in catalogue() if s.key == rule.strip().lower()), None)
    if subject is not None:
        output.out(_listed([subject], columns))
        return
    try:
        entry = explain(rule)
    except UnknownDiagnostic as fault:
        if (found := meaning(rule, practice("EN"))) is not None:
            output.out(_meaning(found, min(columns or WIDE, WIDE)))
            return
        near = f" Did you mean {fault.suggestion}?" if fault.suggestion else " `tilespec explain` lists them."
        raise click.UsageError(f"no message has the code or name {rule!r}.{near}") from None
    output.out(_page(entry, min(columns or WIDE, WIDE)))


def _listed(subjects: Iterable[Subject], columns: int | None) -> str:
    """Where it is no terminal, one message on one line."""
    blocks = []
    for s in subjects:
        rows = [(e.code, e.severity.value, e.name, e.title) for e in s.entries]
        lines = [*filled(f"{s.title} ({s.key})", columns), *_table(rows, columns, 2)]
        blocks.append("\n".join(lines if s.entries else [*lines, "  none yet"]))
    return "\n\n".join(blocks) + "\n"


def _page(entry: Entry, columns: int) -> str:
    paragraphs = [_filled(f"{entry.code} {entry.name} ({entry.severity.value})", columns), _filled(entry.title, columns)]
    paragraphs += [_filled(" ".join(part.split()), columns) for part in entry.explanation.strip().split("\n\n") if part]
    rule = rule_of(entry)
    if rule is not None:
        looks = _filled(f"Guards: {GUARDS[rule.guards]}.", columns), _filled(f"Looks at: {NEEDS[rule.needs]}.", columns)
        paragraphs.append("\n".join(looks))
        limits = limits_of(rule)
        if limits:
            paragraphs.append("Limits by family:\n" + "\n".join(line for limit in limits for line in _limit(limit, columns)))
    # A sample stays as it is written, so that it can be copied.
    if entry.bad.strip():
        paragraphs += ["With the fault:", textwrap.indent(entry.bad.strip("\n"), "    ")]
    if entry.good.strip():
        paragraphs += ["Without it:", textwrap.indent(entry.good.strip("\n"), "    ")]
    return "\n\n".join(paragraphs) + "\n"


def _meaning(found: Meaning, columns: int) -> str:
    """The class, then what each of its parts stands for, with the figure of the test."""
    rows = []
    for p in found.parts:
        told = p.words
        if p.figure is not None:
            what, figure = p.figure
            assert isinstance(figure.why, Limit)
            told += f". {what}: {typed(figure)} ({figure.why.source}; {SEEN[figure.why.seen]})"
        rows.append((p.letters, f"{told}."))
    last = _filled("A class says how a product was tested, not where it must be used: that is the practice's.", columns)
    return "\n".join([
        _filled(f"{found.written} ({found.what}, {found.standard})", columns), "", *_table(rows, columns, 2), "", last,
    ]) + "\n"


def _limit(limit: LimitOf, columns: int) -> Iterator[str]:
    """The limit, then each value of it: whose it is, how much, where it stands, how that was verified, who borrows it."""
    yield from filled(limit.what, columns, 2)
    rows = [(_owner(held), held.text, _told(held)) for held in limit.held]
    if limit.without:
        rows.append((", ".join(limit.without), "none", "the rule asks for nothing there."))
    yield from _table(rows, columns, 4)


def _table(rows: Sequence[tuple[str, ...]], columns: int | None, indent: int) -> Iterator[str]:
    if rows:
        yield from table(("",) * len(rows[0]), rows, (False,) * len(rows[0]), columns, indent)


def _owner(held: Held) -> str:
    return "all" if held.value.family == "common" else held.value.family


def _told(held: Held) -> str:
    v = held.value
    told = f"{v.source}; {SEEN[v.seen]}" + (f"; {noted(v.note)}" if v.note else "")
    return f"{told}." + (f" Borrowed by {', '.join(held.borrowers)}." if held.borrowers else "")


def _filled(text: str, columns: int) -> str:
    return "\n".join(filled(text, columns))
