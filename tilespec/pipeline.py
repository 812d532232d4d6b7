"""The one place that chains the stages: from a spec's path to everything that follows from it.

    text -> trees -> job -> take-off -> sequence -> programme -> document -> Markdown, HTML, PDF, JSON

Stages are imported where they are used, so that a check loads nothing that only a print needs.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from tilespec.diagnostics.model import Diagnostic, Severity
from tilespec.source import Source

if TYPE_CHECKING:
    from tilespec.document.pdf import Press
    from tilespec.document.templates import FirmFolder
    from tilespec.job.types import Job
    from tilespec.practice.lookup import Practice
    from tilespec.programme.types import Programme
    from tilespec.sequence.types import Sequence as Steps
    from tilespec.setout.types import OffcutPlan, SetOut
    from tilespec.takeoff.types import TakeOff
    from tilespec.workspace.host import Host

FORMS = ("pdf", "html", "md", "json")
SHEETS = ("pdf", "html", "md")  # forms of a survey sheet


@dataclass(frozen=True)
class Plan:
    """A sound job with what follows from it. The later stages run when they are asked for, once."""

    job: Job
    practice: Practice

    @cached_property
    def takeoff(self) -> TakeOff:
        from tilespec.takeoff import measure

        return measure(self.job, self.practice, self.setout, self.offcuts)

    @cached_property
    def sequence(self) -> Steps:
        from tilespec.sequence import sequence

        return sequence(self.job, self.practice, self.takeoff)

    @cached_property
    def setout(self) -> SetOut:
        from tilespec.setout import lay

        return lay(self.job, self.practice)

    @cached_property
    def offcuts(self) -> tuple[OffcutPlan, ...]:
        from tilespec.setout.offcuts import plan

        return plan(self.setout, self.practice)

    @cached_property
    def programme(self) -> Programme:
        from tilespec.programme import schedule

        return schedule(self.job, self.practice, self.sequence)


@dataclass(frozen=True)
class Compiled:
    """One spec, compiled. `plan` is None where the spec has errors.

    sources      every file read, by the name it is shown by; the spec first
    diagnostics  in the order of the files and of the places in them
    """

    path: str
    sources: Mapping[str, Source]
    diagnostics: tuple[Diagnostic, ...]
    plan: Plan | None

    @property
    def failed(self) -> bool:
        return any(d.severity is Severity.ERROR for d in self.diagnostics)


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be printed, and how.

    form     "pdf", "html", "md" or "json"
    parts    keys of the parts, or none for the whole
    paper    instead of the spec's
    firm     the firm's own wording: the text of a template by its name, or None where the bundled one holds
    created  ISO date for the metadata, instead of the spec's
    git      revision of the spec in version control
    """

    form: str = "pdf"
    parts: tuple[str, ...] = ()
    paper: str | None = None
    firm: FirmFolder | None = None
    created: str = ""
    git: str = ""


@dataclass(frozen=True, slots=True)
class Print:
    """A finished print, with what there is to say about it (characters that the font lacks, complaints of the layout)."""

    data: bytes
    notes: tuple[str, ...] = ()


def render(compiled: Compiled, order: Order, press: Press | None = None) -> Print:
    """The print of a sound spec. ValueError for a spec with errors: it prints nothing.

    press   one that was started before, for a PDF; it prints once
    Raises UnknownPart, PrintUnavailable, PrintFailed, and what a faulty wording raises.
    """
    from tilespec.document import PARTS, compose
    from tilespec.document.templates import Templates

    p = compiled.plan
    if p is None or compiled.failed:
        raise ValueError(f"{compiled.path} has errors")
    if order.form == "pdf":
        from tilespec.document.pdf import Press

        # Its libraries load while the document is made.
        with press or Press() as ready:
            return _to_pdf(compiled, p, order, ready)
    sources = tuple(compiled.sources.values())
    stages = p.job, p.practice, p.setout, p.offcuts, p.takeoff, p.sequence, p.programme
    document = compose(*stages, compiled.diagnostics, sources, git=order.git)
    templates, parts = Templates(order.firm), order.parts or PARTS
    match order.form:
        case "md":
            from tilespec.document import markdown

            return Print(markdown.render(document, templates, parts).encode("utf-8"))
        case "json":
            from tilespec.document import json_form

            return Print(json_form.render(document).encode("utf-8"))
        case "html":
            from tilespec.document import html

            return Print(html.render(document, templates, parts, paper=order.paper, created=order.created).encode("utf-8"))
    raise ValueError(f"no form is called {order.form}")


