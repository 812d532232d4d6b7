"""What the commands that tell a part of the print as tables have in common."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import partial

import click

from tilespec.cli import output
from tilespec.cli import paper as papers
from tilespec.cli.sound import sound
from tilespec.cli.status import Status
from tilespec.diagnostics.printable import printable

Table = Callable[..., str]
"""`pipeline.take_off` or `pipeline.programme`."""


def tell(table: Table, specs: tuple[str, ...], form: str | None, wording: str | None, library: str | None, undone: str) -> int:
    """Tell a table of sound specs, one below the other. `undone`: what is not done with those that have errors."""
    if form and len(specs) > 1:
        raise click.UsageError(f"--{form} takes one spec: each is a text of its own")
    made = sound(specs, library, json=form == "json", undone=undone)
    if made is None:
        return Status.SPEC
    firm = papers.Wording(wording) if wording else None
    for n, one in enumerate(made[0]):
        if len(specs) > 1:
            output.out(f"{chr(10) if n else ''}{printable(one.path)}\n\n")
        with output.working(f"{one.path}: setting out"):
            ask = partial(table, one, form or "text", output.columns(), output.palette(sys.stdout), firm)
            told = papers.printed(ask, wording)
        output.out(told)
    return Status.FINE
