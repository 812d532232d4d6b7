"""What can be mended at a place."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.diagnostics.model import Diagnostic, Edit
from tilespec.editor.desk import Desk


@dataclass(frozen=True, slots=True)
class Action:
    """A fix of one message. `preferred`: the only one there is."""

    title: str
    diagnostic: Diagnostic
    edits: tuple[Edit, ...]
    preferred: bool


def actions(desk: Desk, file: str, start: int, end: int) -> list[Action]:
    """Every fix of every message that touches a stretch of a file."""
    found: dict[tuple[object, ...], Action] = {}
    for d in desk.found().get(file, ()):
        spans = [d.primary.span, *(e.span for fix in d.fixes for e in fix.edits)]
        if not any(s.file == file and s.start <= end and start <= s.end for s in spans):
            continue
        for fix in d.fixes:
            action = Action(f"{fix.title} ({d.code})", d, fix.edits, len(d.fixes) == 1)
            found.setdefault((fix.title, fix.edits), action)
    return list(found.values())
