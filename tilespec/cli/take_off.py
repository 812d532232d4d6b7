"""`tilespec take-off`: what the job takes, as tables, for a spreadsheet, and as JSON."""

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
  tilespec take-off job.tilespec
  tilespec take-off job.tilespec --csv > order.csv
  tilespec take-off job.tilespec --json > order.json
"""


@click.command("take-off", short_help="Say what to order, and where it goes.", epilog=EXAMPLES)
@options.specs
@click.option("--json", "form", flag_value="json", help="As JSON, with what stands behind every number.")
@click.option("--csv", "form", flag_value="csv", help="As comma-separated values, for a spreadsheet.")
@papers.wording
@options.library
def command(specs: tuple[str, ...], form: str | None, wording: str | None, library: str | None) -> int:
    """Say what the SPECs take: each material with its class, net, allowance and gross, packs to order and weight; tiles whole,
    to cut and to spare; and where each goes. The numbers are those of the print.

    On a terminal the tables are as wide as it is; elsewhere every row is one line.
    """
    if form and len(specs) > 1:
        raise click.UsageError(f"--{form} takes one spec: each is a text of its own")
    made = sound(specs, library, json=form == "json", undone="measured")
    if made is None:
        return Status.SPEC
    firm = papers.Wording(wording) if wording else None
    for n, one in enumerate(made[0]):
        if len(specs) > 1:
            output.out(f"{chr(10) if n else ''}{printable(one.path)}\n\n")
        with output.working(f"{one.path}: setting out"):
            ask = partial(pipeline.take_off, one, form or "text", output.columns(), output.palette(sys.stdout), firm)
            told = papers.printed(ask, wording)
        output.out(told)
    return Status.FINE
