"""What the commands that need a sound spec have in common: read, compile, say what there is to say, stop at errors."""

from __future__ import annotations

import sys
from collections.abc import Sequence

import click

from tilespec import pipeline
from tilespec.cli import output
from tilespec.cli.status import Status
from tilespec.diagnostics import json_report, text
from tilespec.workspace.host import DiskHost


def sound(
    specs: Sequence[str], library: str | None, *, json: bool, undone: str,
) -> tuple[list[pipeline.Compiled], pipeline.Gathered] | None:
    """The specs, compiled, with their messages already told. `undone`: what cannot be done, as in "printed".

    json    errors are told on standard output too, as a report
    None where a spec has errors. Raises click.UsageError where one holds stock only.
    """
    host = DiskHost()
    compiled = [pipeline.compile(spec, host, library) for spec in specs]
    found = pipeline.gather(compiled)
    output.say(text.render(found.diagnostics, found.sources, output.palette(sys.stderr), output.columns(sys.stderr)))
    if found.failed:
        if json:
            output.out(json_report.render(found.diagnostics, found.sources, Status.SPEC))
        output.say(f"{text.summary(found.diagnostics)}: nothing was {undone}\n")
        return None
    for one in compiled:
        if one.plan is None:
            raise click.UsageError(f"{one.path} holds stock only: there is nothing to be {undone} of it")
    return compiled, found
