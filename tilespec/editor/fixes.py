"""What can be mended at a place."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.checks.deviation import line_offered
from tilespec.diagnostics.model import Diagnostic, Edit
from tilespec.editor.desk import Desk
from tilespec.source import Span


@dataclass(frozen=True, slots=True)
class Action:
    """A fix of one message, or the deviation from it. `preferred`: the only fix there is."""

    title: str
    diagnostic: Diagnostic
    edits: tuple[Edit, ...]
    preferred: bool


def actions(desk: Desk, file: str, start: int, end: int) -> list[Action]:
    """Every fix of every message that touches a stretch of a file, and deviations where a rule allows one. Where the cursor
    stands on nothing that is told: those of its line."""
    found = _actions(desk, file, start, end)
    if found or start != end:
        return found
    text = desk.text(file)
    start, end = text.rfind("\n", 0, start) + 1, text.find("\n", end)
    return _actions(desk, file, start, end if end >= 0 else len(text))


def _actions(desk: Desk, file: str, start: int, end: int) -> list[Action]:
    found: dict[tuple[object, ...], Action] = {}
    for d in desk.found().get(file, ()):
        spans = [d.primary.span, *(e.span for fix in d.fixes for e in fix.edits)]
        if not any(s.file == file and s.start <= end and start <= s.end for s in spans):
            continue
        for fix in d.fixes:
            action = Action(f"{fix.title} ({d.code})", d, fix.edits, len(d.fixes) == 1)
            found.setdefault((fix.title, fix.edits), action)
        page = desk.page_of(file)
        if page is not None and page.path == file and (line := line_offered(d)) is not None:
            # Never the first choice: what is found is put right, or it is said why not.
            title = f"deviate from {d.name}: its reason is still to be written ({d.code})"
            found.setdefault(("deviate", line), Action(title, d, (_at_the_end(desk, file, line),), False))
    return list(found.values())


def _at_the_end(desk: Desk, file: str, line: str) -> Edit:
    """A statement put below the last line of a file."""
    text = desk.text(file)
    end = len(text.rstrip())
    return Edit(Span(file, end, len(text)), f"\n{line}\n")
