"""The membrane: details first, coat on coat, proved before anything covers it, and kept whole afterwards."""

from __future__ import annotations

from tilespec.job.types import Product, Surface
from tilespec.quantity import Quantity, work
from tilespec.sequence import features, wait
from tilespec.sequence.priming import primer_links
from tilespec.sequence.site import Chain, Site, ids, membrane_class, on, products_of, with_membrane
from tilespec.sequence.types import Link, Operation, Point, Test, Wait
from tilespec.vocabulary import TIMBER

_COATS = ("membrane-first-coat", "membrane-second-coat")


def waterproof(chain: Chain) -> None:
    """From the primed base to a membrane that is released and protected. Nothing where no surface has one."""
    site, room = chain.site, chain.room
    assert room is not None
    wet = tuple(s for s in features.surfaces(room) if with_membrane(s))
    if not wet:
        # Whoever marks lines on a primed surface needs only that the primer is on.
        if chain.primed:
            chain.pass_through(*dict.fromkeys(chain.primed.values()))
        return
    groups: dict[str, tuple[Product, list[Surface]]] = {}
    for s in wet:
        membrane = s.product("membrane")
        if membrane is not None:
            groups.setdefault(membrane.name, (membrane, []))[1].append(s)
    accepted_after: list[Link] = []
    for membrane, members in groups.values():
        last = _coats(chain, membrane, tuple(members), membrane.name if len(groups) > 1 else "")
        accepted_after.append(on(last, wait.after_membrane(membrane, site)))
    dried = _ponding(chain, wet, tuple(accepted_after))
    accepted = chain.make(
        "accept-membrane", "membrane", ids(wet), after=dried or tuple(accepted_after),
        values=(("area", site.membrane_area(wet)),), products=tuple(m for m, _ in groups.values()),
        facts=_ponding_facts(chain, wet, dried is not None),
        point=Point(
            "hold", "site manager", (*_tests(groups, site), *_drop(chain, wet, dried is not None)),
            site.signed("membrane", room.name, ids(wet)),
        ),
        labour=site.timed("time-accept-membrane"),
    )
    # Primed surfaces outside the membrane must be primed, not dry, before lines are set out on them.
    bare = tuple(op for place, op in chain.primed.items() if place not in ids(wet))
    chain.pass_through(accepted, *dict.fromkeys(bare))
    floor = features.floor(room)
    if floor is not None and with_membrane(floor):
        protected = chain.make(
            "protect-membrane", "membrane", (floor.id,), after=(Link(accepted.id),),
            labour=site.rated(site.membrane_area((floor,)), "rate-protect"),
        )
        chain.gate = tuple(Link(protected.id) if link.operation == accepted.id else link for link in chain.gate)


def _coats(chain: Chain, membrane: Product, members: tuple[Surface, ...], part: str) -> Operation:
    site = chain.site
    places = ids(members)
    before = primer_links(chain, *places, to="membrane")
    unprimed = any(p not in chain.primed for p in places)
    start = (*chain.gate, *before) if unprimed or not before else before
    laps = products_of(members, "tape", "collar")
    details = _details(members, chain)
    after = start
    if details:
        tape, collars = site.driven("tape", places, "m"), site.driven("collar", places, "count")
        first = chain.make(
            "membrane-details", "membrane", places, after=after, products=(membrane, *laps), facts=details,
            values=(("tape", tape), ("collars", collars)), labour=_detail_time(tape, collars, site), part=part,
        )
        after = (Link(first.id),)
    coats = membrane.coats or site.limit("membrane-coats")
    area = site.membrane_area(members)
    last: Operation | None = None
    for n in range(max(1, int(coats.value))):
        kind = _COATS[n] if n < len(_COATS) else "membrane-further-coat"
        last = chain.make(
            kind, "membrane", places, after=after, products=(membrane,),
            values=(("consumption", _rate(membrane, site)), ("coats", coats), ("area", area)),
            facts=_coat_facts(membrane, members, n), labour=site.rated(area, "rate-membrane-coat"),
            part="/".join(x for x in (part, f"{n + 1}" if n >= len(_COATS) else "") if x),
        )
        after = (Link(last.id, wait.between_coats(membrane, site)),)
    assert last is not None
    return last


def _rate(membrane: Product, site: Site) -> Quantity | None:
    """What one coat takes, by the product or by its class."""
    return membrane.consumption or site.practice.find(f"membrane-rate-{membrane_class(membrane)}")


def _coat_facts(membrane: Product, members: tuple[Surface, ...], n: int) -> tuple[str, ...]:
    facts = [f"class-{membrane_class(membrane)}"]
    if membrane_class(membrane) == "DM" and n:
        facts.append("other-colour")
    if any(s.kind == "floor" for s in members):
        facts.append("floor")
    if any(s.kind == "wall" for s in members):
        facts.append("walls")
    return tuple(facts)


