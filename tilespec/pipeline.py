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
    from tilespec.document.model import Document
    from tilespec.job.types import Job
    from tilespec.practice.lookup import Practice
    from tilespec.programme.types import Programme
    from tilespec.sequence.types import Sequence as Steps
    from tilespec.takeoff.types import TakeOff
    from tilespec.workspace.host import Host

FORMS = ("pdf", "html", "md", "json")


@dataclass(frozen=True)
class Plan:
    """A sound job with what follows from it. The later stages run when they are asked for, once."""

    job: Job
    practice: Practice
    takeoff: TakeOff
    sequence: Steps

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

    @cached_property
    def document(self) -> Document:
        """The document to print. ValueError for a spec with errors: it prints nothing."""
        from tilespec.document import compose

        if self.plan is None or self.failed:
            raise ValueError(f"{self.path} has errors")
        p = self.plan
        return compose(p.job, p.practice, p.takeoff, p.sequence, p.programme, self.diagnostics, self.sources[self.path])


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
    if built.value is not None and not any(d.severity is Severity.ERROR for d in found):
        from tilespec.checks import check
        from tilespec.practice.lookup import practice
        from tilespec.sequence import sequence
        from tilespec.takeoff import measure

        job = built.value
        limits = practice(job.family, job.firm_limits)
        takeoff = measure(job, limits)
        steps = sequence(job, limits, takeoff)
        found += check(job, limits, takeoff, steps)
        plan = Plan(job, limits, takeoff, steps)
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
