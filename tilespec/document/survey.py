"""The survey sheet: one for the van, blank, and one for a spec, with nothing on it but what the spec leaves open.

It follows from the job alone, so that it can be printed before anything is set out.
"""

from __future__ import annotations

from collections.abc import Sequence as Seq
from dataclasses import dataclass

from tilespec import __version__
from tilespec.document.html import Asset, Page, style, to_html
from tilespec.document.markdown import Behind, tidy
from tilespec.document.model import Picture, ProductCard, QuestionRow
from tilespec.document.parts.scope import question_row
from tilespec.document.parts.title import fingerprint
from tilespec.document.parts.view import product_card, said
from tilespec.document.templates import Templates
from tilespec.document.text import Ref, Said, date_ref
from tilespec.document.trace import Traces, trace
from tilespec.job.missing import moisture_limit
from tilespec.job.types import Job
from tilespec.practice.lookup import NAMES, Practice
from tilespec.quantity import Quantity
from tilespec.source import Source

# In the order in which they are asked: first who is on site anyway.
WHO = ("survey", "client", "designer", "data sheet")
# Bases whose moisture a limit is known for, as on the blank sheet.
_DAMP = ("cement-screed", "calcium-sulfate-screed")
_ROWS = {"walls": "A B C D E F", "openings": "a b c", "pieces": "a b c d e f"}


@dataclass(frozen=True, slots=True)
class Units:
    """How the answers are written. `one_in`: the head of a slope."""

    family: str
    small: Ref
    room: Ref
    degrees: Ref
    mass: Ref
    one_in: Ref


@dataclass(frozen=True, slots=True)
class Group:
    """What one person is asked."""

    ask: str
    questions: tuple[QuestionRow, ...]


@dataclass(frozen=True, slots=True)
class Limits:
    """What is measured on site, against what. Flatness: the largest gap, and the straightedge that lies over it."""

    moisture: tuple[Moisture, ...]
    flat_floor: tuple[Quantity, Quantity]
    flat_wall: tuple[Quantity, Quantity]
    residual_current: Quantity


@dataclass(frozen=True, slots=True)
class Moisture:
    """The most that a base may hold, and when it is heated, where that is another limit."""

    base: str
    limit: Quantity
    heated: Quantity | None


@dataclass(frozen=True, slots=True)
class Sheet:
    """A survey sheet. Without a spec (`blank`) it holds limits and no questions."""

    title: Said | None
    reference: Said | None
    revision: Said | None
    date: Ref | None
    site: Said | None
    client: Said | None
    firm: Said | None
    family_name: str
    paper: str
    fingerprint: Ref | None
    version: Ref
    units: Units
    groups: tuple[Group, ...]
    generic: tuple[ProductCard, ...]
    limits: Limits | None
    pictures: tuple[Picture, ...]
    traces: Traces

    @property
    def blank(self) -> bool:
        return self.limits is not None


def open_questions(job: Job, sources: Seq[Source]) -> Sheet:
    """The sheet of a job: its questions by who would know, each once. `sources`: every text that was read, the spec first."""
    rows = tuple(question_row(q, Said(q.about), None) for q in job.questions)
    groups = tuple(Group(ask, those) for ask in WHO if (those := tuple(r for r in rows if r.ask == ask)))
    # Of their cards kind and class are printed, no value.
    generic = tuple(product_card(p) for p in job.products if p.generic)
    return Sheet(
        said(job.title),
        said(job.reference),
        said(job.revision),
        date_ref(job.date) if job.date else None,
        said(job.site),
        said(job.client),
        said(job.firm),
        NAMES[job.family],
        job.paper,
        fingerprint(sources),
        Ref(__version__, "version"),
        units(job.family),
        groups,
        generic,
        None,
        (),
        trace(groups, tuple(sources), job.rooms[0].name if len(job.rooms) == 1 else ""),
    )


def blank(practice: Practice) -> Sheet:
    """The sheet for the van, in the units and with the limits of a practice family."""
    from tilespec.document.drawing.blank import blank_plan

    moisture = tuple(
        Moisture(base, most[0], most[1] if most[1] != most[0] else None)
        for base in _DAMP
        if (most := tuple(q for heated in (False, True) if (q := moisture_limit(base, heated, practice))))
    )
    gap, length = "flatness-{}", "flatness-{}-length"
    floor, wall = ((practice.limit(gap.format(k)), practice.limit(length.format(k))) for k in ("floor", "wall"))
    limits = Limits(moisture, floor, wall, practice.limit("rcd-max"))
    drawn = blank_plan()
    return Sheet(
        None, None, None, None, None, None, None,
        NAMES[practice.family],
        "Letter" if practice.family == "US" else "A4",
        None,
        Ref(__version__, "version"),
        units(practice.family),
        (),
        (),
        limits,
        (Picture("blank-plan", Said(drawn.alt), drawn.svg, ()),),
        trace(limits, ()),
    )  # fmt: skip


def units(family: str) -> Units:
    small, room, degrees, mass = ("in", "ft", "F", "lb/ft2") if family == "US" else ("mm", "m", "C", "kg/m2")
    return Units(family, *(Ref(text, "unit") for text in (small, room, degrees, mass, "1:")))


# ---------------------------------------------------------------- to paper


def markdown(sheet: Sheet, templates: Templates) -> str:
    """Raises whatever `Templates.render` raises."""
    name = "survey/blank.md.j2" if sheet.blank else "survey/open.md.j2"
    letters = {key: tuple(Ref(x, "letter") for x in row.split()) for key, row in _ROWS.items()}
    family = sheet.units.family
    text, used = templates.render(name, sheet.traces, family, sheet=sheet, rows=letters)
    behind = Behind.of(sheet.traces, sheet.traces.reached(used), False)
    more, _ = templates.render("survey/behind.md.j2", sheet.traces, family, behind=behind)
    return tidy(text + "\n" + more)


def page(sheet: Sheet, templates: Templates, *, paper: str | None = None, created: str = "") -> Page:
    size = paper or sheet.paper
    words = [w.text for w in (sheet.reference, sheet.title) if w]
    # A box stays on the line of what it stands for.
    body = to_html(markdown(sheet, templates)).replace("☐</b> ", "☐</b>\N{NO-BREAK SPACE}")
    return Page(
        f'<div class="survey">\n{body}</div>\n',
        style(templates, size),
        " ".join(("Survey sheet", *words)),
        sheet.firm.text if sheet.firm else "",
        created or (sheet.date.text.split()[-1] if sheet.date else ""),
        "en",
        size,
        tuple(Asset(f"drawing/{p.name}.svg", p.svg.encode("utf-8"), "image/svg+xml") for p in sheet.pictures),
    )
