"""`tilespec explain`: a diagnostic, why it matters, and a spec with and without it."""

from __future__ import annotations

import textwrap

import click

from tilespec.cli import output
from tilespec.diagnostics.catalogue import UnknownDiagnostic, entries, explain
from tilespec.diagnostics.entry import Entry


@click.command("explain", short_help="Explain a message: why it matters and what to do.")
@click.argument("rule", metavar="[CODE or NAME]", required=False)
def command(rule: str | None) -> None:
    """Explain the message with this CODE or NAME, such as T0301. Without one, list them all."""
    if rule is None:
        wide = max(len(entry.name) for entry in entries())
        output.out("".join(f"{e.code}  {e.severity.value:<7}  {e.name:<{wide}}  {e.title}\n" for e in entries()))
        return
    try:
        entry = explain(rule)
    except UnknownDiagnostic as fault:
        near = f" Did you mean {fault.suggestion}?" if fault.suggestion else " `tilespec explain` lists them."
        raise click.UsageError(f"no message has the code or name {rule!r}.{near}") from None
    output.out(_page(entry))


def _page(entry: Entry) -> str:
    paragraphs = [f"{entry.code} {entry.name} ({entry.severity.value})", entry.title]
    paragraphs += [textwrap.fill(" ".join(part.split()), 100) for part in entry.explanation.strip().split("\n\n") if part]
    if entry.bad.strip():
        paragraphs += ["With the fault:", textwrap.indent(entry.bad.strip("\n"), "    ")]
    if entry.good.strip():
        paragraphs += ["Without it:", textwrap.indent(entry.good.strip("\n"), "    ")]
    return "\n\n".join(paragraphs) + "\n"
