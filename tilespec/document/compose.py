"""From the stages to the document."""

from __future__ import annotations

import re
from collections.abc import Sequence as Seq
from dataclasses import replace
from typing import TYPE_CHECKING

from tilespec.diagnostics.model import Diagnostic
from tilespec.document.model import Document, KeyPlan, Picture, SourcesPart
from tilespec.document.parts.handover import hand_over
from tilespec.document.parts.materials import materials, tools
from tilespec.document.parts.programme import programme as programme_part
from tilespec.document.parts.scope import scope
from tilespec.document.parts.setout import Hung, set_out
from tilespec.document.parts.title import title
from tilespec.document.parts.view import View
from tilespec.document.parts.work import checklist, hazards, inspection
from tilespec.document.parts.work import sequence as sequence_part
from tilespec.document.text import Ref, Said
from tilespec.document.trace import trace
from tilespec.job.types import Job
from tilespec.practice.lookup import NAMES, Practice
from tilespec.programme.types import Programme
from tilespec.quantity import Quantity
from tilespec.sequence.types import Sequence
from tilespec.setout.types import OffcutPlan, SetOut
from tilespec.source import Source
from tilespec.takeoff.types import TakeOff

if TYPE_CHECKING:
    from tilespec.document.drawing import Drawing


def compose(
    job: Job,
    practice: Practice,
    setout: SetOut,
    offcuts: tuple[OffcutPlan, ...],
    takeoff: TakeOff,
    sequence: Sequence,
    programme: Programme,
    diagnostics: tuple[Diagnostic, ...],
    sources: Seq[Source],
    *,
    git: str = "",
) -> Document:
    """The document of a sound job.

    sources   every text that was read, the spec first
    git       revision of the spec in version control, where there is one
    Raises Untraced when a quantity points into a text that is not among `sources`: a bug in tilespec.
    """
    view = View(job, practice, setout, offcuts, takeoff, sequence, programme, diagnostics, tuple(sources))
    gallery = _Gallery(view)
    plans, sheets = gallery.rooms()
    charts = gallery.charts()
    first, second, materials_part, tools_part = title(view, plans, git), scope(view), materials(view), tools(view)
    hazards_part, inspection_part, steps = hazards(view), inspection(view), sequence_part(view)
    drawn, days, ticks, last = set_out(view, sheets), programme_part(view, charts), checklist(view), hand_over(view)
    pictures = tuple(gallery.pictures)
    # Marks are given in the order of the paper.
    traces = trace(
        (first, second, materials_part, tools_part, hazards_part, inspection_part, steps, drawn, days, ticks, last, pictures),
        view.sources,
        job.rooms[0].name if len(job.rooms) == 1 else "",
    )
    return Document(
        job.family,
        job.paper,
        "en",
        first,
        second,
        materials_part,
        tools_part,
        hazards_part,
        inspection_part,
        steps,
        drawn,
        days,
        ticks,
        last,
        SourcesPart(job.family, NAMES[job.family], traces.files),
        pictures,
        traces,
    )


class _Gallery:
    """The drawings of a document, each under a name that is safe in a link."""

    def __init__(self, view: View) -> None:
        self.view = view
        self.pictures: list[Picture] = []

    def _hang(self, kind: str, name: str, words: str, svg: str, values: tuple[Quantity, ...] = ()) -> Ref:
        slug = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:40]
        unique = f"{kind}-{len(self.pictures) + 1}" + (f"-{slug}" if slug else "")
        self.pictures.append(Picture(unique, Said(words), svg, values))
        return Ref(unique, "drawing")

    def rooms(self) -> tuple[tuple[KeyPlan, ...], dict[str, Hung]]:
        """The key plan of each room, and the drawing of each surface by its id."""
        from tilespec.document.drawing import added_faces, elevation, key_plan, plan, unfolded

        job = self.view.job
        plans: list[KeyPlan] = []
        sheets: dict[str, Hung] = {}
        for room in job.rooms:
            small = key_plan(room)
            whole = plan(room, job, self.view.setout)
            name = self._hang("plan", room.name, whole.alt, whole.svg, whole.shown)
            sheets[room.name] = self._with(Hung(name, Said(whole.title), Ref(whole.scale, "code"), whole.shown), "unfolded",
                                           room.name, unfolded(room, job, self.view.setout))
            plans.append(KeyPlan(Said(room.name), self._hang("key-plan", room.name, small.alt, small.svg, small.shown)))
            for s in room.surfaces:
                if s.coverings:
                    d = elevation(s, room, job, self.view.setout)
                    name = self._hang(s.kind, s.id, d.alt, d.svg, d.shown)
                    hung = Hung(name, Said(d.title), Ref(d.scale, "code"), d.shown)
                    sheets[s.id] = self._with(hung, "faces", s.id, added_faces(s, room, job, self.view.setout))
        return tuple(plans), sheets

    def _with(self, hung: Hung, kind: str, name: str, more: Drawing | None) -> Hung:
        """A second drawing beside the first."""
        if more is None:
            return hung
        ref = self._hang(kind, name, more.alt, more.svg, more.shown)
        return replace(hung, more=(*hung.more, (ref, Said(more.title))), shown=hung.shown + more.shown)

    def charts(self) -> tuple[Ref, ...]:
        from tilespec.document.chart import bar_charts

        drawn = bar_charts(self.view.sequence, self.view.programme)
        words = "The programme as a bar chart; the day table says the same in words"
        return tuple(self._hang("programme", "", words, svg) for svg in drawn)
