"""From the stages to the document."""

from __future__ import annotations

import re
from collections.abc import Sequence as Seq

from tilespec.diagnostics.model import Diagnostic
from tilespec.document.model import Document, KeyPlan, Picture, SourcesPart
from tilespec.document.parts.handover import hand_over
from tilespec.document.parts.materials import materials, tools
from tilespec.document.parts.programme import programme as programme_part
from tilespec.document.parts.scope import scope
from tilespec.document.parts.setout import set_out
from tilespec.document.parts.title import title
from tilespec.document.parts.view import View
from tilespec.document.parts.work import checklist, hazards, inspection, sequence as sequence_part
from tilespec.document.text import Ref, Said
from tilespec.document.trace import trace
from tilespec.job.types import Job
from tilespec.practice.lookup import NAMES, Practice
from tilespec.programme.types import Programme
from tilespec.sequence.types import Sequence
from tilespec.source import Source
from tilespec.takeoff.types import TakeOff


def compose(
    job: Job, practice: Practice, takeoff: TakeOff, sequence: Sequence, programme: Programme, diagnostics: tuple[Diagnostic, ...],
    sources: Seq[Source], *, git: str = "",
) -> Document:
    """The document of a sound job.

    sources   every text that was read, the spec first
    git       revision of the spec in version control, where there is one
    Raises Untraced when a quantity points into a text that is not among `sources`: a bug in tilespec.
    """
    view = View(job, practice, takeoff, sequence, programme, diagnostics, tuple(sources))
    gallery = _Gallery(view)
    plans, sheets = gallery.rooms()
    charts = gallery.charts()
    # The order of these is the order in which marks are given: that of the paper.
    first = title(view, plans, git)
    parts = (
        first, scope(view), materials(view), tools(view), hazards(view), inspection(view), sequence_part(view), set_out(view, sheets),
        programme_part(view, charts), checklist(view), hand_over(view), SourcesPart(job.family, NAMES[job.family], ()),
    )
    traces = trace(parts, view.sources)
    *others, last = parts
    sources_part = SourcesPart(last.family, last.family_name, traces.files)
    return Document(job.family, job.paper, "en", *others, sources_part, tuple(gallery.pictures), traces)


class _Gallery:
    """The drawings of a document, each under a name that is safe in a link."""

    def __init__(self, view: View) -> None:
        self.view = view
        self.pictures: list[Picture] = []

    def _hang(self, kind: str, title: str, svg: str) -> Ref:
        slug = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")[:40]
        name = f"{kind}-{len(self.pictures) + 1}" + (f"-{slug}" if slug else "")
        self.pictures.append(Picture(name, Said(title), svg))
        return Ref(name, "drawing")

    def rooms(self) -> tuple[tuple[KeyPlan, ...], dict[str, tuple[Ref, Said, Ref | None]]]:
        from tilespec.document.drawing import elevation, plan

        plans: list[KeyPlan] = []
        sheets: dict[str, tuple[Ref, Said, Ref | None]] = {}
        for room in self.view.job.rooms:
            drawn = plan(room)
            name = self._hang("plan", drawn.title, drawn.svg)
            plans.append(KeyPlan(Said(room.name), name))
            for s in room.surfaces:
                if not s.coverings:
                    continue
                if s.kind == "floor":
                    sheets[s.id] = (name, Said(drawn.title), Ref(drawn.scale, "code") if drawn.scale else None)
                    continue
                e = elevation(s, room)
                sheets[s.id] = (self._hang("wall", e.title, e.svg), Said(e.title), Ref(e.scale, "code") if e.scale else None)
        return tuple(plans), sheets

    def charts(self) -> tuple[Ref, ...]:
        from tilespec.document.chart import bar_charts

        drawn = bar_charts(self.view.sequence, self.view.programme)
        return tuple(self._hang("programme", "Programme as a bar chart: see the day table for the same in words", svg) for svg in drawn)