def _details(members: tuple[Surface, ...], chain: Chain) -> tuple[str, ...]:
    """The critical places that this room has."""
    room = chain.room
    assert room is not None
    letters = {s.letter for s in members}
    floor = next((s for s in members if s.kind == "floor"), None)
    drains = floor is not None and bool(room.drains)
    facts = [fact for fact, here in (
        ("drain", drains),
        ("pipes", any(p.kind not in ("drain", "channel") for s in members for p in s.penetrations)),
        ("corners", floor is not None or any(c.before in letters and c.after in letters for c in room.corners)),
        ("threshold", floor is not None and any(o.kind == "door" for s in room.wall_surfaces for o in s.openings)),
        ("niche", any(s.niches for s in members)),
        ("bath-rim", bool(room.baths) and any(letters.intersection(b.walls) for b in room.baths)),
        ("tray-rim", any(s.tray and letters.intersection(s.walls) for s in room.showers)),
        ("window", any(o.kind == "window" for s in members for o in s.openings)),
    ) if here]
    return tuple(facts)


def _detail_time(tape: Quantity | None, collars: Quantity | None, site: Site) -> Quantity | None:
    if tape is not None and collars is not None:
        return work(
            "tape / tape_rate + collars / collar_rate", "h", source="planning rates", tape=tape,
            tape_rate=site.limit("rate-membrane-tape"), collars=collars, collar_rate=site.limit("rate-membrane-collar"),
        )
    if tape is not None:
        return site.rated(tape, "rate-membrane-tape")
    return site.rated(collars, "rate-membrane-collar")


# ---------------------------------------------------------------- proof

def ponding_asked(chain: Chain, wet: tuple[Surface, ...]) -> bool:
    """The practice asks for standing water on a floor like this one: with a drain, under a membrane."""
    room, site = chain.room, chain.site
    if room is None or site.practice.find("ponding-depth-min") is None:
        return False
    return any(s.kind == "floor" for s in wet) and bool(room.drains)


def _carries_water(chain: Chain) -> bool:
    """A timber floor must not be loaded with water unless its designer says so."""
    room = chain.room
    return room is not None and room.floor is not None and room.floor.base.kind not in TIMBER


def _ponding(chain: Chain, wet: tuple[Surface, ...], cured: tuple[Link, ...]) -> tuple[Link, ...] | None:
    """Water stands on the floor; returns the link to the hold point that follows, or None where there is no such test."""
    site, room = chain.site, chain.room
    if room is None or not ponding_asked(chain, wet) or not _carries_water(chain):
        return None
    floor = next(s for s in wet if s.kind == "floor")
    cold = site.job.conditions.surface.value < site.limit("ponding-wait-cold-below").value
    least = site.limit("ponding-wait-cold" if cold else "ponding-wait")
    links = tuple(
        link if link.wait is not None and link.wait.minimum.value >= least.value
        else Link(link.operation, Wait(least, "before-ponding", None, None, link.wait.product if link.wait else None))
        for link in cured
    )
    depth = site.limit("ponding-depth-min")
    load = work("depth * load", "kg/m2", source="weight of water", depth=depth, load=site.limit("ponding-load"))
    op = chain.make(
        "ponding-test", "membrane", (floor.id,), after=links,
        values=(
            ("depth", depth), ("depth-max", site.limit("ponding-depth-max")), ("duration", site.limit("ponding-duration")),
            ("load", load), ("slope-max", site.limit("ponding-slope-max")),
        ),
        facts=("door",) if any(o.kind == "door" for s in room.wall_surfaces for o in s.openings) else (),
        labour=site.timed("time-ponding"),
    )
    return (Link(op.id, Wait(site.limit("ponding-duration"), "ponding")),)


def _ponding_facts(chain: Chain, wet: tuple[Surface, ...], tested: bool) -> tuple[str, ...]:
    if tested:
        return ("ponding",)
    return ("ponding-not-carried",) if ponding_asked(chain, wet) else ()


def _tests(groups: dict[str, tuple[Product, list[Surface]]], site: Site) -> tuple[Test, ...]:
    tests = [Test("membrane-continuity"), Test("membrane-details")]
    for membrane, members in groups.values():
        places = ids(tuple(members)) if len(groups) > 1 else ()
        film = membrane.film or site.practice.find(f"membrane-film-{membrane_class(membrane)}")
        tests.append(Test("membrane-film", film, compare="at least" if film else "none", places=places))
        rate = _rate(membrane, site)
        if rate is not None:
            coats = membrane.coats or site.limit("membrane-coats")
            used = work("coats * consumption", "kg/m2", source="all coats together", coats=coats, consumption=rate)
            tests.append(Test("membrane-consumption", used, compare="at least", places=places))
    tests.append(Test("membrane-photos"))
    return tuple(tests)


def _drop(chain: Chain, wet: tuple[Surface, ...], tested: bool) -> tuple[Test, ...]:
    """How far the water may have dropped, where it stood."""
    if not tested:
        return ()
    floor = next(s for s in wet if s.kind == "floor")
    limit = chain.site.limit("ponding-drop-max")
    found = chain.site.record("ponding", floor.room, (floor.id,))
    reading = found.reading if found is not None and found.reading is not None and found.reading.kind is limit.kind else None
    return (Test("ponding-drop", limit, None, "at most", reading, found.by if found and reading else None, (floor.id,)),)
