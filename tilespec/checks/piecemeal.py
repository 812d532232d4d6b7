"""The rules room by room, while a spec is being written: only a room that has changed is looked at again.

A rule looks at one room, or says that it looks at the whole (`Rule.whole`). A room is shown to the first kind in a job that holds
nothing else but what they may look at; what was found in it stands as long as the room and that are the same.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, fields, replace

from tilespec.checks import RULES
from tilespec.checks.rule import Context, Finding, Rule
from tilespec.job.types import Job, Room
from tilespec.practice.lookup import Practice

Found = tuple[tuple[Rule, Finding], ...]

# How many rooms are kept that are not in the job at the moment.
_PAST = 100

BY_ROOM = tuple(r for r in RULES if r.needs == "job" and not r.whole)
WHOLE = tuple(r for r in RULES if r.needs == "job" and r.whole)


@dataclass(frozen=True, slots=True)
class _Around:
    """What a rule may look at besides the room: by what it says, and the very records and deliveries."""

    said: tuple[Hashable, ...]
    held: tuple[object, ...]


class Piecemeal:
    """Finds what the rules that need only the job find; keeps it by room.

    looked  how many rooms were looked at in earnest so far
    """

    def __init__(self) -> None:
        self.looked = 0
        self._around: list[_Around] = []
        self._now: dict[tuple[int, int], tuple[Room, Found]] = {}

    def find(self, job: Job, practice: Practice, most: int | None = None) -> Found:
        """All findings, in the order of the rules. With `most`, no more rooms than that are looked at in earnest: what everybody
        uses may have changed, and then the rest waits for a pause (see `unseen`)."""
        around = self._around_of(job, practice)
        for room in self._lacking(job, around)[:most]:
            self._now[id(room), id(around)] = room, look(job, room, practice)
            self.looked += 1
        found = self._held(job, around)
        whole = Context(job, practice)
        found += [(rule, f) for rule in WHOLE for f in rule.find(whole)]
        # Half-typed words come and go, and with them rooms: the last few are kept.
        living = {(id(room), id(around)) for room in job.rooms}
        for key in [k for k in self._now if k not in living][: -_PAST or None]:
            del self._now[key]
        return _in_order(found)

    def held(self, job: Job, practice: Practice) -> Found:
        """What stands from before of an unsound job: the findings in rooms that have not changed."""
        return _in_order(self._held(job, self._around_of(job, practice)))

    def unseen(self, job: Job, practice: Practice) -> tuple[Room, ...]:
        """The rooms that are not looked at yet."""
        return tuple(self._lacking(job, self._around_of(job, practice)))

    def take(self, job: Job, practice: Practice, seen: tuple[tuple[Room, Found], ...]) -> None:
        """Take up what was found in rooms of this job elsewhere."""
        around = self._around_of(job, practice)
        for room, found in seen:
            self._now[id(room), id(around)] = room, found

    def _lacking(self, job: Job, around: _Around) -> list[Room]:
        return [room for room in job.rooms if (id(room), id(around)) not in self._now]

    def _held(self, job: Job, around: _Around) -> list[tuple[Rule, Finding]]:
        kept = (self._now.get((id(room), id(around))) for room in job.rooms)
        return [pair for one in kept if one is not None for pair in one[1]]

    def _around_of(self, job: Job, practice: Practice) -> _Around:
        return self._same(_around(job, practice, len(job.rooms) > 1))

    def _same(self, around: _Around) -> _Around:
        for other in self._around:
            if other.said == around.said and len(other.held) == len(around.held):
                if all(a is b for a, b in zip(other.held, around.held)):
                    return other
        self._around = [around, *self._around[:3]]
        return around


def look(job: Job, room: Room, practice: Practice) -> Found:
    """What the rules find in one room of a job."""
    alone = Context(_alone(job, room), practice, one_of_several=len(job.rooms) > 1)
    return tuple((rule, f) for rule in BY_ROOM for f in rule.find(alone))


_ORDER = {rule.code: n for n, rule in enumerate(RULES)}


def _in_order(found: list[tuple[Rule, Finding]]) -> Found:
    return tuple(sorted(found, key=lambda pair: _ORDER[pair[0].code]))


def _around(job: Job, practice: Practice, several: bool) -> _Around:
    # Hours have their place beside what they say.
    said = (practice, several, job.hours.span, *(getattr(job, name) for name in _SAID))
    return _Around(said, (*job.records, None, *job.deliveries))


def _alone(job: Job, room: Room) -> Job:
    return replace(
        job, rooms=(room,), title=None, reference=None, revision=None, date=None, site=None, client=None, firm=None, author=None,
        steps=(), deviations=(), firm_limits=(), questions=(), notes=(), declared=(),
    )


# What is left of a job where a room is looked at alone.
_HIDDEN = (
    "title", "reference", "revision", "date", "site", "client", "firm", "author", "steps", "deviations", "firm_limits",
    "questions", "notes", "declared",
)
_SAID = tuple(f.name for f in fields(Job) if f.name not in (*_HIDDEN, "rooms", "records", "deliveries"))
