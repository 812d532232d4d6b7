"""`tilespec survey`: the sheet for the van, blank or with what one spec leaves open."""

from __future__ import annotations

import os
from functools import partial

import click

from tilespec import pipeline
from tilespec.cli import options, output
from tilespec.cli import paper as papers
from tilespec.cli.sound import sound
from tilespec.cli.status import Status
from tilespec.diagnostics.printable import printable
from tilespec.practice.lookup import PARENTS

EXAMPLES = """\b
Examples:
  tilespec survey
  tilespec survey --practice US -o sheet.pdf
  tilespec survey job.tilespec
"""


@click.command("survey", short_help="Print a survey sheet to fill in on site.", epilog=EXAMPLES)
@click.argument("spec", required=False, type=click.Path())
@click.option("--to", "form", type=click.Choice(pipeline.SHEETS), help="Kind of print; else as -o is named, else pdf.")
@click.option(
    "-o", "--output", "target", metavar="FILE", type=click.Path(),
    help="File to write, or folder, or - for standard output. Without it: survey.pdf, or SPEC-survey.pdf beside the spec.",
)
@click.option("--practice", "family", metavar="|".join(PARENTS), type=click.Choice(tuple(PARENTS)),
              help="Units and limits of the blank sheet; EN if none is given.")
@papers.paper
@options.library
@papers.wording
def command(
    spec: str | None, form: str | None, target: str | None, family: str | None, paper: str | None, library: str | None,
    wording: str | None,
) -> int:
    """Print a survey sheet.

    With a SPEC: what that spec leaves open, by who would know, with the words to answer in. Without: a blank sheet for a room.
    """
    if spec is not None and family is not None:
        raise click.UsageError("the spec says its practice: --practice is for the blank sheet")
    form = form or papers.form_of(target, pipeline.SHEETS)
    path = _target(spec, target, form)
    press = papers.press(form)
    compiled = None
    if spec is not None:
        made = sound((spec,), library, json=False, undone="printed")
        if made is None:
            return Status.SPEC
        compiled = made[0][0]
        papers.spare_inputs((path,), made[1].sources)
    order = pipeline.Order(form, (), paper, papers.Wording(wording) if wording else None, papers.created())
    printed = papers.printed(partial(pipeline.survey, compiled, order, family or "EN", press), wording)
    for note in printed.notes:
        output.say(f"note: {printable(note)}\n")
    if path == "-":
        output.out(printed.data)
        return Status.FINE
    output.write([output.Result(path, printed.data)])
    output.tell(f"wrote {printable(path)}\n")
    return Status.FINE


def _target(spec: str | None, target: str | None, form: str) -> str:
    name = f"{os.path.splitext(os.path.basename(spec))[0]}-survey.{form}" if spec else f"survey.{form}"
    if target is None:
        return os.path.join(os.path.dirname(spec), name) if spec else name
    return os.path.join(target, name) if os.path.isdir(target) or target.endswith(os.sep) else target
