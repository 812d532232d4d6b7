"""`tilespec programme`: the days and the steps of the job, as tables and as JSON."""

from __future__ import annotations

import click

from tilespec import pipeline
from tilespec.cli import options
from tilespec.cli import paper as papers
from tilespec.cli.tables import tell

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
    return tell(pipeline.programme, specs, form, wording, library, undone="planned")
