"""`tilespec tidy`: specs in their one canonical form."""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from difflib import unified_diff
from shlex import quote

import click

from tilespec.cli import options, output
from tilespec.cli.status import Status
from tilespec.diagnostics.printable import printable, visible
from tilespec.syntax.tidy import Tidied, tidied
from tilespec.workspace.host import SIZE_LIMIT, DiskHost, Reason, Unreadable, decode

STANDARD = "-"


@dataclass(frozen=True, slots=True)
class _Read:
    """A file as it is on disk and as it should be."""

    path: str
    data: bytes
    done: Tidied

    @property
    def changed(self) -> bool:
        return self.data != self.done.text.encode("utf-8")


@click.command("tidy", short_help="Put specs into their one canonical form.")
@options.specs
@click.option("--check", is_flag=True, help="Change nothing; list the files that would change.")
@click.option("--diff", is_flag=True, help="Change nothing; show what would change.")
def command(specs: tuple[str, ...], check: bool, diff: bool) -> int:
    """Put the SPECs into their one canonical form: blanks, blank lines, times signs, the spelling of units.

    What is said, the order of it, comments and what stands together on a line stay. With - as SPEC, standard input goes to
    standard output. Lines that cannot be read are left as they are, and the exit status is then 1; with --check or --diff it is
    also 1 where a file would change. All files are written, or none.

    \b
    Examples:
      tilespec tidy job.tilespec
      tilespec tidy --check *.tilespec
      tilespec tidy - < job.tilespec
    """
    if STANDARD in specs and len(specs) > 1:
        raise click.UsageError("- stands alone: one text goes through standard input and output")
    read = [_read(path) for path in _once(specs)]
    changed = [one for one in read if one.changed]
    if diff:
        for one in changed:
            output.out(_diff(one))
    if check and not (diff and specs == (STANDARD,)):
        output.out("".join(f"{_shown(one.path)}\n" for one in changed))
    if not check and not diff:
        if specs == (STANDARD,):
            output.out(read[0].done.text)
        else:
            output.write([output.Result(one.path, one.done.text.encode("utf-8")) for one in changed])
            for one in changed:
                output.tell(f"tidied {_shown(one.path)}\n")
    for one in read:
        output.say(_left(one))
    if check and changed:
        # A refused commit shows little more than this.
        output.say(_mend(changed))
    faulty = any(one.done.left for one in read)
    return Status.SPEC if faulty or ((check or diff) and changed) else Status.FINE


def _once(paths: tuple[str, ...]) -> list[str]:
    """Each file once, whatever the names and links by which it is given."""
    return list({path if path == STANDARD else os.path.realpath(path): path for path in reversed(paths)}.values())[::-1]


def _read(path: str) -> _Read:
    if path != STANDARD:
        data = DiskHost().data(path)
        return _Read(path, data, tidied(decode(data, path)))
    data = sys.stdin.buffer.read(SIZE_LIMIT + 1)
    if len(data) > SIZE_LIMIT:
        raise Unreadable(Reason.TOO_LARGE, "standard input")
    return _Read(path, data, tidied(decode(data, "standard input")))


def _mend(changed: list[_Read]) -> str:
    """How many would change, and the command that does it: for a shell, as the files were named."""
    count = f"{len(changed)} file{'s' if len(changed) > 1 else ''}"
    paths = [one.path for one in changed]
    if paths == [STANDARD]:
        return "would be tidied: standard input\n"
    named = " ".join(printable(quote(path)) for path in paths)
    return f"would be tidied: {count}; run `tilespec tidy {named}`\n"


def _shown(path: str) -> str:
    return "standard input" if path == STANDARD else printable(path)


def _diff(one: _Read) -> str:
    """What would change, without anything that a terminal would obey. Line ends are seen as what they are on disk."""
    name = _shown(one.path)
    # Split at line feeds only: other signs that end lines elsewhere are part of a line here.
    before, after = (text.split("\n") for text in (one.data.decode("utf-8-sig"), one.done.text))
    lines = unified_diff(before, after, name, f"{name} (tidy)", lineterm="")
    return "".join("".join(c if c == "\t" else visible(c) for c in line) + "\n" for line in lines)


def _left(one: _Read) -> str:
    left = one.done.left
    if not left:
        return ""
    shown = ", ".join(map(str, left[:8])) + (", ..." if len(left) > 8 else "")
    lines = f"line {shown} cannot be read and is" if len(left) == 1 else f"lines {shown} cannot be read and are"
    return f"{_shown(one.path)}: {lines} left as before; `tilespec check` says why\n"
