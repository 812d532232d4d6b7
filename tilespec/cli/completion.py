"""`tilespec completion`: the script that makes a shell complete commands, options, files and names of messages."""

from __future__ import annotations

import os

import click

from tilespec.cli import output

# Set by the script when the shell asks what could stand at the cursor.
VARIABLE = "_TILESPEC_COMPLETE"
PROGRAM = "tilespec"
SHELLS = ("bash", "zsh", "fish")


@click.command("completion", short_help="Print the script that makes your shell complete what you type.")
@click.argument("shell", type=click.Choice(SHELLS))
def command(shell: str) -> None:
    """Print the script that makes SHELL complete commands, options, files and the names of messages.

    \b
    bash:  tilespec completion bash > ~/.local/share/bash-completion/completions/tilespec
    zsh:   tilespec completion zsh > a file named _tilespec in a folder of $fpath
    fish:  tilespec completion fish > ~/.config/fish/completions/tilespec.fish
    """
    from click.shell_completion import ShellComplete, get_completion_class

    kind = get_completion_class(shell)
    assert kind is not None
    # The class's own, without the trial of which version of the shell runs here: the script may be for another machine.
    output.out(ShellComplete.source(kind(click.Command(PROGRAM), {}, PROGRAM, VARIABLE)))


def answer(door: click.Command) -> int:
    """What could stand at the cursor, as the shell's script has asked. Raises click.UsageError for a request that is none."""
    from click.shell_completion import get_completion_class

    shell, _, asked = os.environ[VARIABLE].partition("_")
    kind = get_completion_class(shell)
    if kind is None or asked != "complete":
        raise click.UsageError(f"{VARIABLE} is set by the scripts of `tilespec completion` only: unset it")
    try:
        found = kind(door, {}, PROGRAM, VARIABLE).complete()
    except (KeyError, ValueError):
        raise click.UsageError(f"{VARIABLE} is set, but the shell's words are not: unset it") from None
    output.out(found + "\n")
    return 0
