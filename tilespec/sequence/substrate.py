"""The base: laid, heated up, cleaned, tested, levelled, given its falls, and accepted."""

from __future__ import annotations

from fractions import Fraction

from tilespec.formula.dew import dew_point, least_surface
from tilespec.formula.drying import drying_time
from tilespec.job.types import Record, Surface
from tilespec.quantity import UNITS, Counted, Kind, Quantity, work
from tilespec.sequence import features, heating, wait
from tilespec.sequence.site import Chain, Site, failing, ids, largest, products_of, smallest, tiles_of
from tilespec.sequence.types import Link, Point, Test, Wait

_AGE_KEYS = {
    "cement-screed": "age-cement-screed", "calcium-sulfate-screed": "age-calcium-sulfate-screed", "concrete": "age-concrete",
    "gypsum-plaster": "age-gypsum-plaster", "cement-render": "age-cement-render",
}


def prepare(chain: Chain) -> None:
    """All that makes the base fit, up to the hold point where it is accepted."""
    site, room = chain.site, chain.room
    assert room is not None
    _screed(chain)
    tiled = features.surfaces(room)
    chain.pass_through(chain.make(
        "prepare-base", "base", ids(tiled), facts=_preparation(tiled), labour=site.rated(site.area(tiled), "rate-prepare-base"),
    ))
    _moisture(chain, tiled)
    if features.cable(room):
        heating.cable_in_leveller(chain)
    if features.needs_leveller(room):
        _level(chain)
    if room.fall is not None and room.floor is not None:
        op = chain.make(
            "form-falls", "base", (room.floor.id,), values=(("slope", room.fall.slope), ("grate", room.levels.drain_grate)),
            facts=(f"planes-{room.fall.planes}",),
            labour=site.rated(site.area((room.floor,)), "rate-falls"),
        )
        chain.pass_through(op, wait=wait.after_falls(site))
    _accept(chain, tiled)


# ---------------------------------------------------------------- screed

