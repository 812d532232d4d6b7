"""What the commands that print have in common: forms and paper, a firm's wording, and a printer that is started early."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from typing import TYPE_CHECKING, TypeVar

import click

from tilespec.cli.status import Stop
from tilespec.workspace.host import DiskHost

if TYPE_CHECKING:
    from tilespec.document.pdf import Press

T = TypeVar("T")

PAPERS = ("A4", "Letter")

paper = click.option(
    "--paper", metavar="A4|Letter", type=click.Choice(PAPERS, case_sensitive=False), help="Instead of the spec's.",
)
wording = click.option(
    "--wording", metavar="DIR", type=click.Path(exists=True, file_okay=False),
    help="Folder of the firm's own wording: its files replace those of the same name.",
)


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


def press(form: str) -> Press | None:
    """A PDF's libraries take longer to load than a spec takes to read: they load meanwhile."""
    if form != "pdf":
        return None
    from tilespec.document.pdf import Press

    return click.get_current_context().with_resource(Press())


def printed(render: Callable[[], T], wording: str | None) -> T:
    """What is rendered; what is missing or wrong on this machine, or in the firm's wording, in plain words."""
    from tilespec.document.pdf import PrintFailed, PrintUnavailable
    from tilespec.document.templates import faults

    try:
        return render()
    except (PrintUnavailable, PrintFailed) as fault:
        raise Stop(str(fault)) from None
    except faults() as fault:
        if wording is None:
            raise
        advice = "Compare it with the bundled file of the same name."
        raise Stop(f"the wording in {wording} does not work: {type(fault).__name__}: {fault}", advice) from fault


def created() -> str:
    """The date that SOURCE_DATE_EPOCH asks for, as is usual for reproducible files; else the spec's own holds."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if not epoch:
        return ""
    try:
        return datetime.fromtimestamp(int(epoch), UTC).date().isoformat()
    except (ValueError, OverflowError, OSError):
        raise Stop(f"SOURCE_DATE_EPOCH is no time in seconds: {epoch!r}") from None


def know(parts: tuple[str, ...]) -> None:
    """Raises a usage error for a part that there is not."""
    from tilespec.document.model import PARTS

    for part in parts:
        if part not in PARTS:
            raise click.UsageError(f"no part has the key {part!r}. The parts: {', '.join(PARTS)}.")


def form_of(target: str | None, forms: tuple[str, ...]) -> str:
    """The form that the name of the file tells; PDF where it tells none."""
    ending = os.path.splitext(target or "")[1][1:].lower()
    return ending if ending in forms else "pdf"


def spare_inputs(targets: Iterable[str], inputs: Iterable[str]) -> None:
    """A print must never replace what it was made from. Raises a usage error."""
    read = {os.path.realpath(name): name for name in inputs}
    for target in targets:
        if target != "-" and (name := read.get(os.path.realpath(target))):
            raise click.UsageError(f"the print would replace the spec {name}: give another name with -o")
