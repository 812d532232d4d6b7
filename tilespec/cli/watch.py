"""`tilespec watch`: the print in a browser, made anew whenever the spec is saved."""

from __future__ import annotations

import os
import time
from collections.abc import Iterable, Iterator
from functools import partial

import click

from tilespec import pipeline
from tilespec.cli import options, output
from tilespec.cli import paper as papers
from tilespec.cli.preview import Preview, Shown
from tilespec.cli.status import Status, Stop
from tilespec.diagnostics import short, text
from tilespec.diagnostics.printable import printable
from tilespec.workspace.host import DiskHost, Unreadable

POLL = 0.3

EXAMPLES = """\b
Examples:
  tilespec watch job.tilespec
  tilespec watch job.tilespec --open
  tilespec watch job.tilespec --library stock --part set-out
"""


@click.command("watch", short_help="Show the print in a browser, made anew on each save.", epilog=EXAMPLES)
@click.argument("spec", type=click.Path())
@click.option("--part", "parts", metavar="KEY", multiple=True, help="This part only; may be repeated.")
@click.option("--open", "browse", is_flag=True, help="Open the page in the browser; else its address is said.")
@click.option("--port", type=click.IntRange(1, 65535), help="Port on this machine; else a free one.")
@papers.paper
@options.library
@papers.wording
def command(
    spec: str, parts: tuple[str, ...], browse: bool, port: int | None, paper: str | None, library: str | None,
    wording: str | None,
) -> int:
    """Show the print of the SPEC in a browser, with its drawings and with what there is to say about it, and make it anew
    whenever the spec, its stock or its wording is saved. The place that is read is kept. While there are errors, the last print
    without stays.

    The page is served on this machine only, under an address with a word that is new in each run. Ctrl-C ends it: exit status 0.
    """
    papers.know(parts)
    order = pipeline.Order("html", parts, paper, papers.Wording(wording) if wording else None, papers.created())
    builder = Builder(spec, library, wording, order)
    DiskHost().read(spec)   # a name that is wrong from the start is no preview
    try:
        preview = Preview(port or 0)
    except OSError as fault:
        raise Stop(f"the preview cannot be served: {fault.strerror or fault}", "Name another port, or none.") from None
    with preview:
        try:
            output.out(f"{preview.address}\n")
            output.tell("Open that address in a browser on this machine. Ctrl-C ends the preview.\n")
            _follow(builder, preview, browse)
        except KeyboardInterrupt:
            output.tell("\npreview ended\n")
    return Status.FINE


def _follow(builder: Builder, preview: Preview, browse: bool) -> None:
    """Until it is interrupted."""
    told = ""
    while True:
        # Before anything is read: what is saved meanwhile is seen afterwards.
        before = stamps(builder.files())
        preview.busy()
        shown = builder.build()
        preview.show(shown)
        # Of a file that nobody knew before it was read: as it stands now.
        seen = stamps(builder.files()) | before
        if shown.lines != told:
            output.say(shown.lines)
            told = shown.lines
        output.tell(f"{printable(shown.headline)}\n")
        if browse:
            import webbrowser

            webbrowser.open(preview.address)
            browse = False
        for _ in _knocks(builder.folders()):
            if stamps(builder.files()) != seen:
                break


class Builder:
    """Makes the page, and knows what it was made from."""

    def __init__(self, spec: str, library: str | None, wording: str | None, order: pipeline.Order) -> None:
        self.spec, self.library, self.wording, self.order = spec, library, wording, order
        self.read: tuple[str, ...] = (spec,)
        self.page = ""

    def folders(self) -> tuple[str, ...]:
        """Where something may change; a file that is not there yet counts too."""
        named = [os.path.dirname(name) or "." for name in self.read] + [f for f in (self.library, self.wording) if f]
        if self.wording:
            named += [folder for folder, _, _ in os.walk(self.wording)]
        return tuple(dict.fromkeys(f for f in named if os.path.isdir(f)))

    def files(self) -> tuple[str, ...]:
        found = dict.fromkeys(self.read)
        for folder in self.folders():
            found.update((os.path.join(folder, name), None) for name in _names(folder) if name.endswith(".tilespec"))
        if self.wording:
            for folder, _, names in os.walk(self.wording):
                found.update((os.path.join(folder, name), None) for name in names)
        return tuple(dict.fromkeys(os.path.abspath(name) for name in found))

    def build(self) -> Shown:
        """The page as the files stand now. What is wrong with them, or with this machine, stands in it."""
        try:
            compiled = pipeline.compile(self.spec, DiskHost(), self.library)
        except Unreadable as fault:
            # Some editors take the file away for a moment while they save.
            return self._faulty(f"{fault}: {self._stays()}", fault.help)
        self.read = *compiled.sources, *compiled.missing
        messages = text.render(compiled.diagnostics, compiled.sources)
        lines = short.render(compiled.diagnostics, compiled.sources)
        counted = text.summary(compiled.diagnostics)
        if compiled.failed:
            return self._faulty(f"{counted}: {self._stays()}", messages, lines)
        if compiled.plan is None:
            return self._faulty("this file holds stock only: there is nothing to be printed of it", messages, lines)
        try:
            with output.working("working it out"):
                printed = papers.printed(partial(pipeline.render, compiled, self.order), self.wording)
        except Stop as fault:
            return self._faulty(fault.message, fault.help, lines)
        self.page = printed.data.decode("utf-8")
        questions = len(compiled.plan.job.questions)
        asked = f"; {questions} question{'s' if questions > 1 else ''} open, listed in part 2" if questions else ""
        return Shown(self.page, f"{counted or 'no faults'}{asked}", messages, False, lines)

    def _faulty(self, headline: str, messages: str, lines: str = "") -> Shown:
        return Shown(self.page, headline, messages, True, lines)

    def _stays(self) -> str:
        return "below is the last print without errors" if self.page else "nothing was printed"


def _names(folder: str) -> list[str]:
    try:
        return os.listdir(folder)
    except OSError:
        return []


def stamps(files: Iterable[str]) -> dict[str, tuple[int, int, int]]:
    """What tells that a file was saved, for each."""
    found: dict[str, tuple[int, int, int]] = {}
    for name in files:
        try:
            s = os.stat(name)
        except OSError:
            continue
        found[name] = s.st_mtime_ns, s.st_size, s.st_ino
    return found


def _knocks(folders: tuple[str, ...]) -> Iterator[None]:
    """Whenever something may have changed: as the system tells it, where watchfiles is installed; else several times a second."""
    try:
        from watchfiles import watch
    except ImportError:
        while True:
            time.sleep(POLL)
            yield
    # Some drives on the network tell nothing: look by ourselves now and then.
    for _ in watch(*folders, watch_filter=None, debounce=200, step=20, rust_timeout=2000, yield_on_timeout=True, recursive=False):
        yield
