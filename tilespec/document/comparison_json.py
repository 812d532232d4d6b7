"""A comparison as JSON. The schema is `schema/compare.schema.json`; within one major `format_version` fields are only added."""

from __future__ import annotations

import json
from datetime import date

from tilespec.compare.types import Came, Change, Changed, Comparison, Fact, Gone, Moved, Value
from tilespec.document.comparison import said
from tilespec.document.json_form import Json, number
from tilespec.quantity import Quantity

FORMAT_VERSION = "1.0"


def render(c: Comparison) -> str:
    """JSON text, with a line break at its end."""
    form: dict[str, Json] = {
        "format": "tilespec-compare",
        "format_version": FORMAT_VERSION,
        "old": c.old,
        "new": c.new,
        "family": c.family,
        "same": c.same,
        "unsound": list(c.unsound),
        "changes": {part.key: [_change(x, c.family) for x in part.changes] for part in c.parts},
        "diagnostics": [
            {"state": "new" if d.new else "cleared", "severity": d.severity.value, "code": d.code, "name": d.name,
             "message": d.message}
            for d in c.diagnostics
        ],
    }
    # ASCII only: a file name may hold bytes that no encoding can print.
    return json.dumps(form, indent=2, ensure_ascii=True) + "\n"


def _change(change: Change, family: str) -> Json:
    about: list[Json] = list(change.about)
    match change:
        case Came():
            return {"change": "added", "about": about, "facts": _facts(change.facts, family)}
        case Gone():
            return {"change": "removed", "about": about, "facts": _facts(change.facts, family)}
        case Moved():
            return {"change": "moved", "about": about, "old_after": change.old or None, "new_after": change.new or None}
        case Changed():
            return {
                "change": "changed", "about": about, "what": change.what, "old": _value(change.old, family),
                "new": _value(change.new, family), "difference": _value(change.difference, family),
            }


def _facts(facts: tuple[Fact, ...], family: str) -> Json:
    return [{"what": f.what, "value": _value(f.value, family)} for f in facts]


def _value(value: Value | None, family: str) -> Json:
    match value:
        case None:
            return None
        case Quantity():
            return {"text": said(value, family), "value": number(value.number), "unit": value.shown.symbol}
        case date():    # a moment is one too
            return {"text": said(value, family), "iso": value.isoformat()}
    return {"text": value}
