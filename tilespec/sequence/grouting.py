"""Joints cleared, porous tiles sealed, and grout: walls before the floor where they differ."""

from __future__ import annotations

from tilespec.job.types import Product, Surface
from tilespec.sequence import features, wait
from tilespec.sequence.site import Chain, ids, largest, merge, on, products_of, resin_grout, smallest, tiles_of
from tilespec.sequence.types import Link, Operation


def clear_joints(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    tiled = features.surfaces(room)
    # Spacers and wedges hold until the adhesive does.
    chain.pass_through(chain.make(
        "clear-joints", "grouting", ids(tiled), after=chain.also(*_laid(chain, tiled, "grouting")),
        facts=("corners",) if _corners(chain) else (),
        labour=site.rated(site.area(tiled), "rate-clear-joints"),
    ))


def _corners(chain: Chain) -> bool:
    """Some joint between two tiled surfaces has to stay free of adhesive and grout."""
    room = chain.room
    assert room is not None
    walls = {s.letter for s in features.walls(room)}
    return (features.floor(room) is not None and bool(walls)) or any({c.before, c.after} <= walls for c in room.corners)


def seal_porous(chain: Chain) -> None:
    """Stone and other porous tiles take a sealer first, so that grout does not stain them."""
    site, room = chain.site, chain.room
    assert room is not None
    porous = tuple(s for s in features.surfaces(room) if any(t.porous for t in tiles_of(s)))
    if not porous:
        return
    sealers = products_of(porous, "sealer")
    op = chain.make(
        "seal-porous", "grouting", ids(porous), after=chain.also(*_laid(chain, porous, "sealing")), products=sealers,
        facts=resin_flags(sealers), labour=site.rated(site.area(porous), "rate-seal-porous"),
    )
    chain.pass_through(op, wait=wait.after_sealer(next(iter(sealers), None), site))


def _laid(chain: Chain, members: tuple[Surface, ...], to: str) -> tuple[Link, ...]:
    return merge(tuple(
        on(op, wait.after_laying(s, to, chain.site)) for s in members for op in chain.tiled.get(s.id, ())
    ))


def resin_flags(products: tuple[Product, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f for p in products for f in p.flags if f in ("solvent", "epoxy", "polyurethane")))


def grout(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    groups: dict[tuple[str, ...], tuple[tuple[Product, ...], list[Surface]]] = {}
    for s in (*features.walls(room), *((f,) if (f := features.floor(room)) else ())):
        used = products_of((s,), "grout")
        groups.setdefault(tuple(p.name for p in used), (used, []))[1].append(s)
    done: list[Operation] = []
    for used, on_these in groups.values():
        members = tuple(on_these)
        joints = tuple(c.joint for s in members for c in s.coverings)
        first = used[0] if used else None
        facts = ["resin" if any(resin_grout(p) for p in used) else "cement"]
        facts += [fact for fact, here in (
            ("walls", any(s.kind == "wall" for s in members)),
            ("floor", any(s.kind == "floor" for s in members)),
            ("mosaic", any(t.mosaic for s in members for t in tiles_of(s))),
            ("stone", any(t.stone for s in members for t in tiles_of(s))),
            ("two-grouts", len(used) > 1),
        ) if here]
        mosaic = all(t.mosaic for s in members for t in tiles_of(s))
        op = chain.make(
            "grout", "grouting", ids(members), after=chain.also(*_laid(chain, members, "grouting"), *(on(d) for d in done[-1:])),
            products=used, facts=tuple(facts), part="" if len(groups) == 1 else "/".join(s.letter or "floor" for s in members),
            values=(
                ("maturing", (first.maturing if first else None) or (None if "resin" in facts else site.limit("grout-maturing"))),
                ("pot-life", first.pot_life if first else None), ("joint", smallest(joints)),
                ("joint-widest", widest if (widest := largest(joints)) != smallest(joints) else None),
            ),
            labour=site.rated(site.area(members), "rate-grout-mosaic" if mosaic else "rate-grout"),
        )
        for s in members:
            chain.grouted[s.id] = op
        done.append(op)
    chain.pass_through(*done)
