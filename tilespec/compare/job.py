"""The job itself as things, one list for each subject."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from tilespec.compare.thing import Thing, outline, place, plain, thing
from tilespec.compare.types import Fact, Renamed
from tilespec.job.types import Covering, Job, Point, Room, Surface

Called = Mapping[str, str]
"""Names of rooms that are called otherwise on the new side, and how."""


def renamed(old: Job, new: Job) -> dict[str, str]:
    """Rooms that only have another name now: those with the same walls as before, where no other could be meant."""
    gone = [r for r in old.rooms if r.name not in {n.name for n in new.rooms}]
    came = [r for r in new.rooms if r.name not in {o.name for o in old.rooms}]
    before, after = Counter(_shape(r) for r in gone), Counter(_shape(r) for r in came)
    new_names = {_shape(r): r.name for r in came}
    return {r.name: new_names[_shape(r)] for r in gone if before[_shape(r)] == after[_shape(r)] == 1}


def _shape(room: Room) -> tuple[Point, ...]:
    return tuple(w.start for w in room.walls)


def called(words: str, names: Called) -> str:
    """What is said of a place or a room, with the room's name on the new side."""
    for old, new in names.items():
        words = re.sub(rf"(?<!\w){re.escape(old)}(?!\w)", lambda _, new=new: new, words)  # type: ignore[misc]
    return words


def heading(job: Job) -> Thing:
    """Title, dates, crew and conditions: what is said of the job as a whole."""
    return thing("", job)


def rooms(job: Job, names: Called) -> tuple[Thing, ...]:
    return tuple(_room(r, names) for r in job.rooms)


def _room(room: Room, names: Called) -> Thing:
    described = {s.letter for s in room.surfaces}
    # The length of a wall that is described is its width.
    lengths = [Fact(f"length of side {w.letter}", w.length) for w in room.walls if w.letter not in described]
    own = thing(names.get(room.name, room.name), room, facts=[Fact("name", room.name), *lengths], plan=True)
    return Thing(own.label, own.facts, (*own.things, *(_surface(s) for s in room.surfaces)))


def _surface(surface: Surface) -> Thing:
    shape = outline(surface.outline)
    return thing(place(surface), surface, facts=[Fact("corners", shape)] if shape else [], plan=surface.kind == "floor")


def bases(job: Job, names: Called) -> tuple[Thing, ...]:
    return tuple(Thing(names.get(r.name, r.name), things=tuple(_base(s) for s in r.surfaces)) for r in job.rooms)


def _base(surface: Surface) -> Thing:
    base = surface.base
    words = [Fact("as written", base.words.text)] if base.kind == "not-stated" and base.words else []
    return thing(place(surface), base, facts=words)


def tiling(job: Job, names: Called) -> tuple[Thing, ...]:
    return tuple(
        Thing(names.get(r.name, r.name), things=tuple(_tiling(s) for s in r.surfaces if s.coverings or s.products))
        for r in job.rooms
    )


def _tiling(surface: Surface) -> Thing:
    products = tuple(Fact(plain(p.kind), p.name) for p in surface.products)
    return Thing(place(surface), products, tuple(_covering(c) for c in surface.coverings))


def _covering(c: Covering) -> Thing:
    return thing(c.role, c)


def tiles(job: Job, stock: Renamed, before: bool = False) -> tuple[Thing, ...]:
    """`before`: the old side, which is told under the new names."""
    other = {new: old if before else new for old, new in stock.tiles.items()}
    return tuple(thing(t.name, t, facts=_own(other.get(t.name))) for t in job.tiles)


def products(job: Job, stock: Renamed, before: bool = False) -> tuple[Thing, ...]:
    other = {(kind, new): old if before else new for (kind, old), new in stock.products.items()}
    return tuple(thing(f"{plain(p.kind)} {p.name}", p, facts=_own(other.get((p.kind, p.name)))) for p in job.products)


def _own(name: str | None) -> list[Fact]:
    return [Fact("name", name)] if name is not None else []


def deviations(job: Job, names: Called) -> tuple[Thing, ...]:
    return tuple(thing(f"{d.rule} on {_place(d.place, names)}", d) for d in job.deviations)


def records(job: Job, names: Called) -> tuple[Thing, ...]:
    return tuple(thing(f"{plain(r.kind.text)} on {_place(r.place, names)}, {r.on.isoformat()}", r) for r in job.records)


def _place(id: str, names: Called) -> str:
    """A surface id or the name of a room, as people say it."""
    room, slash, rest = id.partition("/wall ") if "/wall " in id else id.partition("/floor")
    where = f"wall {rest}" if slash == "/wall " else "floor" if slash else ""
    return ", ".join(w for w in (names.get(room, room), where) if w)


def questions(job: Job, names: Called) -> tuple[Thing, ...]:
    return tuple(_questions(job, names))


def _questions(job: Job, names: Called) -> Iterator[Thing]:
    for q in job.questions:
        # The text is the question: it is what people call it by.
        facts = [Fact("answer from", q.ask)]
        facts += [Fact("assumed", q.value)] if q.value is not None else []
        facts += [Fact("each of", ", ".join(q.each))] if q.each else []
        yield Thing(called(q.text, names), tuple(facts))
