"""`tilespec print`: the method statement, or a part of it, as a file."""

from __future__ import annotations

import os
from collections import Counter
from dataclasses import replace
from functools import partial

import click

from tilespec import pipeline
from tilespec.cli import options, output, revision
from tilespec.cli import paper as papers
from tilespec.cli.paper import Wording
from tilespec.cli.sound import sound
from tilespec.cli.status import Status
from tilespec.diagnostics.printable import printable
from tilespec.document.model import PARTS

EXAMPLES = """\b
Examples:
  tilespec print job.tilespec
  tilespec print job.tilespec --to html -o statement.html
  tilespec print job.tilespec --part materials --part tools
  tilespec print jobs/*.tilespec -o prints/
"""


@click.command("print", short_help="Print the method statement.", epilog=EXAMPLES)
@options.specs
@click.option("--to", "form", type=click.Choice(pipeline.FORMS), help="Kind of print; else as -o is named, else pdf.")
@click.option(
    "-o", "--output", "target", metavar="PATH", type=click.Path(),
    help="File to write, or folder, or - for standard output. Without it each print goes beside its spec.",
)
@click.option(
    "--part", "parts", metavar="KEY", multiple=True, help="This part only; may be repeated.",
    shell_complete=lambda _context, _parameter, begun: [key for key in PARTS if key.startswith(begun)],
)
@papers.paper
@options.library
@papers.wording
def command(
    specs: tuple[str, ...], form: str | None, target: str | None, parts: tuple[str, ...], paper: str | None,
    library: str | None, wording: str | None,
) -> int:
    """Print the method statements of the SPECs.

    A spec with errors prints nothing, and then no other is written either. Warnings stand in the print and on the screen.
    """
    form = form or papers.form_of(target, pipeline.FORMS)
    papers.know(parts)
    targets = _targets(specs, target, form, parts)
    press = papers.press(form)
    made = sound(specs, library, json=form == "json", undone="printed")
    if made is None:
        return Status.SPEC
    compiled, found = made
    papers.spare_inputs(targets, found.sources)
    order = pipeline.Order(form, parts, paper, Wording(wording) if wording else None, papers.created())
    results = []
    for one, path in zip(compiled, targets, strict=True):
        wanted = replace(order, git=revision.of(one.path))
        with output.working(f"{one.path}: setting out and laying out pages" if form == "pdf" else f"{one.path}: setting out"):
            printed = papers.printed(partial(pipeline.render, one, wanted, press), wording)
        press = None
        results.append(output.Result(path, printed.data))
        for note in printed.notes:
            output.say(f"note: {printable(note)}\n")
    if target == "-":
        output.out(results[0].data)
        return Status.FINE
    output.write(results)
    for path in targets:
        output.tell(f"wrote {printable(path)}\n")
    return Status.FINE


def _targets(specs: tuple[str, ...], target: str | None, form: str, parts: tuple[str, ...]) -> list[str]:
    """The file for each spec. Raises a usage error where two prints would share one file."""
    several = len(specs) > 1
    if target == "-":
        if several:
            raise click.UsageError("several prints do not fit into standard output: name a folder with -o")
        return ["-"]
    names = [os.path.splitext(os.path.basename(spec))[0] + "".join(f"-{part}" for part in parts) + f".{form}" for spec in specs]
    if target is None:
        paths = [os.path.join(os.path.dirname(spec), name) for spec, name in zip(specs, names, strict=True)]
    elif os.path.isdir(target) or target.endswith(os.sep):
        paths = [os.path.join(target, name) for name in names]
    elif several:
        raise click.UsageError(f"-o {target} is one file for {len(specs)} prints: name a folder that exists")
    else:
        paths = [target]
    shared = [path for path, count in Counter(os.path.realpath(path) for path in paths).items() if count > 1]
    if shared:
        raise click.UsageError(f"two of the specs would be printed to {shared[0]}")
    return paths

