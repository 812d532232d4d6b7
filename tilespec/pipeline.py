"""The one place that chains the stages: from a spec's path to everything that follows from it.

    text -> trees -> job -> take-off -> sequence -> programme -> document -> Markdown, HTML, PDF, JSON

Stages are imported where they are used, so that a check loads nothing that only a print needs.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from operator import is_
from typing import TYPE_CHECKING

from tilespec.diagnostics.model import Diagnostic, Severity
from tilespec.source import Source

if TYPE_CHECKING:
    from tilespec.checks.piecemeal import Found
    from tilespec.checks.rule import Finding, Rule
    from tilespec.compare.types import Comparison
    from tilespec.diagnostics.text import Palette
    from tilespec.document.model import Excerpt
    from tilespec.document.parts.view import View
    from tilespec.document.pdf import Press
    from tilespec.document.templates import FirmFolder
    from tilespec.job.types import Job, Room
    from tilespec.practice.lookup import Practice
    from tilespec.programme.types import Programme
    from tilespec.sequence.types import Sequence as Steps
    from tilespec.setout.types import OffcutPlan, SetOut
    from tilespec.takeoff.types import TakeOff
    from tilespec.workspace.host import Host
    from tilespec.workspace.load import Parse, Workspace

# How many rooms the rules look at in one keystroke; where more have changed, the rest waits for a pause.
AT_ONCE = 2

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
    missing      files that `use` asks for and that are not there
    """

    path: str
    sources: Mapping[str, Source]
    diagnostics: tuple[Diagnostic, ...]
    plan: Plan | None
    missing: tuple[str, ...] = ()

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


def set_out(compiled: Compiled, form: str, columns: int | None = None) -> str:
    """The set-out of a sound spec as tables of text ("text", for a terminal of so many columns) or with every piece ("json").

    ValueError for a spec with errors.
    """
    p = _sound(compiled)
    if form == "json":
        from tilespec.document import setout_json

        return setout_json.render(p.job, p.setout, p.offcuts)
    from tilespec.document import setout_table

    return setout_table.render(p.job, p.setout, p.offcuts, columns)


def take_off(
    compiled: Compiled, form: str, columns: int | None = None, palette: Palette | None = None, firm: FirmFolder | None = None
) -> str:
    """What a sound spec takes: as "text" for a terminal (of so many columns, in these colours, in the firm's wording), "json" or
    "csv".

    The numbers are those of the print. ValueError for a spec with errors. Raises what a faulty wording raises.
    """
    from tilespec.document import json_form
    from tilespec.document.excerpt import take_off

    excerpt = take_off(_view(compiled))
    match form:
        case "json":
            return json_form.excerpt(excerpt, "take-off")
        case "csv":
            from tilespec.document import csv_form

            return csv_form.render(excerpt)
        case "text":
            return _terminal(excerpt, "take-off", columns, palette, firm)
    raise ValueError(f"no form of a take-off is called {form}")


def programme(
    compiled: Compiled, form: str, columns: int | None = None, palette: Palette | None = None, firm: FirmFolder | None = None
) -> str:
    """The days of a sound spec: as "text" for a terminal, or "json"; see `take_off`."""
    from tilespec.document import json_form
    from tilespec.document.excerpt import days

    excerpt = days(_view(compiled))
    match form:
        case "json":
            return json_form.excerpt(excerpt, "programme")
        case "text":
            return _terminal(excerpt, "programme", columns, palette, firm)
    raise ValueError(f"no form of a programme is called {form}")


def _terminal(excerpt: Excerpt, name: str, columns: int | None, palette: Palette | None, firm: FirmFolder | None) -> str:
    from tilespec.diagnostics.text import PLAIN
    from tilespec.document import terminal
    from tilespec.document.templates import Templates

    parts = dict(excerpt.parts)
    text, _ = Templates(firm).render(f"terminal/{name}.md.j2", excerpt.traces, excerpt.family, document=excerpt, parts=parts)
    return terminal.render(text, columns, palette or PLAIN)


