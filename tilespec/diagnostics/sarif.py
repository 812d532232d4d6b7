"""Diagnostics as SARIF 2.1.0, the open format (OASIS) that code review systems and editors annotate from.

Columns count code points, from 1, and ends are exclusive; the log says so. Names of files are made safe for a URI.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping

from tilespec import __version__
from tilespec.diagnostics.catalogue import explain
from tilespec.diagnostics.model import Diagnostic, Edit, Fix, Label
from tilespec.source import Source, Span

VERSION = "2.1.0"
_SAFE = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/")
_DRIVE = re.compile("[A-Za-z]:/")
# The name by which the format's own schema is known; nothing is fetched from there.
SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"


def render(diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source]) -> str:
    """One log with one run, as JSON text (ASCII)."""
    listed = tuple(diagnostics)
    codes = sorted({d.code for d in listed})
    run = {
        "tool": {"driver": {"name": "tilespec", "version": __version__, "rules": [_rule(code) for code in codes]}},
        "columnKind": "unicodeCodePoints",
        "artifacts": [{"location": {"uri": _uri(name)}} for name in sources],
        "results": [_result(d, codes.index(d.code), sources) for d in listed],
    }
    return json.dumps({"$schema": SCHEMA, "version": VERSION, "runs": [run]}, indent=2, ensure_ascii=True) + "\n"


def _rule(code: str) -> dict[str, object]:
    entry = explain(code)
    return {
        "id": entry.code,
        "name": entry.name,
        "shortDescription": {"text": entry.title},
        "fullDescription": {"text": " ".join(entry.explanation.split())},
        "help": {"text": f"tilespec explain {entry.code}"},
        "defaultConfiguration": {"level": entry.severity.value},
    }


def _result(d: Diagnostic, rule: int, sources: Mapping[str, Source]) -> dict[str, object]:
    told = [d.message, *(f"Note: {note}" for note in d.notes), *([d.help] if d.help else [])]
    return {
        "ruleId": d.code,
        "ruleIndex": rule,
        "level": d.severity.value,
        "message": {"text": "\n".join(told)},
        "locations": [_place(d.primary, sources)],
        "relatedLocations": [_place(label, sources) for label in dict.fromkeys(d.secondary)],
        "fixes": [_fix(fix, sources) for fix in dict.fromkeys(d.fixes) if fix.edits],
    }


def _place(label: Label, sources: Mapping[str, Source]) -> dict[str, object]:
    place: dict[str, object] = {
        "physicalLocation": {"artifactLocation": {"uri": _uri(label.span.file)}, "region": _region(label.span, sources)}
    }
    return place | {"message": {"text": label.text}} if label.text else place


def _fix(fix: Fix, sources: Mapping[str, Source]) -> dict[str, object]:
    files = list(dict.fromkeys(edit.span.file for edit in fix.edits))
    return {
        "description": {"text": fix.title},
        "artifactChanges": [
            {
                "artifactLocation": {"uri": _uri(file)},
                "replacements": [_replacement(edit, sources) for edit in fix.edits if edit.span.file == file],
            }
            for file in files
        ],
    }


def _replacement(edit: Edit, sources: Mapping[str, Source]) -> dict[str, object]:
    return {"deletedRegion": _region(edit.span, sources), "insertedContent": {"text": edit.text}}


def _region(span: Span, sources: Mapping[str, Source]) -> dict[str, int]:
    source = sources.get(span.file)
    if source is None:
        return {"startLine": 1}
    size = len(source.text)
    line, column = source.line_column(min(span.start, size))
    end_line, end_column = source.line_column(min(max(span.end, span.start), size))
    return {"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column}


def _uri(name: str) -> str:
    """The name as given, relative names kept so; what must not stand in a URI is escaped, bytes of no encoding included."""
    path = name.replace("\\", "/")
    escaped = "".join(c if c in _SAFE else "".join(f"%{b:02X}" for b in c.encode("utf-8", "surrogateescape")) for c in path)
    if path.startswith("/"):
        return f"file://{escaped}"
    return f"file:///{path[0]}:{escaped[4:]}" if _DRIVE.match(path) else escaped
