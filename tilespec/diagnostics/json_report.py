"""The machine report: valid JSON on every path, also where nothing could be read.

Its schema is `report.schema.json` beside this file. Within one `format_version` fields are only added.
Lines, columns and offsets count code points; lines and columns from 1, offsets from 0; ends are exclusive.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tilespec import __version__
from tilespec.diagnostics.model import Diagnostic, Label, Severity
from tilespec.source import Source, Span

FORMAT_VERSION = 1


@dataclass(frozen=True, slots=True)
class Failure:
    """Why there is no result, where it is not the spec's fault.

    kind   "usage", "environment", "bug" or "interrupted"
    """

    kind: str
    message: str
    help: str = ""


def render(
    diagnostics: Iterable[Diagnostic],
    sources: Mapping[str, Source],
    status: int,
    failures: Iterable[Failure] = (),
    written: Iterable[str] = (),
) -> str:
    """The report as JSON text (ASCII, one object). `status` is the exit status; `written` the files that were made."""
    listed = tuple(diagnostics)
    report = {
        "format": "tilespec-report",
        "format_version": FORMAT_VERSION,
        "tilespec": __version__,
        "status": status,
        "files": list(sources),
        "written": list(written),
        "errors": sum(d.severity is Severity.ERROR for d in listed),
        "warnings": sum(d.severity is Severity.WARNING for d in listed),
        "notes": sum(d.severity is Severity.NOTE for d in listed),
        "diagnostics": [_diagnostic(d, sources) for d in listed],
        "failures": [{"kind": f.kind, "message": f.message, "help": f.help} for f in failures],
    }
    # ASCII only: a file name may hold bytes that no encoding can print.
    return json.dumps(report, indent=2, ensure_ascii=True) + "\n"


def _diagnostic(d: Diagnostic, sources: Mapping[str, Source]) -> dict[str, object]:
    return {
        "code": d.code,
        "name": d.name,
        "severity": d.severity.value,
        "stage": d.stage,
        "message": d.message,
        "primary": _label(d.primary, sources),
        "secondary": [_label(label, sources) for label in d.secondary],
        "notes": list(d.notes),
        "help": d.help,
        "fixes": [
            {
                "title": fix.title,
                "safe": fix.safe,
                "edits": [{**_place(edit.span, sources), "text": edit.text} for edit in fix.edits],
            }
            for fix in d.fixes
        ],
    }


def _label(label: Label, sources: Mapping[str, Source]) -> dict[str, object]:
    return {**_place(label.span, sources), "label": label.text}


def _place(span: Span, sources: Mapping[str, Source]) -> dict[str, object]:
    source = sources.get(span.file)
    line, column, end_line, end_column = 1, 1, 1, 1
    if source:
        line, column = source.line_column(min(span.start, len(source.text)))
        end_line, end_column = source.line_column(min(max(span.end, span.start), len(source.text)))
    return {
        "file": span.file,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "start": span.start,
        "end": span.end,
    }