def _view(compiled: Compiled) -> View:
    from tilespec.document.parts.view import View

    p = _sound(compiled)
    stages = p.job, p.practice, p.setout, p.offcuts, p.takeoff, p.sequence, p.programme
    return View(*stages, compiled.diagnostics, tuple(compiled.sources.values()))


def _sound(compiled: Compiled) -> Plan:
    if compiled.plan is None or compiled.failed:
        raise ValueError(f"{compiled.path} has errors")
    return compiled.plan


def drawings(compiled: Compiled) -> tuple[tuple[str, str], ...]:
    """The drawings of a sound spec: a name that is safe for a file, and the SVG. ValueError for a spec with errors."""
    p = compiled.plan
    if p is None or compiled.failed:
        raise ValueError(f"{compiled.path} has errors")
    from tilespec.document.drawing import standing_alone
    from tilespec.document.gallery import gallery

    return tuple((name, standing_alone(d.svg)) for name, d in gallery(p.job, p.setout))


COMPARED = ("text", "md", "json")  # forms of a comparison


def compare(old: Compiled, new: Compiled, old_name: str = "", new_name: str = "") -> Comparison:
    """What changed from one spec to another, as the job. The names are how the two are called; else by their paths."""
    from tilespec.compare import Renamed, Side, Stages, renamed, under
    from tilespec.compare import compare as hold
    from tilespec.document.step_title import step_titles

    def side(c: Compiled, name: str, p: Plan | None) -> Side:
        stages = Stages(p.job, p.setout, p.takeoff, p.sequence, p.programme) if p is not None else None
        return Side(name or c.path, stages, c.diagnostics)

    before, after = (None if c.failed else c.plan for c in (old, new))
    names = renamed(before.job, after.job) if before is not None and after is not None else Renamed()
    if names and before is not None:
        before = Plan(under(before.job, names), before.practice)
    return hold(side(old, old_name, before), side(new, new_name, after), names, step_titles())


def told(comparison: Comparison, form: str, columns: int | None = None, palette: Palette | None = None) -> str:
    """A comparison as text for a terminal (of so many columns, in these colours), "md" or "json"."""
    from tilespec.diagnostics.text import PLAIN
    from tilespec.document import comparison as people
    from tilespec.document import comparison_json

    match form:
        case "text":
            return people.text(comparison, columns, palette or PLAIN)
        case "md":
            return people.markdown(comparison)
        case "json":
            return comparison_json.render(comparison)
    raise ValueError(f"no form of a comparison is called {form}")


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
    else:
        from tilespec.sequence import misnamed

        found += misnamed(built.value)
    return Compiled(path, sources, in_order(found, sources), plan, loaded.value.missing)


@dataclass(frozen=True, slots=True)
class Look:
    """A spec at one moment of its being written, with what can be said at once.

    loaded       what there is to say of its files as they are read
    spec         that, and what there is to say of the job they make
    diagnostics  all that, and what the rules find that need only the job. Of an unsound job: only those findings that still
                 hold, in rooms that have not changed
    unseen       rooms that the rules have not looked at yet, as what everybody uses has changed
    sound        the rest may be worked out: there is something tiled and there are no errors
    """

    workspace: Workspace
    loaded: tuple[Diagnostic, ...]
    job: Job
    practice: Practice
    spec: tuple[Diagnostic, ...]
    diagnostics: tuple[Diagnostic, ...]
    unseen: tuple[Room, ...]
    sound: bool

    @property
    def sources(self) -> Mapping[str, Source]:
        return {source.name: source for source in self.workspace.sources}


@dataclass(frozen=True, slots=True)
class Rest:
    """What follows from a look at a sound spec, worked out in a pause.

    diagnostics  all that `check` says
    later        those of them that the look did not show
    seen         what was found in the rooms that it left out
    """

    look: Look
    takeoff: TakeOff
    sequence: Steps
    diagnostics: tuple[Diagnostic, ...]
    later: tuple[Diagnostic, ...]
    seen: tuple[tuple[Room, Found], ...]


