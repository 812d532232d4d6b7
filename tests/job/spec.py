"""Jobs from text, for these tests."""

from __future__ import annotations

from fractions import Fraction as F

from tilespec.diagnostics.model import Diagnostic, Severity
from tilespec.job import build
from tilespec.job.types import Job, Rect, Room, Surface
from tilespec.outcome import Outcome
from tilespec.workspace.host import MemoryHost
from tilespec.workspace.load import load

TILE = "tile white 600x300x9 porcelain; weight 20 kg/m2; box of 6\n"


def outcome(text: str, **files: str) -> Outcome[Job]:
    host = MemoryHost({"/job.tilespec": text, **{f"/{name}.tilespec": body for name, body in files.items()}})
    loaded = load("/job.tilespec", host)
    built = build(loaded.value)
    return Outcome(built.value, (*loaded.diagnostics, *built.diagnostics))


def job(text: str, **files: str) -> Job:
    found = outcome(text, **files)
    assert not [d.message for d in found.diagnostics if d.severity is Severity.ERROR]
    return found.value


def room(text: str) -> Room:
    return job(text).rooms[0]


def surface(text: str, letter: str) -> Surface:
    found = room(text).surface(letter)
    assert found is not None
    return found


def said(text: str) -> list[str]:
    """Names of what is said of a text, errors and warnings."""
    return [d.name for d in outcome(text).diagnostics if d.severity is not Severity.NOTE]


def first(text: str) -> Diagnostic:
    return outcome(text).diagnostics[0]


def mm(rect: Rect | None) -> tuple[F, F, F, F]:
    """Left, bottom, width and height in millimetres."""
    assert rect is not None
    return rect.x.mm, rect.y.mm, rect.width.mm, rect.height.mm
