"""`tilespec print`: the method statement, or a part of it, as a file."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import click

from tilespec import pipeline
from tilespec.cli import options, output, revision
from tilespec.cli.sound import sound
from tilespec.cli.status import Status, Stop
from tilespec.diagnostics.printable import printable
from tilespec.document.model import PARTS
from tilespec.workspace.host import DiskHost

if TYPE_CHECKING:
    from tilespec.document.pdf import Press

PAPERS = ("A4", "Letter")


@click.command("print", short_help="Print the method statement.")
@options.specs
@click.option("--to", "form", type=click.Choice(pipeline.FORMS), help="Kind of print; else as -o is named, else pdf.")
@click.option(
    "-o", "--output", "target", metavar="PATH", type=click.Path(),
    help="File to write, or folder, or - for standard output. Without it each print goes beside its spec.",
)
@click.option("--part", "parts", metavar="KEY", multiple=True, help="This part only; may be repeated.")
@click.option("--paper", metavar="A4|Letter", type=click.Choice(PAPERS, case_sensitive=False), help="Instead of the spec's.")
@options.library
@click.option(
    "--wording", metavar="DIR", type=click.Path(exists=True, file_okay=False),
    help="Folder of the firm's own wording: its files replace those of the same name.",
)
def command(
    specs: tuple[str, ...], form: str | None, target: str | None, parts: tuple[str, ...], paper: str | None,
    library: str | None, wording: str | None,
) -> int:
    """Print the method statements of the SPECs.

    A spec with errors prints nothing, and then no other is written either. Warnings stand in the print and on the screen.
    """
    form = form or _form_of(target)
    _know(parts)
    targets = _targets(specs, target, form, parts)
    press = _press(form)
    made = sound(specs, library, json=form == "json", undone="printed")
    if made is None:
        return Status.SPEC
    compiled, found = made
    _spare_inputs(targets, found.sources)
    order = pipeline.Order(form, parts, paper, Wording(wording) if wording else None, _created())
    results = []
    for one, path in zip(compiled, targets, strict=True):
        printed = _render(one, replace(order, git=revision.of(one.path)), wording, press)
        press = None
        results.append(output.Result(path, printed.data))
        for note in printed.notes:
            output.say(f"note: {printable(note)}\n")
    if target == "-":
        output.out(results[0].data)
        return Status.FINE
    output.write(results)
    for path in targets:
        output.say(f"wrote {printable(path)}\n")
    return Status.FINE


def _press(form: str) -> Press | None:
    """A PDF's libraries take longer to load than a spec takes to read: they load meanwhile."""
    if form != "pdf":
        return None
    from tilespec.document.pdf import Press

    return click.get_current_context().with_resource(Press())


def _render(compiled: pipeline.Compiled, order: pipeline.Order, wording: str | None, press: Press | None) -> pipeline.Print:
    """The print; what is missing or wrong on this machine, or in the firm's wording, in plain words."""
    from tilespec.document.pdf import PrintFailed, PrintUnavailable
    from tilespec.document.templates import faults

    try:
        return pipeline.render(compiled, order, press)
    except (PrintUnavailable, PrintFailed) as fault:
        raise Stop(str(fault)) from None
    except faults() as fault:
        if wording is None:
            raise
        advice = "Compare it with the bundled file of the same name."
        raise Stop(f"the wording in {wording} does not work: {type(fault).__name__}: {fault}", advice) from fault


class Wording:
    """A firm's own wording, read from its folder and from nowhere else."""

    def __init__(self, folder: str) -> None:
        self._host = DiskHost()
        self._root = self._host.real(folder)

    def __call__(self, name: str) -> str | None:
        path = self._host.real(os.path.join(self._root, *name.split("/")))
        if os.path.commonpath((self._root, path)) != self._root:
            raise Stop(f"the wording {name} leads out of its folder {self._root}")
        return self._host.read(path) if self._host.exists(path) else None


def _know(parts: tuple[str, ...]) -> None:
    for part in parts:
        if part not in PARTS:
            raise click.UsageError(f"no part has the key {part!r}. The parts: {', '.join(PARTS)}.")


def _created() -> str:
    """The date that SOURCE_DATE_EPOCH asks for, as is usual for reproducible files; else the spec's own holds."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if not epoch:
        return ""
    try:
        return datetime.fromtimestamp(int(epoch), UTC).date().isoformat()
    except (ValueError, OverflowError, OSError):
        raise Stop(f"SOURCE_DATE_EPOCH is no time in seconds: {epoch!r}") from None


def _form_of(target: str | None) -> str:
    ending = os.path.splitext(target or "")[1][1:].lower()
    return ending if ending in pipeline.FORMS else "pdf"


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


def _spare_inputs(targets: list[str], inputs: Iterable[str]) -> None:
    """A print must never replace what it was made from."""
    read = {os.path.realpath(name): name for name in inputs}
    for target in targets:
        if target != "-" and (name := read.get(os.path.realpath(target))):
            raise click.UsageError(f"the print would replace the spec {name}: give another name with -o")