def rest(look: Look, stop: Callable[[], bool]) -> Rest | None:
    """None where `stop` says between two stages that it is no longer wanted. ValueError for an unsound spec."""
    if not look.sound:
        raise ValueError("the spec has errors")
    from tilespec.checks import RULES, judge, piecemeal
    from tilespec.checks.rule import Context
    from tilespec.sequence import problems, sequence
    from tilespec.takeoff import measure

    seen: list[tuple[Room, Found]] = []
    for room in look.unseen:
        seen.append((room, piecemeal.look(look.job, room, look.practice)))
        if stop():
            return None
    takeoff = measure(look.job, look.practice)
    if stop():
        return None
    steps = sequence(look.job, look.practice, takeoff)
    context = Context(look.job, look.practice, takeoff, steps)
    findings: list[tuple[Rule, Finding]] = []
    for rule in RULES:
        if stop():
            return None
        findings += [(rule, f) for f in rule.find(context)]
    found = [*look.spec, *problems(steps), *judge(context, tuple(findings)).diagnostics]
    listed = in_order(found, look.sources)
    return Rest(look, takeoff, steps, listed, tuple(d for d in listed if d not in look.diagnostics), tuple(seen))


class Writing:
    """A spec while it is being written: each look works out only what an edit has changed."""

    def __init__(self) -> None:
        from tilespec.checks.piecemeal import Piecemeal
        from tilespec.job.kept import Kept

        self.parts = Kept()
        self.rules = Piecemeal()
        self._last: Look | None = None

    def take(self, rest: Rest) -> None:
        """Take up what was found in a pause."""
        self.rules.take(rest.look.job, rest.look.practice, rest.seen)

    def look(self, path: str, host: Host, library: str | None, parse: Parse) -> Look:
        """Raises Unreadable where the spec itself cannot be read."""
        from tilespec.checks import judge
        from tilespec.checks.deviation import ENTRIES as OF_DEVIATIONS
        from tilespec.checks.rule import Context
        from tilespec.job import build
        from tilespec.practice.lookup import FirmValue, practice
        from tilespec.workspace.load import load

        loaded = load(path, host, library, parse=parse)
        last = self._last
        if last is not None and last.loaded == loaded.diagnostics and _same(last.workspace, loaded.value):
            self._last = replace(last, workspace=loaded.value)
            return self._last
        self.parts.turn()
        built = build(loaded.value, self.parts)
        job = built.value
        spec = (*loaded.diagnostics, *built.diagnostics)
        found = list(spec)
        sound = job.tiled != () and not any(d.severity is Severity.ERROR for d in found)
        limits = practice(job.family, tuple(FirmValue(own.key, own.value) for own in job.firm_limits))
        if job.tiled:
            rules = self.rules.find(job, limits, AT_ONCE) if sound else self.rules.held(job, limits)
            standing = judge(Context(job, limits), rules).diagnostics
            # Whether a deviation from a rule can stand is said of a sound job only, as `check` says it.
            found += standing if sound else [d for d in standing if d.code not in [e.code for e in OF_DEVIATIONS]]
        if not sound:
            from tilespec.sequence import misnamed

            found += misnamed(job)
        sources = {source.name: source for source in loaded.value.sources}
        unseen = self.rules.unseen(job, limits) if sound else ()
        self._last = Look(loaded.value, loaded.diagnostics, job, limits, spec, in_order(found, sources), unseen, sound)
        return self._last


def _same(old: Workspace, new: Workspace) -> bool:
    """Only comments and blanks differ: the very same statements stand in the same files."""
    if len(old.trees) != len(new.trees):
        return False
    return all(
        a.file == b.file and len(a.statements) == len(b.statements) and all(map(is_, a.statements, b.statements))
        for a, b in zip(old.trees, new.trees)
    )


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
