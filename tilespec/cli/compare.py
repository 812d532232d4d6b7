"""`tilespec compare`: what changed from one spec to another, as the job."""

from __future__ import annotations

import os
import sys

import click

from tilespec import pipeline
from tilespec.cli import options, output
from tilespec.cli.history import Repository, RevisionHost
from tilespec.cli.status import Status, Stop
from tilespec.diagnostics import text
from tilespec.diagnostics.model import Severity
from tilespec.diagnostics.printable import printable
from tilespec.workspace.host import DiskHost, Host

EXAMPLES = """\b
Examples:
  tilespec compare quoted.tilespec agreed.tilespec
  tilespec compare job.tilespec --git HEAD
  tilespec compare job.tilespec --git v1..v2 --to md
"""


@click.command("compare", short_help="Say what changed from one spec to another, as the job.", epilog=EXAMPLES)
@click.argument("specs", metavar="OLD NEW | SPEC --git REV[..REV]", nargs=-1, required=True, type=click.Path())
@click.option(
    "--git", "revisions", metavar="REV[..REV]",
    help="The SPEC at a revision of its git repository, against the file as it is now; or at one revision against another.",
)
@click.option(
    "--to", "form", type=click.Choice(pipeline.COMPARED), default="text", show_default=True,
    help="Text for the screen, Markdown for the comment of a review, or JSON for programs.",
)
@options.library
def command(specs: tuple[str, ...], revisions: str | None, form: str, library: str | None) -> int:
    """Say what changed from the spec OLD to the spec NEW, as the job: rooms and sizes, bases, tiles, products, what to order,
    steps, hours and finish, hold points, messages, deviations, questions. Comments, line breaks and units as written do not
    count.

    The exit status is 0 when nothing changed in the job, 1 when something did, or when a spec has errors.
    """
    sides: tuple[tuple[str, Host, str], tuple[str, Host, str]]
    if revisions is None:
        if len(specs) != 2:
            raise click.UsageError("name two specs, or one and its revisions: tilespec compare SPEC --git REV")
        old, new = specs
        sides = (old, DiskHost(), old), (new, DiskHost(), new)
    else:
        if len(specs) != 1:
            raise click.UsageError("--git compares one spec with itself: name one")
        sides = _of_revisions(specs[0], revisions)
    before, after = (_compiled(path, host, name, library) for path, host, name in sides)
    for compiled, (_, _, name) in zip((before, after), sides, strict=True):
        if compiled.failed:
            errors = [d for d in compiled.diagnostics if d.severity is Severity.ERROR]
            told = text.render(errors, compiled.sources, output.palette(sys.stderr), output.columns(sys.stderr))
            output.say(f"{printable(name)}:\n{told}")
    with output.working("setting both out"):
        comparison = pipeline.compare(before, after, sides[0][2], sides[1][2])
    output.out(pipeline.told(comparison, form, output.columns(), output.palette(sys.stdout) if form == "text" else None))
    return Status.FINE if comparison.same else Status.SPEC


def _compiled(path: str, host: Host, name: str, library: str | None) -> pipeline.Compiled:
    compiled = pipeline.compile(path, host, library)
    if compiled.plan is None and not compiled.failed:
        raise click.UsageError(f"{name} holds stock only: there is no job to compare")
    return compiled


def _of_revisions(spec: str, revisions: str) -> tuple[tuple[str, Host, str], tuple[str, Host, str]]:
    folder = os.path.dirname(spec) or "."
    if not os.path.isdir(folder):
        raise Stop(f"the folder {printable(folder)} does not exist")
    if "..." in revisions:
        raise click.UsageError("--git takes REV or REV..REV, with two points")
    repository = Repository(folder)
    first, points, second = revisions.partition("..")
    old, new = first or "HEAD", second or "HEAD"
    host = RevisionHost(repository, repository.commit(old), old)
    if not points:
        return (spec, host, f"{spec} at {old}"), (spec, DiskHost(), spec)
    return (spec, host, f"{spec} at {old}"), (spec, RevisionHost(repository, repository.commit(new), new), f"{spec} at {new}")
