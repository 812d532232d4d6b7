"""Exit statuses, and how a command says that it cannot go on."""

from __future__ import annotations

from enum import IntEnum


class Status(IntEnum):
    """What the program ends with; a promise to scripts."""

    FINE = 0
    SPEC = 1            # the spec has errors
    USAGE = 2           # wrong usage
    ENVIRONMENT = 3     # file system, or something missing on the machine
    BUG = 4             # a fault in tilespec
    INTERRUPTED = 130


class Stop(Exception):
    """Something on this machine prevents the work. The message is for a person; nothing more is said."""

    def __init__(self, message: str, help: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.help = help


class ReaderGone(Exception):
    """Who reads the output has closed it (`tilespec ... | head`): end quietly."""
