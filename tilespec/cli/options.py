"""Options that several commands take."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., object])

# Not checked here: what cannot be read is reported in one way, by the host that reads.
specs = click.argument("specs", metavar="SPEC...", nargs=-1, required=True, type=click.Path())


def library(command: Command) -> Command:
    return click.option(
        "--library", metavar="DIR", type=click.Path(exists=True, file_okay=False),
        help="Folder of the firm's stock files: `use` looks there too.",
    )(command)