def survey(compiled: Compiled | None, order: Order, family: str = "EN", press: Press | None = None) -> Print:
    """A survey sheet: of a sound spec, with what it leaves open; or, without one, blank, as the practice family measures.

    ValueError for a spec with errors. Nothing is set out for it. Raises what `render` raises.
    """
    from tilespec.document import survey as sheets
    from tilespec.document.templates import Templates
    from tilespec.practice.lookup import practice

    sources: tuple[Source, ...] = ()
    if compiled is None:
        sheet = sheets.blank(practice(family))
    elif (p := compiled.plan) is None or compiled.failed:
        raise ValueError(f"{compiled.path} has errors")
    else:
        sources = tuple(compiled.sources.values())
        sheet = sheets.open_questions(p.job, sources)
    templates = Templates(order.firm)
    if order.form == "md":
        return Print(sheets.markdown(sheet, templates).encode("utf-8"))
    page = sheets.page(sheet, templates, paper=order.paper, created=order.created)
    if order.form == "html":
        return Print(page.standalone().encode("utf-8"))
    if order.form != "pdf":
        raise ValueError(f"no form of a survey sheet is called {order.form}")
    from tilespec.document import pdf

    printed = press.print(page) if press else pdf.write(page)
    return Print(printed.data, printed.notes + pdf.where_missing(printed.missing, sources))


def set_out(compiled: Compiled, form: str) -> str:
    """The set-out of a sound spec as tables of text ("text") or with every piece ("json"). ValueError for a spec with errors."""
    p = compiled.plan
    if p is None or compiled.failed:
        raise ValueError(f"{compiled.path} has errors")
    if form == "json":
        from tilespec.document import setout_json

        return setout_json.render(p.job, p.setout, p.offcuts)
    from tilespec.document import setout_table

    return setout_table.render(p.job, p.setout, p.offcuts)


def drawings(compiled: Compiled) -> tuple[tuple[str, str], ...]:
    """The drawings of a sound spec: a name that is safe for a file, and the SVG. ValueError for a spec with errors."""
    p = compiled.plan
    if p is None or compiled.failed:
        raise ValueError(f"{compiled.path} has errors")
    from tilespec.document.gallery import gallery

    return tuple((name, d.svg) for name, d in gallery(p.job, p.setout))


def _to_pdf(compiled: Compiled, p: Plan, order: Order, press: Press) -> Print:
    from tilespec.document import PARTS, compose, html, pdf
    from tilespec.document.templates import Templates

    sources = tuple(compiled.sources.values())
    stages = p.job, p.practice, p.setout, p.offcuts, p.takeoff, p.sequence, p.programme
    document = compose(*stages, compiled.diagnostics, sources, git=order.git)
    page = html.page(document, Templates(order.firm), order.parts or PARTS, paper=order.paper, created=order.created)
    printed = press.print(page)
    return Print(printed.data, printed.notes + pdf.where_missing(printed.missing, sources))


def compile(path: str, host: Host, library: str | None = None) -> Compiled:
    """Read a spec, with what it uses, and work out all that follows up to the sequence; the rest is worked out when asked for.

    library  a folder of stock files that `use` may read besides the spec's own folder
    Raises Unreadable where the spec itself cannot be read. A mistake in the spec never raises.
    """
    from tilespec.job import build
    from tilespec.workspace.load import load

    loaded = load(path, host, library)
    sources = {source.name: source for source in loaded.value.sources}
    built = build(loaded.value)
    found = [*loaded.diagnostics, *built.diagnostics]
    plan: Plan | None = None
    # A stock file by itself is sound, but nothing follows from it.
    if built.value.tiled and not any(d.severity is Severity.ERROR for d in found):
        from tilespec.checks import check
        from tilespec.practice.lookup import FirmValue, practice
        from tilespec.sequence import problems, sequence
        from tilespec.takeoff import measure

        job = built.value
        limits = practice(job.family, tuple(FirmValue(own.key, own.value) for own in job.firm_limits))
        # By area: nothing that is checked needs the real pieces.
        takeoff = measure(job, limits)
        steps = sequence(job, limits, takeoff)
        found += [*problems(steps), *check(job, limits, takeoff, steps)]
        plan = Plan(job, limits)
    return Compiled(path, sources, in_order(found, sources), plan)


@dataclass(frozen=True, slots=True)
class Gathered:
    """What there is to say about several specs, each thing once."""

    sources: Mapping[str, Source]
    diagnostics: tuple[Diagnostic, ...]
    failed: bool


def gather(compiled: Sequence[Compiled]) -> Gathered:
    """A stock file that several specs use is reported once."""
    sources = {name: source for c in compiled for name, source in c.sources.items()}
    found = dict.fromkeys(d for c in compiled for d in c.diagnostics)
    return Gathered(sources, in_order(found, sources), any(c.failed for c in compiled))


def in_order(found: Sequence[Diagnostic] | Mapping[Diagnostic, None], sources: Mapping[str, Source]) -> tuple[Diagnostic, ...]:
    """By file, as they were read, then by place; what stands at one place in the order of the stages."""
    rank = {name: i for i, name in enumerate(sources)}
    return tuple(sorted(found, key=lambda d: (rank.get(d.primary.span.file, -1), d.primary.span.start)))
