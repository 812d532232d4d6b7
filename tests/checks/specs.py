"""Specs in memory, checked: what every test of a rule starts from."""

from __future__ import annotations

from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic
from tilespec.workspace.host import MemoryHost

PATH = "/job.tilespec"


def said(spec: str) -> tuple[Diagnostic, ...]:
    """What the rules say about a spec that has no fault of language, without which they would not run at all."""
    found = pipeline.compile(PATH, MemoryHost({PATH: spec})).diagnostics
    assert [d.message for d in found if d.stage != "checks"] == []
    return found


def names(spec: str) -> list[str]:
    return [d.name for d in said(spec)]


def only(spec: str, name: str) -> Diagnostic:
    """The one diagnostic of this name."""
    found = [d for d in said(spec) if d.name == name]
    assert len(found) == 1, [f"{d.name}: {d.message}" for d in said(spec)]
    return found[0]


def at(spec: str, found: Diagnostic) -> str:
    """The words that a diagnostic points at."""
    return spec[found.primary.span.start : found.primary.span.end]


def mended(spec: str, found: Diagnostic) -> str:
    """The spec with the first fix of a diagnostic written in."""
    for edit in sorted(found.fixes[0].edits, key=lambda e: -e.span.start):
        spec = spec[: edit.span.start] + edit.text + spec[edit.span.end :]
    return spec


def wall(
    *lines: str, head: str = "", letter: str = "A", size: str = "2.4 x 2.4", tile: str = "300x300x9 porcelain; weight 20 kg/m2"
) -> str:
    """A spec of one wall, with whatever stands before it."""
    body = "\n".join(f"  {line}" for line in lines)
    return f"{head}\ntile wall-tile {tile}\nwall {letter} {size}\n{body}\n".lstrip("\n")


def floor(*lines: str, head: str = "", size: str = "2.4 x 1.8", tile: str = "100x100x8 porcelain; barefoot class B") -> str:
    """A spec of one floor, with whatever stands before it."""
    body = "\n".join(f"  {line}" for line in lines)
    return f"{head}\ntile floor-tile {tile}\nfloor {size}\n{body}\n".lstrip("\n")


def practice(family: str) -> str:
    return f'job "Bathroom"\n  practice {family}'