def _screed(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    floor = room.floor
    if floor is None:
        return
    base = floor.base
    pipes = features.heating_pipes(room)
    first = site.practice.find(f"heating-first-{base.kind}") if pipes else None
    if base.kind in features.SCREEDS and features.to_be_laid(base, site.job):
        laid = chain.make(
            "lay-screed", "base", (floor.id,), trade="screeder", values=(("thickness", base.thickness),),
            facts=(f"base-{base.kind}", "pipes") if pipes else (f"base-{base.kind}",),
            labour=site.rated(site.area((floor,)), "rate-screed"),
        )
        # Heating dries a heated screed, so only its age counts before the first heating.
        dry = first or _drying_time(floor, site)
        chain.pass_through(laid, wait=Wait(dry, "screed-age" if first else "screed-dry") if dry is not None else None)
    elif first is not None and (early := _still_to_wait(floor, first, site)) is not None:
        chain.gate = tuple(Link(link.operation, Wait(early, "screed-age")) for link in chain.gate)
    if pipes:
        values = (
            ("first-after", first), ("flow", site.limit("heating-cycle-flow")), ("first", site.limit("heating-cycle-first")),
            ("full", site.limit("heating-cycle-full")), ("rise", site.limit("heating-step")),
        )
        cycle = work(
            "first + full", "d", source="heating cycle of the practice",
            first=site.limit("heating-cycle-first"), full=site.limit("heating-cycle-full"),
        )
        heated = chain.make(
            "heat-screed", "base", (floor.id,), trade="heating engineer", values=values, labour=site.timed("time-heat-screed"),
        )
        chain.pass_through(heated, wait=Wait(cycle, "heating-cycle"))


def _drying_time(floor: Surface, site: Site) -> Quantity | None:
    """How long a screed takes to dry, for planning; None where it is not known."""
    thickness = floor.base.thickness
    return drying_time(floor.base.kind, thickness, site.practice) if thickness is not None else None


def age(surface: Surface, site: Site) -> Quantity | None:
    """Days from the day the base was laid to the start of the work; None when either is not known or it lies ahead."""
    start, laid = site.job.begin or site.job.date, surface.base.laid
    if laid is None or start is None or laid >= start:
        return None
    spans = (surface.base.span,) if surface.base.span else ()
    d = UNITS["d"]
    why = Counted("days from the day the base was laid to the start of the work", spans)
    return Quantity(Fraction((start - laid).days) * d.factor, Kind.TIME, d, why)


def _still_to_wait(surface: Surface, needed: Quantity, site: Site) -> Quantity | None:
    """What is missing of an age at the start of the work; None when the base is old enough or its age is not known."""
    old = age(surface, site)
    if old is None or old.value >= needed.value:
        return None
    return work("needed - age", "d", source="age still to come at the start of the work", needed=needed, age=old)


# ---------------------------------------------------------------- cleaning and testing

def _preparation(tiled: tuple[Surface, ...]) -> tuple[str, ...]:
    kinds = dict.fromkeys(s.base.kind for s in tiled)
    facts = [f"base-{k}" for k in kinds]
    if any(s.base.existing for s in tiled):
        facts.append("existing")
    if any(s.kind == "floor" for s in tiled):
        facts.append("floor")
    return tuple(facts)


def moisture_method(surface: Surface, site: Site) -> tuple[str, Quantity] | None:
    """How the moisture of this base is measured and its limit: ("cm", ...) or ("humidity", ...); None where no limit is known.

    A reading in the spec decides the method; otherwise the one that the job's own family has a limit for.
    """
    base, p = surface.base, site.practice
    if base.kind not in features.DAMP:
        return None
    heated = "-heated" if surface.kind == "floor" and _heated(surface, site) else ""
    cm_key = next((k for k in (f"cm-limit-{base.kind}{heated}", f"cm-limit-{base.kind}") if p.entry(k)), None)
    rh_key = next((k for k in (f"rh-limit-{base.kind}{heated}", f"rh-limit-{base.kind}", "rh-limit") if p.entry(k)), None)
    found = site.record("substrate-moisture", surface.room, (surface.id,))
    reading = found.reading.kind if found is not None and found.reading is not None else None
    if rh_key and (reading is Kind.HUMIDITY or cm_key is None):
        return "humidity", site.limit(rh_key)
    if cm_key and (reading is Kind.MOISTURE or rh_key is None):
        return "cm", site.limit(cm_key)
    if cm_key is None or rh_key is None:
        return None
    rh, cm = p.entry(rh_key), p.entry(cm_key)
    if rh is not None and cm is not None and rh.family == p.family != cm.family:
        return "humidity", site.limit(rh_key)
    return "cm", site.limit(cm_key)


def _heated(surface: Surface, site: Site) -> bool:
    room = next(r for r in site.job.rooms if r.name == surface.room)
    return room.heating is not None


def _reading(surface: Surface, site: Site) -> Record | None:
    found = site.record("substrate-moisture", surface.room, (surface.id,))
    return found if found is not None and found.reading is not None else None


def _moisture(chain: Chain, tiled: tuple[Surface, ...]) -> None:
    """The test itself, before anything covers the base; its limit stands at the hold point."""
    site = chain.site
    damp = [(s, m) for s in tiled if (m := moisture_method(s, site)) is not None]
    if not damp:
        return
    methods = tuple(dict.fromkeys(m[0] for _, m in damp))
    waiting = [s for s, m in damp if m[0] == "humidity" and _reading(s, site) is None]
    facts = list(methods)
    if not any(_reading(s, site) is None for s, _ in damp):
        facts.append("recorded")
    op = chain.make(
        "test-moisture", "base", tuple(s.id for s, _ in damp), facts=tuple(facts),
        values=tuple((f"limit-{m}", next(q for _, (k, q) in damp if k == m)) for m in methods),
        labour=site.timed("time-test-moisture"),
    )
    box = largest(tuple(
        site.limit("hygrometer-wait-concrete" if s.base.kind == "concrete" else "hygrometer-wait-screed") for s in waiting
    ))
    chain.pass_through(op, wait=Wait(box, "hygrometer") if box is not None else None)


def _level(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None and room.floor is not None
    floor = room.floor
    products = products_of((floor,), "leveller")
    leveller = products[0] if products else None
    facts = ["cable"] if features.cable(room) else []
    if room.drains:
        facts.append("drain")
    op = chain.make(
        "level-floor", "base", (floor.id,), products=products, facts=tuple(facts),
        values=(("thickness", features.leveller_depth(room)),),
        labour=site.rated(site.area((floor,)), "rate-leveller"),
    )
    chain.pass_through(op, wait=wait.after_leveller(leveller, site))
    if features.cable(room):
        chain.pass_through(heating.proof(chain, "heating-test-covered", "base", "heating-cover"))


# ---------------------------------------------------------------- acceptance

def _accept(chain: Chain, tiled: tuple[Surface, ...]) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    tests = [*_flatness(tiled, site), *_moisture_tests(tiled, site), *_age_tests(tiled, site), *_climate(tiled, site)]
    tests += [Test("base-sound"), Test("base-clean")]
    if room.fall is not None and room.floor is not None:
        tests.append(Test("base-fall", room.fall.slope, compare="at least", places=(room.floor.id,)))
    if any(s.base.kind == "timber" for s in tiled):
        tests.append(Test("deflection", site.limit("deflection-max"), compare="at most",
                          places=ids(tuple(s for s in tiled if s.base.kind == "timber"))))
    links = list(chain.gate)
    late = _age_wait(tiled, site)
    if late is not None:
        links.append(Link("job/survey", Wait(late, "base-age")))
    chain.pass_through(chain.make(
        "accept-substrate", "substrate", ids(tiled), after=tuple(links), values=_straightedges(tiled, site),
        point=Point("hold", "tiler", tuple(tests), site.signed("substrate", room.name, ids(tiled))),
        labour=site.timed("time-accept-substrate"),
    ))


def _large(surface: Surface, site: Site) -> bool:
    edge = largest(tuple(t.long_side for t in tiles_of(surface) if not t.mosaic))
    return edge is not None and edge.value >= site.limit("flatness-large-edge").value


def _flat_key(surface: Surface, site: Site) -> str:
    return f"flatness-{surface.kind}" + ("-large" if _large(surface, site) else "")


def _flatness(tiled: tuple[Surface, ...], site: Site) -> list[Test]:
    groups: dict[str, list[Surface]] = {}
    for s in tiled:
        groups.setdefault(_flat_key(s, site), []).append(s)
    tests = []
    for key, members in groups.items():
        tests.append(Test(f"flatness-{members[0].kind}", site.limit(key), compare="at most", places=ids(tuple(members))))
        short = site.practice.find("flatness-short" + ("-large" if key.endswith("-large") else ""))
        if short is not None:
            tests.append(Test("flatness-short", short, compare="at most", places=ids(tuple(members))))
    return tests


def _straightedges(tiled: tuple[Surface, ...], site: Site) -> tuple[tuple[str, Quantity | None], ...]:
    values: dict[str, Quantity] = {}
    for s in tiled:
        values.setdefault(f"straightedge-{s.kind}", site.limit(f"{_flat_key(s, site)}-length"))
        short = site.practice.find("flatness-short" + ("-large" if _large(s, site) else "") + "-length")
        if short is not None:
            values.setdefault("short-length", short)
    return tuple(values.items())


def _moisture_tests(tiled: tuple[Surface, ...], site: Site) -> list[Test]:
    tests = []
    for s in tiled:
        found = moisture_method(s, site)
        if found is None:
            continue
        method, limit = found
        record = _reading(s, site)
        fits = record is not None and record.reading is not None and record.reading.kind is limit.kind
        reading, by = (record.reading, record.by) if record is not None and fits else (None, None)
        what = "moisture-cm" if method == "cm" else "moisture-humidity"
        tests.append(Test(what, limit, None, "at most", reading, by, (s.id,)))
    return tests


def _age_tests(tiled: tuple[Surface, ...], site: Site) -> list[Test]:
    tests = []
    for s in tiled:
        limit = _age_limit(s, site)
        if limit is None or s.base.existing:
            continue
        tests.append(Test("base-age", limit, None, "at least", age(s, site), None, (s.id,)))
    return tests


def _age_limit(surface: Surface, site: Site) -> Quantity | None:
    key = _AGE_KEYS.get(surface.base.kind)
    return site.practice.find(key) if key else None


def _age_wait(tiled: tuple[Surface, ...], site: Site) -> Quantity | None:
    """What is missing of the age or of the estimated drying at the start. A reading within the limit ends the estimate."""
    missing = []
    for s in tiled:
        if s.base.existing:
            continue
        limit = _age_limit(s, site)
        if limit is not None and (q := _still_to_wait(s, limit, site)) is not None:
            missing.append(q)
        record, method = _reading(s, site), moisture_method(s, site)
        dry = record is not None and method is not None and record.reading is not None and not failing(record) \
            and record.reading.kind is method[1].kind and record.reading.value <= method[1].value
        estimate = _drying_time(s, site) if s.base.kind in features.SCREEDS and not dry else None
        if estimate is not None and (q := _still_to_wait(s, estimate, site)) is not None:
            missing.append(q)
    return largest(tuple(missing))


def _climate(tiled: tuple[Surface, ...], site: Site) -> list[Test]:
    """Air and base within what every product of these surfaces allows, and the base dry of dew."""
    products = products_of(tiled, "primer", "membrane", "adhesive", "grout", "leveller")
    low = largest((*(p.temperature_min for p in products if p.temperature_min), site.limit("work-temperature-min")))
    high = smallest((*(p.temperature_max for p in products if p.temperature_max), site.limit("work-temperature-max")))
    now, margin = site.job.conditions, site.limit("dew-point-margin")
    free_of_dew = least_surface(dew_point(now.air, now.humidity, site.practice), margin)
    return [
        Test("temperature", low, high, "between"),
        Test("dew-point", margin, compare="at least"),
        Test("dew-free", free_of_dew, compare="at least", values=(("air", now.air), ("humidity", now.humidity))),
    ]

