"""What goes onto finished tiles: mirror, protection, second fix with its leak test, fittings."""

from __future__ import annotations

from tilespec.job.types import Fitting, Surface
from tilespec.quantity import counted
from tilespec.sequence import features, wait
from tilespec.sequence.sealing import water_links
from tilespec.sequence.site import Chain, ids, on, products_of, tiles_of, with_membrane
from tilespec.sequence.types import Link, Operation, Point, Test
from tilespec.setout import geometry


def fix_mirrors(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    walls = features.mirrors(room)
    if not walls:
        return
    found = [f for s in walls for f in s.fittings if f.kind == "mirror"]
    chain.pass_through(chain.make(
        "fix-mirror", "fixing", ids(walls), products=products_of(walls, "mirror-adhesive"),
        values=(("bead-spacing", site.limit("mirror-bead-spacing")), ("bead-edge", site.limit("mirror-bead-edge"))),
        facts=("stone",) if any(t.stone for s in walls for t in tiles_of(s)) else (),
        labour=site.timed("time-mirror", counted(len(found), "mirrors", *(f.span for f in found if f.span))),
    ))


def protect(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    facts = [fact for fact, here in (
        ("floor", features.floor(room) is not None), ("bath", bool(room.baths)), ("tray", any(s.tray for s in room.showers)),
    ) if here]
    chain.pass_through(chain.make(
        "protect-finished", "protection", (room.name,), facts=tuple(facts), labour=site.timed("time-protect-finished"),
    ))


def second_fix(chain: Chain) -> None:
    """Plumbing with its leak test, electrics, and what is screwed through tiles: side by side."""
    site, room = chain.site, chain.room
    assert room is not None
    leaves: list[Operation] = []
    pipes = features.plumbing(room)
    if pipes is not None:
        fixed = chain.make(
            "second-fix-plumbing", "second-fix", (room.name,), trade="plumber", facts=("drain",) if room.drains else (),
            labour=site.timed("time-second-fix-plumbing", pipes),
        )
        leaves.append(chain.make(
            "leak-test", "second-fix", (room.name,), trade="plumber", after=(on(fixed), *water_links(chain)),
            point=Point(
                "hold", "licensed plumber", (Test("joints-dry"), Test("waste-runs")),
                site.signed("leak-test", room.name, (room.name,)),
            ),
            labour=site.timed("time-leak-test"),
        ))
    sockets, heated = features.sockets(room), features.electric_heating(room)
    if sockets is not None or heated:
        facts = (("sockets",) if sockets is not None else ()) + (("heating",) if heated else ())
        leaves.append(chain.make(
            "second-fix-electrics", "second-fix", (room.name,), trade="electrician", facts=facts,
            values=(("rcd", site.limit("rcd-max")),),
            labour=site.timed("time-second-fix-electrics", sockets),
        ))
    walls = features.fixed_through_tiles(room)
    if walls:
        found = [f for s in walls for f in s.fittings if f.kind == "fitting" and not features.plumbed(f)]
        leaves.append(chain.make(
            "fix-fittings", "second-fix", ids(walls), facts=_fixed_how(walls),
            labour=site.timed("time-fitting", counted(len(found), "fittings", *(f.span for f in found if f.span))),
        ))
    if leaves:
        chain.pass_through(*leaves)


def _fixed_how(walls: tuple[Surface, ...]) -> tuple[str, ...]:
    """Whether holes go through the membrane, and through it where water comes: what is glued makes none."""
    found = [(s, f) for s in walls for f in s.fittings if f.kind == "fitting" and not features.plumbed(f)]
    pierced = [(s, f) for s, f in found if not f.glued and with_membrane(s)]
    return tuple(fact for fact, here in (
        ("screwed", any(not f.glued for _, f in found)),
        ("glued", any(f.glued for _, f in found)),
        ("membrane", bool(pierced)),
        ("wetted", any(_wetted(s, f) for s, f in pierced)),
    ) if here)


def _wetted(surface: Surface, fitting: Fitting) -> bool:
    here = geometry.box(fitting.rect)
    return any(
        z.exposure in ("shower", "bath") and (z.rect is None or geometry.box(z.rect).meets(here)) for z in surface.zones
    )


def mirror_links(chain: Chain) -> tuple[Link, ...]:
    """A mirror is held until its adhesive has set."""
    site = chain.site
    return tuple(
        on(op, wait.after_mirror(next(iter(op.products), None), site)) for op in chain.operations if op.kind == "fix-mirror"
    )
