"""`tilespec print`: the method statement, or a part of it, as a file."""

from __future__ import annotations

import os
import sys
from collections import Counter
from collections.abc import Iterable

import click

from tilespec import pipeline
from tilespec.cli import options, output
from tilespec.cli.status import Status
from tilespec.diagnostics import json_report, text
from tilespec.diagnostics.printable import printable
from tilespec.workspace.host import DiskHost


@click.command("print", short_help="Print the method statement.")
@options.specs
@click.option("--to", "form", type=click.Choice(pipeline.FORMS), help="Kind of print; else as -o is named, else pdf.")
@click.option(
    "-o", "--output", "target", metavar="PATH", type=click.Path(),
    help="File to write, or folder, or - for standard output. Without it each print goes beside its spec.",
)
@click.option("--part", metavar="KEY", help="Print one part only; an unknown key lists them.")
@click.option("--paper", type=click.Choice(["A4", "Letter"], case_sensitive=False), help="Instead of the paper in the spec.")
@options.library
@click.option(
    "--wording", metavar="DIR", type=click.Path(exists=True, file_okay=False),
    help="Folder of the firm's own wording: its files replace those of the same name.",
)
def command(
    specs: tuple[str, ...], form: str | None, target: str | None, part: str | None, paper: str | None,
    library: str | None, wording: str | None,
) -> int:
    """Print the method statements of the SPECs.

    A spec with errors prints nothing, and then no other is written either. Warnings stand in the print and on the screen.
    """
    form = form or _form_of(target)
    targets = _targets(specs, target, form, part)
    host = DiskHost()
    compiled = [pipeline.compile(spec, host, library) for spec in specs]
    found = pipeline.gather(compiled)
    output.say(text.render(found.diagnostics, found.sources, output.palette(sys.stderr)))
    if found.failed:
        if form == "json":
            output.out(json_report.render(found.diagnostics, found.sources, Status.SPEC))
        output.say(f"{text.summary(found.diagnostics)}: nothing was printed\n")
        return Status.SPEC
    _spare_inputs(targets, found.sources)
    prints = [c.printed(form, part, paper, wording) for c in compiled]
    if target == "-":
        output.out(prints[0])
        return Status.FINE
    output.write([output.Result(path, data) for path, data in zip(targets, prints, strict=True)])
    for path in targets:
        output.say(f"wrote {printable(path)}\n")
    return Status.FINE


def _form_of(target: str | None) -> str:
    ending = os.path.splitext(target or "")[1][1:].lower()
    return ending if ending in pipeline.FORMS else "pdf"


def _targets(specs: tuple[str, ...], target: str | None, form: str, part: str | None) -> list[str]:
    """The file for each spec. Raises a usage error where two prints would share one file."""
    several = len(specs) > 1
    if target == "-":
        if several:
            raise click.UsageError("several prints do not fit into standard output: name a folder with -o")
        return ["-"]
    names = [os.path.splitext(os.path.basename(spec))[0] + (f"-{part}" if part else "") + f".{form}" for spec in specs]
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


def _spare_inputs(targets: list[str], inputs: Iterable[str]) -> None:
    """A print must never replace what it was made from."""
    read = {os.path.realpath(name): name for name in inputs}
    for target in targets:
        if target != "-" and (name := read.get(os.path.realpath(target))):
            raise click.UsageError(f"the print would replace the spec {name}: give another name with -o")
