"""Backer and sealant where hard grout would crack: corners, edges, fixtures. Then impregnating, where it is wanted."""

from __future__ import annotations

from tilespec.job.types import Product
from tilespec.sequence import features, wait
from tilespec.sequence.grouting import resin_flags
from tilespec.sequence.site import Chain, ids, on, products_of, tiles_of
from tilespec.sequence.types import Link, Operation
from tilespec.setout.bed import edge_joint


def seal(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    tiled = features.surfaces(room)
    sealants, backers = products_of(tiled, "sealant"), products_of(tiled, "backer")
    floor = features.floor(room)
    walls = {s.letter for s in features.walls(room)}
    heated = room.heating is not None and floor is not None
    facts = [fact for fact, here in (
        ("wall-corners", any(c.internal and {c.before, c.after} <= walls for c in room.corners)),
        ("floor-edge", floor is not None),
        ("movement", any(s.movement_joints for s in tiled)),
        ("heated", heated),
        ("bath", bool(room.baths)),
        ("tray", any(s.tray for s in room.showers)),
        ("basin", bool(room.basins)),
        ("pipes", any(p.kind not in ("drain", "channel") for s in tiled for p in s.penetrations)),
        ("openings", any(o.kind == "window" for s in tiled for o in s.openings)),
        ("stone", any(t.stone for s in tiled for t in tiles_of(s))),
        ("mirror", bool(features.mirrors(room))),
        ("acetoxy", any("acetoxy" in p.flags for p in sealants)),
    ) if here]
    edge = edge_joint(room, site.practice) if floor is not None else None
    corner = site.limit("corner-joint-wall") if "wall-corners" in facts else None
    op = chain.make(
        "seal-joints", "sealing", ids(tiled), products=(*backers, *sealants), facts=tuple(facts),
        after=tuple(on(g, wait.after_grout(_grout_of(g), "sealing", site)) for g in _grouts(chain)) or chain.gate,
        values=(("edge-joint", edge), ("corner-joint", corner)),
        labour=site.rated(site.driven("sealant", (*ids(tiled), room.name), "m"), "rate-sealant"),
    )
    chain.sealed = op
    chain.pass_through(op)


def _grouts(chain: Chain) -> tuple[Operation, ...]:
    return tuple({op.id: op for op in chain.grouted.values()}.values())


def _grout_of(op: Operation) -> Product | None:
    return next(iter(op.products), None)


def water_links(chain: Chain) -> tuple[Link, ...]:
    """What must be firm before the outlets are run: where water runs over the tiles, as long as the grout's sheet asks for."""
    site = chain.site
    to = "water" if chain.room is not None and features.runs_over_tiles(chain.room) else "sealing"
    links = [on(g, wait.after_grout(_grout_of(g), to, site)) for g in _grouts(chain)]
    if chain.sealed is not None:
        sealant = next((p for p in chain.sealed.products if p.kind == "sealant"), None)
        links.append(on(chain.sealed, wait.after_sealant(sealant, site)))
    return tuple(links)


def impregnate(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    wanted = tuple(s for s in features.surfaces(room) if s.product("impregnator") is not None)
    if not wanted:
        return
    products = products_of(wanted, "impregnator")
    links = [on(g, wait.after_grout(_grout_of(g), "impregnating", site)) for g in _grouts(chain)]
    if chain.sealed is not None:
        sealant = next((p for p in chain.sealed.products if p.kind == "sealant"), None)
        links.append(on(chain.sealed, wait.after_sealant(sealant, site)))
    chain.pass_through(chain.make(
        "impregnate", "impregnating", ids(wanted), after=chain.also(*links), products=products, facts=resin_flags(products),
        labour=site.rated(site.area(wanted), "rate-impregnate"),
    ))
