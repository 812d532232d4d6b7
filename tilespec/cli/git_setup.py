"""`tilespec git-setup`: how git shows changes in specs."""

from __future__ import annotations

import os
import shlex

import click

from tilespec.cli import output
from tilespec.cli.history import Repository, Unasked, ask
from tilespec.cli.status import Stop
from tilespec.diagnostics.printable import printable

ATTRIBUTE = "*.tilespec diff=tilespec"
# The heading of a hunk is the statement that it stands in: a line at the margin that begins with a word.
HEADING = r"^([a-z].*)$"
# What a word is in a word diff: text in quotes; a number with its points, colons and dashes; a name; the x between two sizes; any
# other sign by itself. An x before a digit is no letter of a name, so that in 300x600 only the size that changed is marked.
WORD = (
    r'"[^"]*"'
    r"|[0-9]+([.,:/-][0-9]+)*"
    r"|[A-Za-wyz][A-Za-z0-9_-]*|[xX][A-Za-z_-][A-Za-z0-9_-]*"
    r"|[^[:space:]]"
)
SETTINGS = (("diff.tilespec.xfuncname", HEADING), ("diff.tilespec.wordRegex", WORD))

EXAMPLES = """\b
Examples:
  tilespec git-setup
  tilespec git-setup --write
  git diff --word-diff job.tilespec
"""


@click.command("git-setup", short_help="Set up how git shows changes in specs.", epilog=EXAMPLES)
@click.option("--write", is_flag=True, help="Set it up in the git repository of this folder; else only say how.")
def command(write: bool) -> None:
    """Say how git is set up so that a diff of a spec names the statement that each change stands in, and marks changed sizes and
    words one by one.

    With --write: adds a line to the .gitattributes of the repository, which goes with it, and sets the two settings in its
    configuration, which everybody sets for themselves. Doing it again changes nothing.
    """
    if not write:
        lines = ["# in .gitattributes, at the top of the repository:", ATTRIBUTE, "", "# once in each copy of it:"]
        lines += [shlex.join(("git", "config", key, value)) for key, value in SETTINGS]
        output.out("\n".join(lines) + "\n")
        return
    repository = Repository(".")
    path = os.path.join(repository.top, ".gitattributes")
    if _attribute(path):
        output.tell(f"wrote {printable(path)}\n")
    for key, value in SETTINGS:
        _set(repository.top, key, value)
    output.tell("git now shows changes in specs by statement and by word: git diff --word-diff\n")


def _attribute(path: str) -> bool:
    """Add the line where it is missing; everything else in the file stays."""
    text = b""
    if os.path.lexists(path):
        with open(path, "rb") as file:
            text = file.read()
    line = ATTRIBUTE.encode()
    if line in [own.strip() for own in text.splitlines()]:
        return False
    end = b"\n" if text and not text.endswith(b"\n") else b""
    output.write([output.Result(path, text + end + line + b"\n")])
    return True


def _set(top: str, key: str, value: str) -> None:
    try:
        ask(top, "config", "--local", "--replace-all", key, value)
    except Unasked as fault:
        raise Stop(f"git cannot be set up: {fault}") from None
