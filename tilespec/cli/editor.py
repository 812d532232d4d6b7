"""`tilespec editor`: what an editor starts, to be told what a spec says while it is written."""

from __future__ import annotations

import os.path
import sys
from datetime import date
from pathlib import Path

import click

from tilespec.cli import options
from tilespec.cli.status import Status, Stop
from tilespec.workspace.host import DiskHost

EDITORS = ("emacs", "neovim", "vim")


@click.command("editor", short_help="Started by an editor: messages, completion and more while a spec is written.")
@options.library
@click.option("--set-up", "editor", metavar="EDITOR", type=click.Choice(EDITORS), help="Print the lines for the settings of: "
              + ", ".join(EDITORS) + ".")
def command(library: str | None, editor: str | None) -> int:
    """Speak with an editor over standard input and output, by the language server protocol. Nothing else is listened to, and
    nothing is fetched.

    Editors start this by themselves, once their settings say so: --set-up prints the lines.

    \b
    Examples:
      tilespec editor --set-up neovim >> ~/.config/nvim/init.lua
      tilespec editor --set-up vim >> ~/.vimrc
      tilespec editor --set-up emacs >> ~/.emacs
    Any other editor is told to start:
      tilespec editor --library ~/stock
    """
    if editor is not None:
        from tilespec.editor.setup import SETTINGS

        library = os.path.abspath(os.path.expanduser(library)) if library else None
        click.echo(SETTINGS[editor](_program(), _files(), library), nl=False)
        return Status.FINE
    try:
        from tilespec.editor.server import serve
    except ModuleNotFoundError as fault:
        if (fault.name or "").partition(".")[0] not in ("pygls", "lsprotocol"):
            raise
        raise Stop("the part that speaks with editors is not installed", "To install it: pip install pygls") from None
    serve(DiskHost(), library, lambda: date.today().isoformat())
    return Status.FINE


def _program() -> list[str]:
    """How to start this very program from anywhere."""
    own = Path(sys.argv[0])
    if own.stem == "tilespec" and own.exists():
        return [str(own.absolute())]
    return [sys.executable, "-m", "tilespec"]


def _files() -> str:
    from tilespec.resources import data_dir

    folder = data_dir("grammar") / "editors"
    if not isinstance(folder, Path):
        raise Stop("the files for editors lie in an archive here", "Install tilespec as a folder: pip install")
    return str(folder)
