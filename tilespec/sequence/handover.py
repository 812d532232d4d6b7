"""The final inspection of each room, and the hand-over of the job."""

from __future__ import annotations

from tilespec.job.types import Room, Surface
from tilespec.quantity import Quantity
from tilespec.sequence import features, laying, wait
from tilespec.sequence.fittings import mirror_links
from tilespec.sequence.sealing import water_links
from tilespec.sequence.site import (
    Chain,
    Site,
    adhesive_class,
    cement,
    fast,
    ids,
    largest,
    products_of,
    resin_grout,
    smallest,
    with_membrane,
)
from tilespec.sequence.types import Point, Test
from tilespec.vocabulary import TIMBER


def inspect(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    tiled = features.surfaces(room)
    watered = features.runs_over_tiles(room)
    links = chain.also(*(water_links(chain) if watered else ()), *mirror_links(chain))
    tests = [Test("finish-look"), *_lippage(tiled, site), Test("finished-plane", site.limit("finished-plane"), compare="at most")]
    tests += [Test("hollow"), Test("joints-look"), Test("sealant-look")]
    if watered:
        tests.append(Test("falls-water"))
    chain.pass_through(chain.make(
        "final-inspection", "inspection", ids(tiled), after=links,
        values=(("straightedge", site.limit("finished-plane-length")),),
        point=Point("hold", "client", tuple(tests), site.signed("final", room.name, ids(tiled))),
        labour=site.timed("time-inspection"),
    ))


def _lippage(tiled: tuple[Surface, ...], site: Site) -> list[Test]:
    groups: dict[str, tuple[Quantity, list[Surface]]] = {}
    for s in tiled:
        limit = laying.lippage(s, site)
        groups.setdefault(str(limit.value), (limit, []))[1].append(s)
    return [Test("lippage", limit, compare="at most", places=ids(tuple(m))) for limit, m in groups.values()]


def hand_over(chain: Chain) -> None:
    """Once for the job, when every room is released."""
    site, job = chain.site, chain.site.job
    rooms = tuple(r for r in job.rooms if features.surfaces(r))
    tiled = job.tiled
    facts = [fact for fact, here in (
        ("wet", any(r.showers or r.baths or r.drains for r in rooms)),
        ("membrane", any(with_membrane(s) for s in tiled)),
        ("electric-heating", any(features.electric_heating(r) for r in rooms)),
        ("heating-pipes", any(features.heating_pipes(r) for r in rooms)),
        ("stone", any(t.stone for t in job.tiles)),
        ("impregnated", any(s.product("impregnator") for s in tiled)),
        ("plumbing", any(features.plumbing(r) for r in rooms)),
        ("resin-grout", any(resin_grout(p) for p in products_of(tiled, "grout"))),
        ("timber", any(_heated_timber(r) for r in rooms)),
    ) if here]
    heated = any(features.electric_heating(r) or features.heating_pipes(r) for r in rooms)
    water = _use_after(tiled, site) if "wet" in facts else None
    chain.pass_through(chain.make(
        "hand-over", "hand-over", tuple(r.name for r in job.rooms), facts=tuple(facts), labour=site.timed("time-hand-over"),
        values=(
            ("use-after", water), ("use-after-cautious", site.limit("wait-shower-use-cautious") if water else None),
            ("full-load-after", site.limit("wait-full-strength")),
            ("first-heating", _first_heating(rooms, site)), ("heating-rise", site.limit("heating-step") if heated else None),
            ("floor-warmest", _warmest(rooms, site) if heated else None),
        ),
    ))


def _use_after(tiled: tuple[Surface, ...], site: Site) -> Quantity:
    """Water and full use: the longest that grout, sealant and practice ask for."""
    times = [site.limit("wait-shower-use")]
    for p in products_of(tiled, "grout", "sealant"):
        for before in ("use", "water"):
            said = p.wait(before)
            if said is not None:
                times.append(wait.in_the_cold(said.minimum, site) if cement(p) else said.minimum)
    longest = largest(tuple(times))
    assert longest is not None
    return longest


def _first_heating(rooms: tuple[Room, ...], site: Site) -> Quantity | None:
    """The longest that any heated floor's adhesive asks for after tiling."""
    times = []
    for room in rooms:
        floor = features.floor(room)
        if floor is None or not (features.electric_heating(room) or features.heating_pipes(room)):
            continue
        for p in laying.adhesives(floor):
            said = p.wait("heating")
            quick = bool(adhesive_class(p)[2]) or fast(p)
            times.append(said.minimum if said else site.limit("heating-after-tiling" if quick else "heating-after-tiling-normal"))
        if not laying.adhesives(floor):
            times.append(site.limit("heating-after-tiling-normal"))
        if features.electric_heating(room):
            times.append(site.limit("heating-after-tiling-electric"))
    return largest(tuple(times))


def _heated_timber(room: Room) -> bool:
    floor = features.floor(room)
    return floor is not None and floor.base.kind in TIMBER and room.heating is not None


def _warmest(rooms: tuple[Room, ...], site: Site) -> Quantity | None:
    found = [site.limit("floor-temperature-max")]
    if any(_heated_timber(r) for r in rooms):
        found.append(site.limit("floor-temperature-max-timber"))
    return smallest(tuple(found))
