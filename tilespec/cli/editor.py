"""`tilespec editor`: what an editor starts, to be told what a spec says while it is written."""

from __future__ import annotations

import click

from tilespec.cli import options
from tilespec.cli.status import Status, Stop
from tilespec.workspace.host import DiskHost


@click.command("editor", short_help="Started by an editor: messages, completion and more while a spec is written.")
@options.library
def command(library: str | None) -> int:
    """Speak with an editor over standard input and output, by the language server protocol. Nothing else is listened to, and
    nothing is fetched.

    Editors start this by themselves; the README says how to set them up. It needs the extra `editor`:
    pip install "tilespec[editor]".

    \b
    Example, as the command that an editor is told to start:
      tilespec editor --library ~/stock
    """
    try:
        from tilespec.editor.server import serve
    except ModuleNotFoundError as fault:
        if (fault.name or "").partition(".")[0] not in ("pygls", "lsprotocol"):
            raise
        help = 'To install it: pip install "tilespec[editor]"'
        raise Stop("the part that speaks with editors is not installed", help) from None
    serve(DiskHost(), library)
    return Status.FINE
