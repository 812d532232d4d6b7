"""Diagnostics one a line, for editors and scripts: `file:line:col: error[T0301]: message`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tilespec.diagnostics.model import Diagnostic
from tilespec.diagnostics.printable import printable
from tilespec.source import Source


def render(diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source]) -> str:
    """One line a diagnostic; empty when there are none. Columns count characters, from 1."""
    return "".join(_line(d, sources) for d in diagnostics)


def _line(d: Diagnostic, sources: Mapping[str, Source]) -> str:
    source = sources.get(d.primary.span.file)
    line, column = source.line_column(min(d.primary.span.start, len(source.text))) if source else (1, 1)
    return f"{printable(d.primary.span.file)}:{line}:{column}: {d.severity.value}[{d.code}]: {printable(d.message)}\n"
