"""`tilespec start`: a starter spec to write a job into."""

from __future__ import annotations

import os

import click

from tilespec.cli import output
from tilespec.diagnostics.printable import printable
from tilespec.resources import data_bytes

NAME = "job.tilespec"


EXAMPLES = """\b
Examples:
  tilespec start
  tilespec start boathouse.tilespec
"""


@click.command("start", short_help="Write a starter spec.", epilog=EXAMPLES)
@click.argument("path", required=False, default=NAME, type=click.Path())
def command(path: str) -> None:
    """Write a starter spec with comments to PATH (job.tilespec if none is given). A file that exists is never touched."""
    if os.path.isdir(path):
        path = os.path.join(path, NAME)
    output.create(path, data_bytes("templates/start.tilespec"))
    shown = printable(path)
    output.tell(f"wrote {shown}\nNext: change it to your job, then\n  tilespec check {shown}\n  tilespec print {shown}\n")
