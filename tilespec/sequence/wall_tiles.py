"""Wall tiles from the second course up, on a ledger; then the ledger comes off and the membrane is looked at again."""

from __future__ import annotations

from tilespec.job.types import Room, Surface
from tilespec.quantity import Quantity
from tilespec.quantity.total import total
from tilespec.sequence import features, laying, wait
from tilespec.sequence.priming import primer_links
from tilespec.sequence.site import Chain, Site, ids, looked_at, on, reaches_floor, with_membrane
from tilespec.sequence.types import Operation, Point


def on_ledger(room: Room) -> tuple[Surface, ...]:
    """Walls whose bottom course is left off until the floor is tiled."""
    return tuple(s for s in features.walls(room) if reaches_floor(s, room)) if features.floor(room) is not None else ()


def foot(walls: tuple[Surface, ...], site: Site) -> Quantity:
    """Length of the bottom course: as long as the joint between wall and floor, which stops at doors, baths and trays."""
    joints = {p.place: p.measure for line in site.takeoff.lines_of("sealant") for p in line.parts if p.role == "perimeter"}
    return total([(f"wall {s.letter}", joints.get(s.id, s.width)) for s in walls], "m", of="walls", source="sum of the walls")


def lay_walls(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    walls = features.walls(room)
    if not walls:
        return
    held = on_ledger(room)
    if held:
        chain.pass_through(chain.make(
            "fix-ledger", "wall-tiling", ids(held), facts=("membrane",) if any(with_membrane(s) for s in held) else (),
            values=(("datum", room.levels.datum), ("joint", held[0].coverings[0].joint)),
            labour=site.rated(foot(held, site), "rate-ledger"),
        ))
    laid: list[Operation] = []
    for s in walls:
        facts = laying.facts(s, site) + (("ledger",) if s in held else ())
        contact = laying.contact_test(s, site) if not laid else None
        op = chain.make(
            "wall-tiles", "wall-tiling", (s.id,), products=laying.adhesives(s) + tuple(t.product for t in s.trims),
            values=laying.values(s, site), facts=facts, labour=laying.labour(s, site, "wall"), part=s.letter,
            after=chain.also(*(() if with_membrane(s) else primer_links(chain, s.id))), span=s.span,
            point=Point("witness", "site manager", (contact,)) if contact else None,
        )
        chain.tiled.setdefault(s.id, []).append(op)
        laid.append(op)
    chain.pass_through(*laid)
    if held:
        resting = {op.id: wait.after_laying(s, "grouting", site) for s, op in zip(walls, laid, strict=True) if s in held}
        chain.pass_through(chain.make(
            "take-off-ledger", "wall-tiling", ids(held), after=tuple(on(op, resting.get(op.id)) for op in laid),
            facts=("membrane",) if any(with_membrane(s) for s in held) else (), labour=site.timed("time-ledger-off"),
        ))
    _look_again(chain, held)


def _look_again(chain: Chain, held: tuple[Surface, ...]) -> None:
    """What the wall tiling may have damaged and the next tiles will cover."""
    site, room = chain.site, chain.room
    assert room is not None
    floor = features.floor(room)
    open_still = tuple(s for s in ((floor,) if floor else ()) + held if with_membrane(s))
    if not open_still:
        return
    chain.pass_through(chain.make(
        "recheck-membrane", "wall-tiling", ids(open_still), facts=("floor",) if floor in open_still else (),
        point=Point("hold", "tiler", looked_at("membrane-whole", "membrane-clean")), labour=site.timed("time-recheck-membrane"),
    ))
