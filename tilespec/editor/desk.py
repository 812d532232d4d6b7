"""What lies open in the editor: documents, each with the specs that it is a part of, and what is known of these."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from tilespec.diagnostics.model import Diagnostic
from tilespec.editor.place import Seated, Typed, moved
from tilespec.editor.position import Lines
from tilespec.job.chapter import SURFACES
from tilespec.outcome import Outcome
from tilespec.pipeline import Look, Rest, Writing, rest
from tilespec.source import Source, Span
from tilespec.syntax.nodes import Tree
from tilespec.workspace.host import Folders, Unreadable


class Overlay:
    """Files as they are in the editor, the rest as they are on disk. What was read is kept until `forget`."""

    def __init__(self, disk: Folders) -> None:
        self.disk = disk
        self.texts: dict[str, str] = {}  # by real path
        self._read: dict[str, str] = {}
        self._real: dict[str, str] = {}

    def read(self, path: str) -> str:
        real = self.real(path)
        if real in self.texts:
            return self.texts[real]
        if real not in self._read:
            self._read[real] = self.disk.read(path)
        return self._read[real]

    def real(self, path: str) -> str:
        if path not in self._real:
            self._real[path] = self.disk.real(path)
        return self._real[path]

    def exists(self, path: str) -> bool:
        real = self.real(path)
        return real in self.texts or real in self._read or self.disk.exists(path)

    def forget(self) -> None:
        """Something may have changed on disk."""
        self._read.clear()
        self._real.clear()


@dataclass(frozen=True, slots=True)
class Behind:
    """What was worked out in a pause: the take-off, the sequence, and what only they show. Places are seats of that moment."""

    rest: Rest
    seated: Mapping[str, Seated]


@dataclass(frozen=True, slots=True)
class Work:
    """What a pause has to work out. It touches nothing else, so it may be done in a thread."""

    look: Look
    seated: Mapping[str, Seated]

    def run(self, stop: Callable[[], bool] = lambda: False) -> Behind | None:
        """None where `stop` said that it is no longer wanted."""
        done = rest(self.look, stop)
        return Behind(done, self.seated) if done is not None else None


@dataclass(slots=True)
class Page:
    """One spec that is looked at, with the files it uses.

    look      the last one; None where the spec cannot be read
    found     all there is to say at the moment, with places in the texts
    behind    of the last pause
    spoken    codes of what there was to say when the spec could last be read as a whole: a half-written line silences the rules
    """
    path: str
    typed: dict[str, Typed] = field(default_factory=dict)
    writing: Writing = field(default_factory=Writing)
    look: Look | None = None
    found: tuple[Diagnostic, ...] = ()
    behind: Behind | None = None
    spoken: frozenset[str] = frozenset()

    def read(self, source: Source) -> Outcome[Tree]:
        return self.typed.setdefault(source.name, Typed(source.name)).read(source)

    def seated(self, file: str) -> Seated | None:
        typed = self.typed.get(file)
        return typed.version if typed is not None else None

    def back(self, span: Span) -> Span:
        """A place of the job as one in the text."""
        seated = self.seated(span.file)
        return seated.back(span) if seated is not None else span

    @property
    def fresh(self) -> bool:
        """What was worked out in the pause is that of this text, but for its comments and blanks."""
        return self.behind is not None and self.look is not None and self.behind.rest.look.diagnostics is self.look.diagnostics

    def settle(self) -> None:
        """Put together what there is to say: what shows at once, and what showed in the last pause and still stands there."""
        if self.look is None:
            self.found = ()
            return
        if self.fresh and self.behind is not None:
            listed = self.behind.rest.diagnostics
        else:
            listed = self.look.diagnostics
            if self.behind is not None:
                there = self.behind
                listed += tuple(d for d in there.rest.later if self._stands(d, there) and d not in listed)
        begun = any(st.kind == "room" or st.kind in SURFACES for tree in self.look.workspace.trees[:1] for st in tree.statements)
        # A stock file is no fault of its own, nor is a spec that is only begun.
        silent = ("stock-only",) if begun else ("stock-only", "nothing-tiled")
        self.found = tuple(moved(d, self.back) for d in listed if d.name not in silent)
        if self.look.sound:
            self.spoken = frozenset(d.code for d in self.found)

    def _stands(self, d: Diagnostic, there: Behind) -> bool:
        """Whether all that the message is about is as it was."""
        for span in (d.primary.span, *(label.span for label in d.secondary)):
            then, now = there.seated.get(span.file), self.seated(span.file)
            if then is None or now is None or then.at_seat(span.start) is not now.at_seat(span.start):
                return False
        return True


class Desk:
    """The open documents by path. Everything that an editor asks is asked of it."""

    def __init__(self, disk: Folders, library: str | None = None, today: Callable[[], str] = str) -> None:
        self.host = Overlay(disk)
        self.library = library
        self.date = today  # as it is written, where it is known: an example of one
        self.texts: dict[str, str] = {}  # by path, as opened
        self.pages: dict[str, Page] = {}
        self._lines: dict[str, Lines] = {}

    # ------------------------------------------------------------ what the editor does

    def write(self, path: str, text: str) -> list[str]:
        """A document is opened or changed. Returns the specs that were looked at again."""
        self.texts[path] = text
        self.host.texts[self.host.real(path)] = text
        if path not in self.pages:
            self.pages[path] = Page(path)
        return self.again(path)

    def close(self, path: str) -> list[str]:
        self.texts.pop(path, None)
        self.pages.pop(path, None)
        self.host.texts.pop(self.host.real(path), None)
        self.host.forget()
        return self.again(None)

    def refresh(self) -> list[str]:
        """Files on disk may have changed."""
        self.host.forget()
        for path, text in self.texts.items():
            self.host.texts[self.host.real(path)] = text
        return self.again(None)

    def again(self, path: str | None) -> list[str]:
        """Look again at the specs that a file is a part of; at all of them where none is named."""
        real = self.host.real(path) if path is not None else None
        looked = []
        for page in self.pages.values():
            if real is None or page.path == path or page.look is None or any(
                self.host.real(name) == real for name in (*page.look.sources, *page.look.workspace.missing)
            ):
                self._look(page)
                looked.append(page.path)
        return looked

    def _look(self, page: Page) -> None:
        try:
            page.look = page.writing.look(page.path, self.host, self.library, page.read)
        except Unreadable:
            page.look = None
        page.settle()

    # ------------------------------------------------------------ what shows

    def files(self) -> list[str]:
        """Every file of the specs that are open."""
        looks = [page.look for page in self.pages.values() if page.look is not None]
        return list(dict.fromkeys(name for look in looks for name in look.sources))

    def found(self, looked: list[str] | None = None) -> dict[str, tuple[Diagnostic, ...]]:
        """What there is to say, by file: of the files of these specs, else of all. A file of several specs has it from all."""
        files: dict[str, dict[Diagnostic, None]] = {name: {} for name in self.files()}
        if looked is not None:
            shown = {n for p in looked if (one := self.pages.get(p)) and one.look for n in one.look.sources}
            files = {name: held for name, held in files.items() if name in shown}
        for page in self.pages.values():
            for d in page.found:
                if d.primary.span.file in files:
                    files[d.primary.span.file].setdefault(d)
        return {name: tuple(held) for name, held in files.items()}

    def work(self, path: str) -> Work | None:
        """What a pause can work out of a spec; None where there is nothing, or nothing new."""
        page = self.pages.get(path)
        if page is None or page.look is None or not page.look.sound or page.fresh:
            return None
        return Work(page.look, {name: typed.version for name, typed in page.typed.items() if typed.version is not None})

    def settle(self, path: str, behind: Behind) -> None:
        """Take up what was worked out in a pause."""
        page = self.pages.get(path)
        if page is not None:
            page.behind = behind
            page.writing.take(behind.rest)
            page.settle()

    # ------------------------------------------------------------ finding one's way

    def text(self, file: str) -> str:
        """The text of a file that is open or used; empty where there is none."""
        if file in self.texts:
            return self.texts[file]
        for page in self.pages.values():
            if page.look is not None and file in page.look.sources:
                return page.look.sources[file].text
        return ""

    def lines(self, file: str) -> Lines:
        text = self.text(file)
        held = self._lines.get(file)
        if held is None or held.text != text:
            held = self._lines[file] = Lines(text)
        return held

    def page_of(self, file: str) -> Page | None:
        """The spec that a file is best understood in: itself, unless it is stock of another that is open."""
        own = self.pages.get(file)
        if own is not None and own.look is not None and own.look.job.rooms:
            return own
        real = self.host.real(file)
        for page in self.pages.values():
            if page.path != file and page.look is not None and any(self.host.real(n) == real for n in page.look.sources):
                return page
        return own
