"""`tilespec check`: everything there is to say about specs, and nothing written."""

from __future__ import annotations

import sys

import click

from tilespec import pipeline
from tilespec.cli import options, output
from tilespec.cli.status import Status
from tilespec.diagnostics import json_report, sarif, short, text
from tilespec.workspace.host import DiskHost

EXAMPLES = """\b
Examples:
  tilespec check job.tilespec
  tilespec check jobs/*.tilespec --library stock --short
  tilespec explain T2401
"""


@click.command("check", short_help="Say what is wrong in specs, all in one run.", epilog=EXAMPLES)
@options.specs
@click.option("--json", "form", flag_value="json", help="As JSON, for programs.")
@click.option("--short", "form", flag_value="short", help="One line each: file:line:column: severity[code]: message.")
@click.option("--sarif", "form", flag_value="sarif", help="As SARIF 2.1.0, for code review systems.")
@options.library
def command(specs: tuple[str, ...], form: str | None, library: str | None) -> int:
    """Say what is wrong or missing in the SPECs, all in one run; nothing is written.

    While a spec has errors in what it says, its work is not judged yet: more may follow once these are mended.

    The exit status is 1 when a spec has errors. Warnings and notes do not change it.
    """
    host = DiskHost()
    compiled = [pipeline.compile(spec, host, library) for spec in specs]
    found = pipeline.gather(compiled)
    status = Status.SPEC if found.failed else Status.FINE
    if form == "json":
        output.out(json_report.render(found.diagnostics, found.sources, status))
        return status
    if form == "sarif":
        output.out(sarif.render(found.diagnostics, found.sources))
        return status
    if form == "short":
        output.out(short.render(found.diagnostics, found.sources))
        return status
    output.out(text.render(found.diagnostics, found.sources, output.palette(sys.stdout), output.columns()))
    output.tell(f"{text.summary(found.diagnostics) or 'no faults'}{'' if found.failed else _open(compiled)}\n")
    return status


def _open(compiled: list[pipeline.Compiled]) -> str:
    """What the specs leave open: no fault, but to be settled before the work starts."""
    count = sum(len(one.plan.job.questions) for one in compiled if one.plan)
    if not count:
        return ""
    return f"; {count} question{'s' if count > 1 else ''} open, listed in part 2 of the print"
