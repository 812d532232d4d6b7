"""What follows from the job, as things: set-out, materials, steps, hold points, programme."""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.compare.job import Called
from tilespec.compare.thing import Thing, place, plain, thing
from tilespec.compare.types import Fact, Stages, Titled
from tilespec.quantity import counted
from tilespec.sequence.types import Operation
from tilespec.setout.types import Layout
from tilespec.takeoff.types import Line


def set_out(s: Stages, names: Called) -> tuple[Thing, ...]:
    return tuple(
        Thing(names.get(r.name, r.name), things=tuple(
            Thing(place(f), things=tuple(_layout(x) for x in s.setout.on(f.id))) for f in r.surfaces
        ))
        for r in s.job.rooms
    )


def _layout(x: Layout) -> Thing:
    inside = x.face.removeprefix(x.surface).strip("/")
    facts = [Fact("full tiles", x.full)]
    if x.pieces:
        facts.append(Fact("cut pieces", counted(len(x.pieces), "cut pieces")))
    for direction, way in zip(("across", "up"), x.begin.words):
        facts.append(Fact(f"start {direction}", way.words))
        if way.cut is not None:
            facts.append(Fact(f"{way.lead} {direction}", way.cut))
    return Thing(", ".join(w for w in (inside, x.role) if w), tuple(facts))


def quantities(s: Stages) -> tuple[Thing, ...]:
    lines = tuple(thing(_name(line), line, facts=_order(line)) for line in s.takeoff.lines)
    return lines + tuple(
        Thing(f"not worked out: {' '.join(w for w in (plain(m.kind), m.name) if w)}", (Fact("lacks", plain(m.lacks)),))
        for m in s.takeoff.missing
    )


def _name(line: Line) -> str:
    return f"{plain(line.kind)} {line.name}" + (f" ({plain(line.role)})" if line.role else "")


def _order(line: Line) -> list[Fact]:
    """What is bought comes first."""
    return [Fact("packs to order", line.packs)] if line.packs is not None else []


def working(s: Stages, names: Called) -> tuple[Thing, ...]:
    titles = {f.id: (names.get(f.room, f.room), place(f)) for f in s.job.surfaces}
    found = [thing(f"mix of {m.product.name}", m) for m in s.takeoff.mixes]
    for n in s.takeoff.notches:
        found.append(thing(f"trowel for {n.tile}, {', '.join(titles.get(n.place, (n.place,)))}", n))
    found += [thing(f"heating in {names.get(h.room, h.room)}", h) for h in s.takeoff.heating]
    return tuple(found)


class Names:
    """Steps as the print calls them, by the id of the operation. No two share a name.

    with_room  the other side's rooms count too, so that a room more does not give every step a new name
    """

    def __init__(self, s: Stages, with_room: bool, called: Called, titled: Titled) -> None:
        self.called, self.titled = called, titled
        # An operation's places are surfaces, or whole rooms.
        self.places = {f.id: place(f) for f in s.job.surfaces} | dict(called)
        self.of: dict[str, str] = {}
        taken: set[str] = set()
        for o in s.sequence.operations:
            name = first = self._name(o, with_room)
            number = 1
            while name in taken:
                number += 1
                name = f"{first} ({number})"
            taken.add(name)
            self.of[o.id] = name

    def _name(self, o: Operation, with_room: bool) -> str:
        room = [self.called.get(o.room, o.room)] if with_room and o.room else []
        places = [self.places.get(p, p) for p in o.places]
        # A title that says where the step is done says it with the room.
        title = self.titled(o, [", ".join([*room, p]) for p in places])
        if title != self.titled(o, ()):
            return title
        # One of several of its kind has a place of its own behind the kind in its id.
        return ", ".join([title, *room, *(places if not o.title and not o.id.endswith(o.kind) else [])])


def steps(s: Stages, names: Names) -> tuple[Thing, ...]:
    """In working order."""
    return tuple(_step(o, names) for o in s.sequence.operations)


def _step(o: Operation, names: Names) -> Thing:
    facts = [Fact("on", ", ".join(names.places.get(p, p) for p in o.places))] if o.places else []
    for link in o.after:
        if (w := link.wait) is None:
            continue
        after = f"after {names.of.get(link.operation, link.operation)} ({plain(w.why)})"
        facts.append(Fact(f"wait {after}", w.minimum))
        if w.maximum is not None:
            facts.append(Fact(f"not later than this {after}", w.maximum))
        if w.overrun:
            facts.append(Fact(f"if later {after}", str(w.overrun)))
    facts += [Fact(plain(name), q) for name, q in o.values]
    facts += [Fact(plain(key), "yes") for key in o.facts]
    facts += [Fact(f"hazard: {plain(key)}", "yes") for key in o.hazards]
    facts += [Fact(f"lift of {plain(x.what)} {x.name}", plain(x.measure)) for x in o.loads]
    bare = Operation("", "", "", None, (), (), o.trade, o.products, labour=o.labour)
    return thing(names.of[o.id], bare, facts=facts)


def points(s: Stages, names: Names) -> tuple[Thing, ...]:
    return tuple(thing(names.of[o.id], o.point) for o in s.sequence.operations if o.point is not None)


def programme(s: Stages, names: Names) -> Thing:
    return Thing("", tuple(_programme(s)), tuple(_late(s, names)))


def _programme(s: Stages) -> Iterator[Fact]:
    p = s.programme
    yield Fact("hours of the crew", p.person_hours)
    yield Fact("days with work", p.working_days)
    if p.days:
        yield Fact("working days from first to last", counted(p.days[-1].number, "working days of the job"))
    if p.dated and p.finish is not None:
        yield Fact("finish", p.finish)


def _late(s: Stages, names: Names) -> Iterator[Thing]:
    for pause in s.programme.pauses:
        if pause.late:
            yield Thing(f"too late: {names.of.get(pause.before, pause.before)} after {names.of.get(pause.after, pause.after)}")
