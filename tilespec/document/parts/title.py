"""Part 1: what the job is, what is tiled and what is not stated, and who signs."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence as Seq
from pathlib import PurePath

from tilespec import __version__
from tilespec.diagnostics.model import Severity
from tilespec.document.model import Crew, KeyPlan, NotStated, TiledRoom, TiledRow, TitlePart
from tilespec.document.parts.view import View, said
from tilespec.document.text import Ref, Said, date_ref
from tilespec.practice.lookup import NAMES
from tilespec.quantity import counted
from tilespec.source import Source

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def fingerprint(sources: Seq[Source]) -> Ref:
    """The first 16 digits of the SHA-256 of all texts that were read, the spec first, stock files by name."""
    digest = hashlib.sha256()
    first, *others = sources
    for source in (first, *sorted(others, key=lambda s: PurePath(s.name).name)):
        data = source.text.encode("utf-8")
        digest.update(len(data).to_bytes(8, "big"))
        digest.update(data)
    return Ref(digest.hexdigest()[:16], "fingerprint")


def title(view: View, plans: tuple[KeyPlan, ...], git: str) -> TitlePart:
    job, programme = view.job, view.programme
    tiled = tuple(
        TiledRoom(
            Said(room.name),
            tuple(
                TiledRow(Said(s.title), tuple(dict.fromkeys(Said(c.tile.name) for c in s.coverings)), m.tiled_area)
                for s in room.surfaces
                if s.coverings and (m := view.measure(s.id)) is not None
            ),
        )
        for room in job.rooms
    )
    not_stated = tuple(
        NotStated(Said(room.name), tuple(Ref(letter, "letter") for letter in room.not_stated), room.floor is None)
        for room in job.rooms
        if room.not_stated or room.floor is None
    )
    holds = [op for op in view.sequence.operations if op.point is not None and op.point.kind == "hold"]
    warnings = [d for d in view.diagnostics if d.severity is not Severity.NOTE]
    return TitlePart(
        said(job.title),
        said(job.reference),
        said(job.revision),
        date_ref(job.date) if job.date else None,
        said(job.site),
        said(job.client),
        said(job.firm),
        said(job.author),
        job.family,
        NAMES[job.family],
        job.family_given,
        date_ref(job.begin) if job.begin else None,
        view.moment(programme.finish) if programme.finish else None,
        tuple(_DAYS[d] for d in job.hours.days),
        Ref(f"{job.hours.start:%H:%M}", "time"),
        Ref(f"{job.hours.end:%H:%M}", "time"),
        tuple(Crew(role, n) for role, n in job.crew),
        job.measured_to,
        job.conditions.air,
        job.conditions.humidity,
        job.conditions.surface,
        job.notice,
        tiled,
        not_stated,
        plans,
        counted(len(view.sequence.operations), "steps of the sequence"),
        counted(len(holds), "hold points of the sequence"),
        programme.working_days,
        programme.person_hours,
        counted(len(job.questions), "questions that the spec leaves open"),
        counted(len(warnings), "warnings about the spec"),
        fingerprint(view.sources),
        Ref(git, "fingerprint") if git else None,
        Ref(__version__, "version"),
    )
