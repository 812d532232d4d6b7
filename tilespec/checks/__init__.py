"""Checks of fitness: small rules, one a file, each with a code and a source."""

from __future__ import annotations

from tilespec.diagnostics.entry import Entry

ENTRIES: tuple[Entry, ...] = ()
