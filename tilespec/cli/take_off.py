"""`tilespec take-off`: what the job takes, as tables, for a spreadsheet, and as JSON."""

from __future__ import annotations

import click

from tilespec import pipeline
from tilespec.cli import options
from tilespec.cli import paper as papers
from tilespec.cli.tables import tell

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
    return tell(pipeline.take_off, specs, form, wording, library, undone="measured")
