"""All set-out drawings of a job, each under a name that is safe for a file."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tilespec.document.drawing import Drawing, added_faces, elevation, plan, unfolded
from tilespec.job.types import Job
from tilespec.setout.types import SetOut


def gallery(job: Job, setout: SetOut) -> Iterator[tuple[str, Drawing]]:
    """In the order of the print: of each room its plan, the room unfolded, its surfaces, each followed by its added faces."""
    number = 0
    for room in job.rooms:
        drawn = [(room.name, "plan", plan(room, job, setout)), (room.name, "unfolded", unfolded(room, job, setout))]
        for s in room.surfaces:
            if s.coverings:
                name = s.title.partition(",")[0]
                drawn.append((room.name, name, elevation(s, room, job, setout)))
                if (faces := added_faces(s, room, job, setout)) is not None:
                    drawn.append((room.name, f"{name} faces", faces))
        for name, what, drawing in drawn:
            number += 1
            yield f"{number:02d}-{_slug(name)}-{_slug(what)}", drawing


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:40] or "room"
