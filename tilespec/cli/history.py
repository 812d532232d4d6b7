"""Specs as they stood at a revision in version control. git is only asked; it runs nothing of the repository's own."""

from __future__ import annotations

import os
import posixpath
import subprocess
from dataclasses import dataclass, field

from tilespec.cli.status import Stop
from tilespec.diagnostics.printable import printable
from tilespec.workspace.host import SIZE_LIMIT, DiskHost, Reason, Unreadable, decode

_LINK, _FILES = "120000", ("100644", "100755")


@dataclass(frozen=True, slots=True)
class Entry:
    """What stands under a path: mode and id, as git names them."""

    mode: str
    id: str


class Unasked(Exception):
    """git had no answer. The message is its own."""


# Set in a hook, and meant for the repository and the folder that the hook runs in: here the spec's own folder says which it is.
_OF_HOOKS = frozenset({"GIT_DIR", "GIT_WORK_TREE", "GIT_COMMON_DIR", "GIT_INDEX_FILE", "GIT_PREFIX"})


def ask(folder: str, *words: str) -> bytes:
    """What git answers in a folder. Raises Unasked, and Stop where there is no git."""
    # No lock, no monitor; paths are names and no patterns.
    command = ["git", "--no-optional-locks", "--literal-pathspecs", "-c", "core.fsmonitor=false", "-C", folder, *words]
    try:
        around = {name: value for name, value in os.environ.items() if name not in _OF_HOOKS}
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, timeout=60, env=around)
    except FileNotFoundError:
        raise Stop("git is not installed, or not in the search path", "Install git, or compare two files.") from None
    except (OSError, subprocess.SubprocessError) as fault:
        raise Stop(f"git cannot be run: {fault}") from None
    if done.returncode:
        raise Unasked(printable(done.stderr.decode("utf-8", "replace").strip()))
    return done.stdout


class Repository:
    """The repository that a folder is in. Raises Stop where it is in none."""

    def __init__(self, folder: str) -> None:
        try:
            found = ask(folder, "rev-parse", "--show-toplevel")
        except Unasked as fault:
            raise Stop(f"{printable(folder)} is in no git repository: {fault}", "Compare two files instead.") from None
        self.top = os.path.realpath(os.fsdecode(found.removesuffix(b"\n")))

    def commit(self, revision: str) -> str:
        """The full id of a revision: a branch, a tag, HEAD~2. Raises Stop."""
        unknown = Stop(f"git knows no revision {printable(revision)!r}", "`git log --oneline` lists them.")
        if not revision or revision.startswith("-") or not revision.isprintable():
            raise unknown
        try:
            found = ask(self.top, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
        except Unasked:
            raise unknown from None
        return found.decode("ascii").strip()


@dataclass(slots=True)
class RevisionHost:
    """Files as a commit has them. What lies outside the repository, such as the firm's library, is read from the disk.

    name  of the revision, for messages
    """

    repository: Repository
    commit: str
    name: str
    disk: DiskHost = field(default_factory=DiskHost)
    known: dict[str, Entry | None] = field(default_factory=dict)

    def read(self, path: str) -> str:
        if "\0" in path:
            raise Unreadable(Reason.MISSING, path)
        real = self.real(path)
        if (inside := self._inside(real)) is None:
            return self.disk.read(path)
        shown = f"{path} at {self.name}"
        entry = self._entry(inside)
        if entry is None:
            raise Unreadable(Reason.MISSING, shown)
        if entry.mode == _LINK:
            raise Unreadable(Reason.LINKS, shown)
        if entry.mode not in _FILES:
            raise Unreadable(Reason.NOT_A_FILE, shown)
        try:
            if int(ask(self.repository.top, "cat-file", "-s", entry.id)) > SIZE_LIMIT:
                raise Unreadable(Reason.TOO_LARGE, shown)
            return decode(ask(self.repository.top, "cat-file", "blob", entry.id), shown)
        except Unasked as fault:
            raise Unreadable(Reason.DISK, shown, detail=str(fault)) from None

    def real(self, path: str) -> str:
        """Links are followed as the commit has them, not as the disk has them now."""
        at = self._absolute(path)
        for _ in range(40):
            if (inside := self._inside(at)) is None:
                return self.disk.real(path)
            entry = self._entry(inside)
            if entry is None or entry.mode != _LINK:
                return at
            try:
                to = os.fsdecode(ask(self.repository.top, "cat-file", "blob", entry.id))
            except Unasked:
                return at
            at = os.path.normpath(os.path.join(os.path.dirname(at), to))
        return at

    def exists(self, path: str) -> bool:
        if "\0" in path:
            return False
        real = self.real(path)
        if (inside := self._inside(real)) is None:
            return self.disk.exists(path)
        entry = self._entry(inside)
        return entry is not None and entry.mode in _FILES

    def _absolute(self, path: str) -> str:
        """By name only, below the repository's real folder: the path need not be there any more."""
        at = os.path.abspath(path)
        head, tail = at, ""
        while True:
            if os.path.realpath(head) == self.repository.top:
                return os.path.normpath(os.path.join(self.repository.top, tail))
            above, name = os.path.split(head)
            if above == head:
                return at
            head, tail = above, os.path.join(name, tail) if tail else name

    def _inside(self, real: str) -> str | None:
        """The path as git names it, or None outside the repository."""
        if real == self.repository.top:
            return "."
        start = self.repository.top.rstrip(os.sep) + os.sep
        return posixpath.join(*real.removeprefix(start).split(os.sep)) if real.startswith(start) else None

    def _entry(self, inside: str) -> Entry | None:
        if inside not in self.known:
            self.known[inside] = self._look(inside)
        return self.known[inside]

    def _look(self, inside: str) -> Entry | None:
        try:
            found = ask(self.repository.top, "ls-tree", "-z", "--full-tree", self.commit, "--", inside)
        except Unasked:
            return None
        for line in found.split(b"\0"):
            about, _, name = line.partition(b"\t")
            if os.fsdecode(name) == inside:
                mode, _, id = about.decode("ascii").split(" ")
                return Entry(mode, id)
        return None
