"""Writing results: whole or not at all, and messages that cannot harm a terminal."""

from __future__ import annotations

import os
import secrets
import shutil
import stat
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from typing import TextIO

from tilespec.cli.status import ReaderGone, Status, Stop
from tilespec.diagnostics.printable import printable
from tilespec.diagnostics.text import COLOUR, PLAIN, Palette


@dataclass(frozen=True, slots=True)
class Result:
    """One finished print and the file it goes to."""

    path: str
    data: bytes


def write(results: Sequence[Result]) -> None:
    """Write all results. Each goes to a new file beside its target, and only when all of these are safely on disk do they
    take their names: a full disk, Ctrl-C or a second run leave the old file or the new one, whole. Raises Stop.
    """
    ready: list[tuple[str, str]] = []
    now = ""
    try:
        for result in results:
            now = result.path
            # A link is followed: its target is replaced, the link stays.
            target = os.path.realpath(result.path)
            mode = _mode(target)
            if mode is not None and not stat.S_ISREG(mode):
                _write_through(target, result.data)
                continue
            if mode is not None and not os.access(target, os.W_OK):
                raise Stop(f"{printable(now)} is write-protected", "Take the protection away, or give another name with -o.")
            folder, name = os.path.split(target)
            part = os.path.join(folder, f".{name[:100]}.{secrets.token_hex(6)}.part")
            handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
            ready.append((part, target))
            _fill(handle, result.data, mode)
        while ready:
            part, now = ready[0]
            os.replace(part, now)
            ready.pop(0)
            _settle(os.path.dirname(now))
    except OSError as fault:
        raise Stop(f"{printable(now)} cannot be written: {fault.strerror or fault}", _advice(now)) from fault
    finally:
        for part, _ in ready:
            with suppress(OSError):
                os.unlink(part)


def create(path: str, data: bytes) -> None:
    """Write a new file; one that exists is never touched. Raises Stop."""
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    except FileExistsError:
        raise Stop(f"{printable(path)} exists already and is left as it is", "Give another name.") from None
    except OSError as fault:
        raise Stop(f"{printable(path)} cannot be written: {fault.strerror or fault}", _advice(path)) from fault
    try:
        _fill(handle, data, None)
    except BaseException as fault:
        with suppress(OSError):
            os.unlink(path)
        if isinstance(fault, OSError):
            raise Stop(f"{printable(path)} cannot be written: {fault.strerror or fault}") from fault
        raise


def _mode(target: str) -> int | None:
    try:
        return os.stat(target).st_mode
    except FileNotFoundError:
        return None


def _fill(handle: int, data: bytes, mode: int | None) -> None:
    with os.fdopen(handle, "wb") as file:
        if mode is not None and hasattr(os, "fchmod"):
            os.fchmod(handle, stat.S_IMODE(mode))
        file.write(data)
        file.flush()
        os.fsync(handle)


def _write_through(target: str, data: bytes) -> None:
    """To a pipe or a device, which must not be replaced by a file. A folder fails here, with the system's words."""
    with open(target, "wb") as file:
        file.write(data)


def _settle(folder: str) -> None:
    """The new name on disk too, where the system can do that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _advice(path: str) -> str:
    folder = os.path.dirname(path) or "."
    return "" if os.path.isdir(folder) else f"The folder {printable(folder)} does not exist."


@dataclass(slots=True)
class Manner:
    """How this run speaks, as its options ask.

    colour  "auto", "always" or "never"
    quiet   only results, and what is wrong
    """

    colour: str = "auto"
    quiet: bool = False


MANNER = Manner()


def tell(text: str) -> None:
    """What was done: a message that nobody misses who asked for quiet. What is wrong is for `say`."""
    if not MANNER.quiet:
        say(text)


@contextmanager
def working(text: str) -> Iterator[None]:
    """While something takes its time, say so on a terminal; the line goes when it is done."""
    if MANNER.quiet or sys.stderr is None or not sys.stderr.isatty() or os.environ.get("TERM") == "dumb":
        yield
        return
    shown = printable(text)
    # What is done at once is not worth a flicker.
    later = threading.Timer(0.7, say, (f"\r{shown} …",))
    later.daemon = True
    later.start()
    try:
        yield
    finally:
        later.cancel()
        later.join()
        say("\r\x1b[K")


def say(text: str) -> None:
    """A message, to standard error. A message that cannot be delivered is no reason to fail."""
    if sys.stderr is not None:
        with suppress(OSError, ValueError):
            sys.stderr.write(text)
            sys.stderr.flush()


def out(data: str | bytes) -> None:
    """A result, to standard output, as UTF-8. Raises ReaderGone, or Stop where it cannot be written."""
    if sys.stdout is None:
        raise Stop("there is no standard output to write to")
    raw = data.encode("utf-8", "backslashreplace") if isinstance(data, str) else data
    try:
        buffer = getattr(sys.stdout, "buffer", None)
        if buffer is None:      # a text stream in memory
            sys.stdout.write(raw.decode("utf-8", "replace"))
        else:
            sys.stdout.flush()
            buffer.write(raw)
        sys.stdout.flush()
    except BrokenPipeError:
        raise ReaderGone from None
    except OSError as fault:
        raise Stop(f"standard output cannot be written: {fault.strerror or fault}") from fault


def finish(status: Status) -> Status:
    """Deliver what is still in the buffer. What cannot be delivered must not be tried again when Python closes the stream."""
    try:
        if sys.stdout is not None:
            sys.stdout.flush()
    except (OSError, ValueError):
        with suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, sys.stdout.fileno())
            os.close(nowhere)
        return status or Status.ENVIRONMENT
    return status


def palette(stream: TextIO | None) -> Palette:
    """Colour as --color asks; else on a terminal only, and not where NO_COLOR is set (to anything but nothing) or the terminal is
    a dumb one."""
    if MANNER.colour != "auto":
        return COLOUR if MANNER.colour == "always" else PLAIN
    if stream is None or not stream.isatty() or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return PLAIN
    return COLOUR


def columns(stream: TextIO | None = None) -> int | None:
    """How wide what goes to standard output (or to another stream) may be: the terminal, 80 where it does not say; None where it
    is no terminal."""
    stream = stream or sys.stdout
    if stream is None or not stream.isatty():
        return None
    return shutil.get_terminal_size((80, 24)).columns
