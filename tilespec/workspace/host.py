"""Where texts come from: the disk, or memory for tests. The only door through which a spec or a stock file is read.

A file is read strictly: UTF-8 (a byte order mark at the start is dropped), lines ended by LF or CR LF, regular files only,
with a cap on size. What a host returns has LF line breaks only and no byte order mark, so that places in it, and the
fingerprint of a job, do not change with the editor or the version-control settings that wrote the file.
"""

from __future__ import annotations

import errno
import os
import posixpath
import stat
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from typing import Protocol

# A large firm's stock list is a few hundred kilobytes; more is a file that was named by mistake.
SIZE_LIMIT = 8 * 1024 * 1024


class Reason(Enum):
    """Why a file cannot be read. The value is the name that a diagnostic or a test uses."""

    MISSING = "missing"
    DENIED = "denied"
    NOT_A_FILE = "not-a-file"
    TOO_LARGE = "too-large"
    LINKS = "links"
    DISK = "disk"
    UTF_16 = "utf-16"
    NOT_UTF_8 = "not-utf-8"
    NUL = "nul"
    LONE_CR = "lone-cr"


# What is wrong (after the file's name) and what to do about it.
_WORDS: dict[Reason, tuple[str, str]] = {
    Reason.MISSING: ("does not exist", "Check the name and the folder."),
    Reason.DENIED: ("may not be read", "Ask for the right to read it, or copy it to a folder of yours."),
    Reason.NOT_A_FILE: ("is not a file", "Name a file; folders and devices are not read."),
    Reason.TOO_LARGE: (f"is larger than {SIZE_LIMIT // 1024 // 1024} MB", "A job is a short text. Is this the right file?"),
    Reason.LINKS: ("is a link that leads back to itself", "Replace the link by the file."),
    Reason.DISK: ("cannot be read", "Check the disk or the network drive."),
    Reason.UTF_16: ("is written as UTF-16", "In the editor: save as, encoding UTF-8."),
    Reason.NOT_UTF_8: ("is not UTF-8 text", "In the editor: save as, encoding UTF-8."),
    Reason.NUL: ("is not text: it holds a NUL byte", "Is this the right file? A spec is plain text."),
    Reason.LONE_CR: ("has a carriage return that ends no line", "In the editor: save with line ends LF or CR LF."),
}


class Unreadable(Exception):
    """A file that cannot be read, and why.

    path    as it was asked for
    offset  byte (from 0) of the first bad place, for faults in the text itself
    detail  the system's own words, where there are some
    """

    def __init__(self, reason: Reason, path: str, offset: int | None = None, detail: str = "") -> None:
        super().__init__(reason, path, offset, detail)
        self.reason = reason
        self.path = path
        self.offset = offset
        self.detail = detail

    @property
    def words(self) -> str:
        """What is wrong, to be set after the file's name: `does not exist`, `is not UTF-8 text (byte 17)`."""
        words = _WORDS[self.reason][0]
        if self.offset is not None:
            words += f" (byte {self.offset})"
        return f"{words}: {self.detail}" if self.detail else words

    @property
    def help(self) -> str:
        return _WORDS[self.reason][1]

    def __str__(self) -> str:
        return f"{self.path} {self.words}"


class Host(Protocol):
    """What the loading of specs needs of the outside world."""

    def read(self, path: str) -> str:
        """The whole text. Raises Unreadable."""

    def real(self, path: str) -> str:
        """Absolute path with every link followed; also for a path that does not exist."""

    def exists(self, path: str) -> bool:
        """Whether there is a regular file (or a link to one)."""


class Folders(Host, Protocol):
    """A host that can also say what lies in a folder: for an editor, which offers the names."""

    def names(self, folder: str) -> tuple[str, ...]:
        """The names of the files in it, in order; none where there is no such folder, or it may not be read."""


