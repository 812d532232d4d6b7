"""Parts of the document by themselves, for the terminal and for other programs."""

from __future__ import annotations

from tilespec.document.model import Excerpt, MaterialsPart, ProgrammePart, SequencePart
from tilespec.document.parts.materials import materials
from tilespec.document.parts.programme import programme
from tilespec.document.parts.view import View
from tilespec.document.parts.work import sequence
from tilespec.document.trace import trace


def take_off(view: View) -> Excerpt:
    """What to order."""
    return _excerpt(view, (("materials", materials(view)),))


def days(view: View) -> Excerpt:
    """The programme with the steps that it lays out; without its chart."""
    return _excerpt(view, (("sequence", sequence(view)), ("programme", programme(view, ()))))


def _excerpt(view: View, parts: tuple[tuple[str, MaterialsPart | SequencePart | ProgrammePart], ...]) -> Excerpt:
    job = view.job
    traces = trace(tuple(part for _, part in parts), view.sources, job.rooms[0].name if len(job.rooms) == 1 else "")
    return Excerpt(job.family, "en", parts, traces)
