"""Floor tiles, and what waits until they can be walked on: the bottom wall course, the bath front, the last heating test."""

from __future__ import annotations

from tilespec.sequence import features, heating, laying, wait
from tilespec.sequence.priming import primer_links
from tilespec.sequence.site import Chain, ids, with_membrane
from tilespec.sequence.types import Operation, Point
from tilespec.sequence.wall_tiles import foot, on_ledger
from tilespec.setout.bed import edge_joint


def lay_floor(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    floor = features.floor(room)
    if floor is None:
        _bath_front(chain)
        return
    facts = list(laying.facts(floor, site))
    if room.fall is not None:
        facts += ["fall", f"planes-{room.fall.planes}"]
    facts += [fact for fact, here in (
        ("drain", bool(room.drains)),
        ("heated", room.heating is not None),
        ("mat", features.mat(room)),
        ("walls-first", bool(features.walls(room))),
    ) if here]
    bare = () if with_membrane(floor) or features.mat(room) else primer_links(chain, floor.id)
    contact = laying.contact_test(floor, site)
    edge = edge_joint(room, site.practice)
    op = chain.make(
        "floor-tiles", "floor-tiling", (floor.id,), products=laying.adhesives(floor) + tuple(t.product for t in floor.trims),
        values=(*laying.values(floor, site), ("slope", room.fall.slope if room.fall else None), ("edge-joint", edge)),
        facts=tuple(facts), labour=laying.labour(floor, site, "floor"), after=chain.also(*bare), span=floor.span,
        point=Point("witness", "site manager", (contact,)) if contact else None,
    )
    chain.tiled.setdefault(floor.id, []).append(op)
    tested = heating.after_tiling(chain, (op,))
    chain.pass_through(op, wait=wait.after_laying(floor, "walking", site))
    leaves: list[Operation] = [tested] if tested is not None else []
    held = on_ledger(room)
    if held:
        bottom = chain.make(
            "bottom-course", "bottom-course", ids(held),
            products=tuple(dict.fromkeys(p for s in held for p in laying.adhesives(s))),
            values=(("joint", held[0].coverings[0].joint), ("edge-joint", edge)),
            facts=("membrane",) if any(with_membrane(s) for s in held) else (),
            labour=site.rated(foot(held, site), "rate-bottom-course"),
        )
        for s in held:
            chain.tiled.setdefault(s.id, []).append(bottom)
        leaves.append(bottom)
    front = _bath_front(chain)
    if front is not None:
        leaves.append(front)
    if leaves:
        chain.pass_through(*leaves)


def _bath_front(chain: Chain) -> Operation | None:
    site, room = chain.site, chain.room
    assert room is not None
    if not room.baths:
        return None
    op = chain.make("bath-front", "bottom-course", (room.name,), labour=site.timed("time-bath-front"))
    if features.floor(room) is None:
        chain.pass_through(op)
    return op


