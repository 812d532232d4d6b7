"""The job itself as things, one list for each subject."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.compare.thing import Thing, on_plan, outline, place, plain, thing
from tilespec.compare.types import Fact
from tilespec.job.types import Covering, Job, Room, Surface


def heading(job: Job) -> Thing:
    """Title, dates, crew and conditions: what is said of the job as a whole."""
    return thing("", job)


def rooms(job: Job) -> tuple[Thing, ...]:
    return tuple(_room(r) for r in job.rooms)


def _room(room: Room) -> Thing:
    described = {s.letter for s in room.surfaces}
    # The length of a wall that is described is its width.
    lengths = [Fact(f"length of side {w.letter}", w.length) for w in room.walls if w.letter not in described]
    own = on_plan(thing(room.name, room, facts=lengths))
    return Thing(own.label, own.facts, (*own.things, *(_surface(s) for s in room.surfaces)))


def _surface(surface: Surface) -> Thing:
    shape = outline(surface.outline)
    found = thing(place(surface), surface, facts=[Fact("corners", shape)] if shape else [])
    return on_plan(found) if surface.kind == "floor" else found


def bases(job: Job) -> tuple[Thing, ...]:
    return tuple(Thing(r.name, things=tuple(_base(s) for s in r.surfaces)) for r in job.rooms)


def _base(surface: Surface) -> Thing:
    base = surface.base
    words = [Fact("as written", base.words.text)] if base.kind == "not-stated" and base.words else []
    return thing(place(surface), base, facts=words)


def tiling(job: Job) -> tuple[Thing, ...]:
    return tuple(Thing(r.name, things=tuple(_tiling(s) for s in r.surfaces if s.coverings or s.products)) for r in job.rooms)


def _tiling(surface: Surface) -> Thing:
    products = tuple(Fact(plain(p.kind), p.name) for p in surface.products)
    return Thing(place(surface), products, tuple(_covering(c) for c in surface.coverings))


def _covering(c: Covering) -> Thing:
    return thing(c.role, c)


def tiles(job: Job) -> tuple[Thing, ...]:
    return tuple(thing(t.name, t) for t in job.tiles)


def products(job: Job) -> tuple[Thing, ...]:
    return tuple(thing(f"{plain(p.kind)} {p.name}", p) for p in job.products)


def deviations(job: Job) -> tuple[Thing, ...]:
    return tuple(thing(f"{d.rule} on {d.place.replace('/', ', ')}", d) for d in job.deviations)


def records(job: Job) -> tuple[Thing, ...]:
    return tuple(thing(f"{plain(r.kind.text)} on {r.place.replace('/', ', ')}, {r.on.isoformat()}", r) for r in job.records)


def questions(job: Job) -> tuple[Thing, ...]:
    return tuple(_questions(job))


def _questions(job: Job) -> Iterator[Thing]:
    for q in job.questions:
        # The text is the question: it is what people call it by.
        facts = [Fact("answer from", q.ask)]
        facts += [Fact("assumed", q.value)] if q.value is not None else []
        facts += [Fact("each of", ", ".join(q.each))] if q.each else []
        yield Thing(q.text, tuple(facts))
