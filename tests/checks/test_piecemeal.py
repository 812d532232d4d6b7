"""The rules room by room find what the rules over the whole job find, and look again only at what has changed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tilespec.checks import RULES
from tilespec.checks.piecemeal import Piecemeal
from tilespec.checks.rule import Context, Rule
from tilespec.job import build
from tilespec.job.types import Job, Room, Surface
from tilespec.practice.lookup import FirmValue, Practice, practice
from tilespec.workspace.host import MemoryHost
from tilespec.workspace.load import load

BY_JOB = [r for r in RULES if r.needs == "job"]


def job_of(text: str) -> Job:
    return build(load("/job.tilespec", MemoryHost({"/job.tilespec": text})).value).value


def practice_of(job: Job) -> Practice:
    return practice(job.family, tuple(FirmValue(own.key, own.value) for own in job.firm_limits))


def renamed(room: Room, name: str) -> Room:
    def moved(s: Surface) -> Surface:
        return replace(s, id=s.id.replace(s.room, name, 1), room=name)

    floor = moved(room.floor) if room.floor else None
    return replace(room, name=name, floor=floor, wall_surfaces=tuple(moved(s) for s in room.wall_surfaces))


@pytest.mark.parametrize("rule", BY_JOB, ids=lambda r: r.name)
def test_a_rule_finds_the_same_room_by_room(rule: Rule) -> None:
    """In a job of a room with the fault, the nearest one without, and the first once more."""
    faulty, sound = job_of(rule.bad), job_of(rule.good)
    others = tuple(renamed(room, f"Other {n}") for n, room in enumerate((*sound.rooms, faulty.rooms[0])))
    job = replace(faulty, rooms=(*faulty.rooms, *others))
    limits = practice_of(job)
    whole = list(rule.find(Context(job, limits)))
    assert whole
    found = [f for r, f in Piecemeal().find(job, limits) if r is rule]
    assert found == whole, "a rule that looks at more than one room says so: `whole=True`"


def test_only_a_room_that_changed_is_looked_at_again() -> None:
    job = job_of(next(r.bad for r in RULES if r.name == "low-window-cut"))
    job = replace(job, rooms=(job.rooms[0], renamed(job.rooms[0], "Other"), renamed(job.rooms[0], "Third")))
    piecemeal, limits = Piecemeal(), practice_of(job)
    first = piecemeal.find(job, limits)
    assert piecemeal.looked == 3
    assert piecemeal.find(replace(job, title=None), limits) == first
    assert piecemeal.looked == 3
    piecemeal.find(replace(job, rooms=(*job.rooms[:2], renamed(job.rooms[0], "Fourth"))), limits)
    assert piecemeal.looked == 4
    piecemeal.find(replace(job, measured_to="tile face"), limits)
    assert piecemeal.looked == 7, "what the rules may look at besides the room has changed"


def test_of_an_unsound_job_stands_what_was_found_in_rooms_that_are_the_same() -> None:
    job = job_of(next(r.bad for r in RULES if r.name == "low-window-cut"))
    job = replace(job, rooms=(job.rooms[0], renamed(job.rooms[0], "Other")))
    piecemeal, limits = Piecemeal(), practice_of(job)
    found = piecemeal.find(job, limits)
    changed = replace(job, rooms=(job.rooms[0], renamed(job.rooms[0], "Third")))
    assert piecemeal.held(changed, limits) == tuple((r, f) for r, f in found if not f.places[0].startswith("Other"))
    assert piecemeal.looked == 2
