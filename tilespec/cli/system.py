"""What the machine has of the system libraries that lay out and write a PDF."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Library:
    """A system library: names by which it is loaded, and whether a PDF can be made without it."""

    title: str
    names: tuple[str, ...]
    needed: bool


LIBRARIES = (
    Library("GLib", ("libgobject-2.0.so.0", "libgobject-2.0.dylib", "libgobject-2.0-0"), True),
    Library("Pango", ("libpango-1.0.so.0", "libpango-1.0.dylib", "libpango-1.0-0"), True),
    Library("Pango for FreeType", ("libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib", "libpangoft2-1.0-0"), True),
    Library("HarfBuzz", ("libharfbuzz.so.0", "libharfbuzz.0.dylib", "libharfbuzz-0"), True),
    Library("Fontconfig", ("libfontconfig.so.1", "libfontconfig.1.dylib", "libfontconfig-1"), True),
    Library("HarfBuzz-Subset", ("libharfbuzz-subset.so.0", "libharfbuzz-subset.0.dylib", "libharfbuzz-subset-0"), False),
)


def missing() -> tuple[Library, ...]:
    return tuple(library for library in LIBRARIES if not any(_loads(name) for name in library.names))


def _loads(name: str) -> bool:
    try:
        ctypes.CDLL(name)
    except OSError:
        return False
    return True


def words() -> str:
    """What is missing, what that means, and what to run; empty when all is there."""
    from tilespec.document.pdf import INSTALL

    lacking = missing()
    if not lacking:
        return ""
    needed = ", ".join(library.title for library in lacking if library.needed)
    helpful = ", ".join(library.title for library in lacking if not library.needed)
    lines = [f"missing here: {needed}. No PDF can be made; HTML, Markdown and JSON can.\n"] if needed else []
    lines += [f"missing here: {helpful}. Writing a PDF is slow without.\n"] if helpful else []
    return "".join(lines) + f"On Debian and Ubuntu: sudo {INSTALL}\n"
