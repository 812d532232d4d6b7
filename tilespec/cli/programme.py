"""`tilespec programme`: the days and the steps of the job, as tables and as JSON."""

from __future__ import annotations

import sys
from functools import partial

import click

from tilespec import pipeline
from tilespec.cli import options, output
from tilespec.cli import paper as papers
from tilespec.cli.sound import sound
from tilespec.cli.status import Status
from tilespec.diagnostics.printable import printable

EXAMPLES = """\b
Examples:
  tilespec programme job.tilespec
  tilespec programme job.tilespec --json > days.json
"""


@click.command("programme", short_help="Say which step falls on which day.", epilog=EXAMPLES)
@options.specs
@click.option("--json", "form", flag_value="json", help="As JSON, with what stands behind every number.")
@papers.wording
@options.library
def command(specs: tuple[str, ...], form: str | None, wording: str | None, library: str | None) -> int:
    """Say which step of the SPECs falls on which day: the days with their waits, the steps with who does them and what must pass
    after them, the finish, and when other trades are called. The times are those of the print.

    On a terminal the tables are as wide as it is; elsewhere every row is one line.
    """
    if form and len(specs) > 1:
        raise click.UsageError(f"--{form} takes one spec: each is a text of its own")
    made = sound(specs, library, json=form == "json", undone="planned")
    if made is None:
        return Status.SPEC
    firm = papers.Wording(wording) if wording else None
    for n, one in enumerate(made[0]):
        if len(specs) > 1:
            output.out(f"{chr(10) if n else ''}{printable(one.path)}\n\n")
        with output.working(f"{one.path}: setting out"):
            ask = partial(pipeline.programme, one, form or "text", output.columns(), output.palette(sys.stdout), firm)
            told = papers.printed(ask, wording)
        output.out(told)
    return Status.FINE
