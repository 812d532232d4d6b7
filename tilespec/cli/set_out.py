"""`tilespec set-out`: where every tile goes, as tables, drawings, and JSON."""

from __future__ import annotations

import os

import click

from tilespec import pipeline
from tilespec.cli import options, output
from tilespec.cli.sound import sound
from tilespec.cli.status import Status, Stop
from tilespec.diagnostics.printable import printable

EXAMPLES = """\b
Examples:
  tilespec set-out job.tilespec
  tilespec set-out job.tilespec --no-drawings
  tilespec set-out job.tilespec --json > pieces.json
"""


@click.command("set-out", short_help="Set out every tile: cut lists, drawings, offcuts.", epilog=EXAMPLES)
@options.specs
@click.option("--json", "form", flag_value="json", help="As JSON, with every piece.")
@click.option(
    "-o", "--output", "target", metavar="DIR", type=click.Path(file_okay=False),
    help="Folder for the drawings; without it they go into a folder beside the spec.",
)
@click.option("--no-drawings", "bare", is_flag=True, help="Tables only.")
@options.library
def command(specs: tuple[str, ...], form: str | None, target: str | None, bare: bool, library: str | None) -> int:
    """Set out every tile of the SPECs: cut lists, starts, offcuts on the screen, and a drawing of each surface as SVG.

    With --json nothing is drawn unless -o names a folder.
    """
    if form == "json" and len(specs) > 1:
        raise click.UsageError("--json takes one spec: each is a text of its own")
    made = sound(specs, library, json=form == "json", undone="set out")
    if made is None:
        return Status.SPEC
    compiled, _ = made
    results: list[output.Result] = []
    for one in compiled:
        if not bare and (form != "json" or target):
            folder = target or f"{os.path.splitext(one.path)[0]}-set-out"
            if target and len(compiled) > 1:
                folder = os.path.join(target, os.path.splitext(os.path.basename(one.path))[0])
            _make(folder)
            results += [
                output.Result(os.path.join(folder, f"{name}.svg"), svg.encode("utf-8")) for name, svg in pipeline.drawings(one)
            ]
    for one in compiled:
        if len(compiled) > 1:
            output.out(f"{printable(one.path)}\n\n")
        with output.working(f"{one.path}: setting out"):
            tables = pipeline.set_out(one, form or "text", output.columns())
        output.out(tables)
    output.write(results)
    for result in results:
        output.tell(f"wrote {printable(result.path)}\n")
    return Status.FINE


def _make(folder: str) -> None:
    try:
        os.makedirs(folder, exist_ok=True)
    except OSError as fault:
        why = fault.strerror or fault
        raise Stop(f"the folder {printable(folder)} cannot be made: {why}", "Name another with -o.") from fault
