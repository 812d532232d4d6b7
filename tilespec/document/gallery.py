"""All set-out drawings of a job, each under a name that is safe for a file."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tilespec.document.drawing import Drawing, elevation, plan
from tilespec.job.types import Job
from tilespec.setout.types import SetOut


def gallery(job: Job, setout: SetOut) -> Iterator[tuple[str, Drawing]]:
    """In the order of the print: of each room its plan, then its surfaces."""
    number = 0
    for room in job.rooms:
        drawn = [(room.name, "plan", plan(room, job, setout))]
        drawn += [(room.name, s.title.partition(",")[0], elevation(s, room, job, setout)) for s in room.surfaces if s.coverings]
        for name, what, drawing in drawn:
            number += 1
            yield f"{number:02d}-{_slug(name)}-{_slug(what)}", drawing


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:40] or "room"
