"""A spec and the stock files it uses.

`use` names a file beside the one that says it, or in a library folder that the caller gives; nothing outside these folders is
read, with links followed. A circle is an error that shows its chain.
"""

from __future__ import annotations

import os.path
from collections.abc import Callable
from dataclasses import dataclass

from tilespec.diagnostics.catalogue import problem
from tilespec.diagnostics.model import Diagnostic
from tilespec.outcome import Outcome
from tilespec.source import Source, Span
from tilespec.syntax.nodes import Tree
from tilespec.syntax.parse import parse
from tilespec.workspace.host import Host, Unreadable

MAX_FILES = 64

Parse = Callable[[Source], Outcome[Tree]]


@dataclass(frozen=True, slots=True)
class Workspace:
    """What was read: the spec first, then each stock file once, before the file that uses it."""

    trees: tuple[Tree, ...]
    sources: tuple[Source, ...]
    missing: tuple[str, ...] = ()  # files asked for and not found: watched as well


class _Loader:
    def __init__(self, host: Host, library: str | None, root: str, parse: Parse) -> None:
        self.host = host
        self.parse = parse
        self.library = library
        self.roots = [host.real(root)] + ([host.real(library)] if library else [])
        self.trees: dict[str, Tree] = {}
        self.sources: dict[str, Source] = {}
        self.diagnostics: list[Diagnostic] = []
        self.missing: list[str] = []

    def inside(self, real: str) -> bool:
        return any(
            real == r or real.startswith((r.rstrip("/\\") + os.sep, r.rstrip("/") + "/")) for r in self.roots
        )

    def find(self, name: str, folder: str) -> str | None:
        """The file a `use` means: beside the using file first, then in the library."""
        for base in [folder] + ([self.library] if self.library else []):
            path = os.path.join(base, name)
            if self.host.exists(path):
                return path
        return None

    def read(self, path: str, shown: str, chain: tuple[tuple[str, str], ...], text: str | None) -> None:
        real = self.host.real(path)
        source = Source(shown, text if text is not None else self.host.read(path))
        outcome = self.parse(source)
        self.diagnostics.extend(outcome.diagnostics)
        here = (*chain, (real, shown))
        self.sources[real] = source
        for st in outcome.value.statements:
            if st.kind == "use" and st.args:
                self.use(st.args[0].text, st.span(st.args[0]), os.path.dirname(path), here)
        self.trees[real] = outcome.value

    def use(self, name: str, span: Span, folder: str, chain: tuple[tuple[str, str], ...]) -> None:
        inner = Span(span.file, span.start + 1, span.end - 1)
        if not name.strip() or os.path.isabs(name) or "\\" in name or ":" in name:
            self.diagnostics.append(
                problem(
                    "use-outside",
                    inner,
                    f'"{name}" is not a file beside this one.',
                    help='Name a stock file by its place beside the spec, for example `use "house-stock.tilespec"`.',
                )
            )
            return
        path = self.find(name, folder)
        if path is None:
            self.missing.append(os.path.join(folder, name))
            where = "beside the spec" + (" nor in the library" if self.library else "")
            self.diagnostics.append(
                problem(
                    "file-unreadable", inner, f'There is no file "{name}" {where}.', help="Check the name, or put the file there."
                )
            )
            return
        real = self.host.real(path)
        if not self.inside(real):
            self.diagnostics.append(
                problem(
                    "use-outside",
                    inner,
                    f'"{name}" leads outside the spec\'s folder.',
                    help="Copy the file beside the spec, or name its folder as the library.",
                )
            )
            return
        ring = [n for n, (r, _) in enumerate(chain) if r == real]
        if ring:
            names = [shown for _, shown in chain[ring[0] :]]
            circle = " uses ".join((*names, names[0]))
            self.diagnostics.append(
                problem(
                    "use-circle",
                    inner,
                    f"These files use each other in a circle: {circle}." if len(names) > 1 else f"{names[0]} uses itself.",
                    help="Take one of the `use` lines out." if len(names) > 1 else "Take this line out.",
                )
            )
            return
        if real in self.trees:
            return
        if len(self.trees) + len(chain) >= MAX_FILES:
            if any(d.name == "too-many-files" for d in self.diagnostics):
                return
            self.diagnostics.append(
                problem(
                    "too-many-files", inner, f"More than {MAX_FILES} files are used.", help="Put stock together in fewer files."
                )
            )
            return
        try:
            self.read(path, path, chain, None)
        except Unreadable as fault:
            self.diagnostics.append(problem("file-unreadable", inner, f'"{name}" {fault.words}.', help=fault.help))


def load(
    path: str, host: Host, library: str | None = None, text: str | None = None, parse: Parse = parse
) -> Outcome[Workspace]:
    """Read a spec and what it uses. `text` stands in for the spec's own file (standard input, an editor); `parse` reads one
    text (an editor keeps what it has read).

    Raises Unreadable when the spec itself cannot be read; faults in stock files are diagnostics.
    """
    loader = _Loader(host, library, os.path.dirname(path) or ".", parse)
    loader.read(path, path, (), text)
    real = host.real(path)
    order = [real] + [r for r in loader.trees if r != real]
    found = Workspace(tuple(loader.trees[r] for r in order), tuple(loader.sources[r] for r in order), tuple(loader.missing))
    return Outcome(found, tuple(loader.diagnostics))
