"""First fix and its proof, boards over it, and what is set into the floor: drain, bath, tray."""

from __future__ import annotations

from tilespec.job.types import Room
from tilespec.quantity import Quantity, counted, work
from tilespec.sequence import features
from tilespec.sequence.site import Chain, Site, ids, largest, looked_at, tiles_of
from tilespec.sequence.types import Operation, Point


def first_fix(chain: Chain) -> None:
    """Pipes and cables, each waiting only for what is before first fix; pipes are proved before anything covers them."""
    site, room = chain.site, chain.room
    assert room is not None
    leaves: list[Operation] = []
    pipes = features.plumbing(room)
    if pipes is not None:
        leaves.append(chain.make(
            "first-fix-plumbing", "first-fix", (room.name,), trade="plumber",
            values=(("finish-depth", _finish_depth(room, site)),), facts=_pipework(room),
            labour=site.timed("time-first-fix-plumbing", pipes),
        ))
    sockets = features.sockets(room)
    if sockets is not None:
        leaves.append(chain.make(
            "first-fix-electrics", "first-fix", (room.name,), trade="electrician",
            values=(("rcd", site.limit("rcd-max")), ("finish-depth", _finish_depth(room, site))),
            labour=site.timed("time-first-fix-electrics", sockets),
        ))
    if features.electric_heating(room) and room.heating is not None:
        wall = next((s.id for s in room.wall_surfaces if s.letter == room.heating.sensor_wall), None)
        leaves.append(chain.make(
            "sensor-tube", "first-fix", (wall or room.name,), trade="electrician", values=(("rcd", site.limit("rcd-max")),),
            facts=("wall-known",) if wall else (), products=(room.heating.product,), labour=site.timed("time-sensor-tube"),
        ))
    if pipes is not None or features.heating_pipes(room):
        tested = tuple(op for op in leaves if op.kind == "first-fix-plumbing")
        others = tuple(op for op in leaves if op.kind != "first-fix-plumbing")
        gate = chain.gate
        if tested:
            chain.pass_through(*tested)
        tests = ("pipe-pressure",) if pipes is not None else ()
        if features.heating_pipes(room):
            tests = (*tests, "heating-pipe-pressure")
        leaves = [*others, chain.make(
            "pressure-test", "first-fix", (room.name,), trade="plumber",
            facts=tests, labour=site.timed("time-pressure-test"),
            point=Point("hold", "licensed plumber", looked_at(*tests), site.signed("pressure-test", room.name, (room.name,))),
        )]
        chain.gate = gate
    if leaves:
        chain.pass_through(*leaves)
    _boards(chain)
    _setting(chain)


def _pipework(room: Room) -> tuple[str, ...]:
    kinds = {p.kind for p in features.penetrations(room)}
    facts = [fact for fact, here in (
        ("valve", "valve" in kinds or any(s.valve_wall for s in room.showers)),
        ("drain", bool(room.drains)),
        ("bath", bool(room.baths)),
        ("basin", bool(room.basins)),
        ("shower", bool(room.showers)),
    ) if here]
    return tuple(facts)


def _finish_depth(room: Room, site: Site) -> Quantity | None:
    """How far the face of the tiles stands off the base where valves and boxes are: bed and tile, the thickest wall."""
    depths: list[Quantity] = []
    for s in features.walls(room):
        if not s.penetrations:
            continue
        for tile in tiles_of(s):
            notch = site.notch(s, tile)
            if notch is not None:
                depths.append(work(
                    "tile + bed", tile.thickness.shown.symbol, source="sum of the layers", tile=tile.thickness, bed=notch.bed,
                ))
    return largest(tuple(depths))


def _boards(chain: Chain) -> None:
    room = chain.room
    assert room is not None
    boarded = tuple(s for s in features.surfaces(room) if s.base.kind in features.BOARDS and not s.base.existing)
    if not boarded:
        return
    facts = [f"base-{k}" for k in features.BOARDS if any(s.base.kind == k for s in boarded)]
    if features.fixed_through_tiles(room) or any(s.screen for s in room.showers) or any(b.screen for b in room.baths):
        facts.append("noggins")
    chain.pass_through(chain.make(
        "boards", "boards", ids(boarded), trade="carpenter", facts=tuple(facts),
        labour=chain.site.rated(chain.site.area(boarded), "rate-boards"),
    ))


def _setting(chain: Chain) -> None:
    """Drain, bath and tray: each on its own, all before the floor is levelled."""
    site, room = chain.site, chain.room
    assert room is not None
    leaves: list[Operation] = []
    if room.drains:
        place = room.floor.id if room.floor else room.name
        number = counted(len(room.drains), "drains", *(d.span for d in room.drains if d.span))
        facts = ["channel"] if any(d.kind == "channel" for d in room.drains) else []
        leaves.append(chain.make(
            "set-drain", "setting", (place,), trade="plumber", values=(("grate", room.levels.drain_grate),), facts=tuple(facts),
            point=Point(
                "hold", "licensed plumber", looked_at("drain-flange", "drain-runs"), site.signed("drain", room.name, (place,)),
            ),
            labour=site.timed("time-set-drain", number),
        ))
    if room.baths:
        number = counted(len(room.baths), "baths", *(b.span for b in room.baths if b.span))
        leaves.append(chain.make(
            "set-bath", "setting", (room.name,), trade="plumber", values=(("rim", room.baths[0].rim),),
            labour=site.timed("time-set-bath", number),
        ))
    trays = [s for s in room.showers if s.tray]
    if trays:
        number = counted(len(trays), "shower trays", *(s.span for s in trays if s.span))
        leaves.append(chain.make(
            "set-tray", "setting", (room.name,), trade="plumber", labour=site.timed("time-set-tray", number),
        ))
    if leaves:
        chain.pass_through(*leaves)


