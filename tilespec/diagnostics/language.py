"""Diagnostics of the language: text (T00xx), syntax (T01xx), words and names (T02xx), numbers and units (T03xx),
geometry (T04xx), files and `use` (T05xx), records, steps and deviations (T06xx)."""

from __future__ import annotations

from tilespec.diagnostics.entry import Entry

ENTRIES: tuple[Entry, ...] = ()