def decode(data: bytes, path: str) -> str:
    """Bytes to text by the strict reading. Raises Unreadable with the byte offset of the first fault."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Unreadable(Reason.UTF_16, path, 0)
    if (at := data.find(b"\0")) >= 0:
        # Text of Latin letters in UTF-16 without a mark has a NUL in every other byte.
        wide = at < 2 and len(data) % 2 == 0 and data.count(b"\0") >= len(data) // 3
        raise Unreadable(Reason.UTF_16 if wide else Reason.NUL, path, at)
    mark = 3 if data.startswith(b"\xef\xbb\xbf") else 0
    body = data[mark:]
    try:
        text = body.decode("utf-8", "strict")
    except UnicodeDecodeError as fault:
        raise Unreadable(Reason.NOT_UTF_8, path, fault.start + mark) from None
    if b"\r" in body:
        text = text.replace("\r\n", "\n")
        if "\r" in text:
            at = next(i for i, b in enumerate(body) if b == 13 and body[i + 1 : i + 2] != b"\n")
            raise Unreadable(Reason.LONE_CR, path, at + mark)
    return text


def _reason(fault: OSError) -> Reason:
    if fault.errno in (errno.ENOENT, errno.ENOTDIR, errno.ENAMETOOLONG):
        return Reason.MISSING
    if fault.errno in (errno.EACCES, errno.EPERM):
        return Reason.DENIED
    if fault.errno == errno.EISDIR:
        return Reason.NOT_A_FILE
    return Reason.LINKS if fault.errno == errno.ELOOP else Reason.DISK


class DiskHost:
    """Files on disk."""

    def read(self, path: str) -> str:
        return decode(self.data(path), path)

    def data(self, path: str) -> bytes:
        """The bytes of a file that is not too large. Raises Unreadable."""
        if "\0" in path:
            raise Unreadable(Reason.MISSING, path)
        try:
            # Not to block: opening a named pipe would wait for a writer for ever.
            handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
            with os.fdopen(handle, "rb") as file:
                # Asked of the open file, not of the name: the name could be changed in between.
                if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                    raise Unreadable(Reason.NOT_A_FILE, path)
                data = file.read(SIZE_LIMIT + 1)
        except OSError as fault:
            reason = _reason(fault)
            raise Unreadable(reason, path, detail=(fault.strerror or "") if reason is Reason.DISK else "") from fault
        if len(data) > SIZE_LIMIT:
            raise Unreadable(Reason.TOO_LARGE, path)
        return data

    def real(self, path: str) -> str:
        return os.path.realpath(path)

    def exists(self, path: str) -> bool:
        return "\0" not in path and os.path.isfile(path)

    def names(self, folder: str) -> tuple[str, ...]:
        try:
            with os.scandir(folder or ".") as found:
                return tuple(sorted(one.name for one in found if one.is_file()))
        except (OSError, ValueError):
            return ()


@dataclass(frozen=True, slots=True)
class MemoryHost:
    """Files in memory: for tests, and for texts that are no files yet. `links` maps a path to the path it leads to."""

    files: Mapping[str, str | bytes]
    links: Mapping[str, str] = field(default_factory=dict)

    def read(self, path: str) -> str:
        found = self.files.get(self.real(path))
        if found is None:
            raise Unreadable(Reason.MISSING, path)
        data = found.encode("utf-8", "surrogatepass") if isinstance(found, str) else found
        if len(data) > SIZE_LIMIT:
            raise Unreadable(Reason.TOO_LARGE, path)
        return decode(data, path)

    def real(self, path: str) -> str:
        at = posixpath.normpath(posixpath.join("/", path))
        for _ in range(len(self.links) + 1):
            if at not in self.links:
                return at
            at = posixpath.normpath(posixpath.join(posixpath.dirname(at), self.links[at]))
        raise Unreadable(Reason.LINKS, path)

    def exists(self, path: str) -> bool:
        return self.real(path) in self.files

    def names(self, folder: str) -> tuple[str, ...]:
        real = self.real(folder).rstrip("/") + "/"
        return tuple(sorted(f[len(real) :] for f in self.files if f.startswith(real) and "/" not in f[len(real) :]))
