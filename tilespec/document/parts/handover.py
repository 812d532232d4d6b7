"""Part 11: what the client needs to know: when it can be used, how to look after it, where never to drill."""

from __future__ import annotations

from tilespec.document.model import HandOverPart, NoDrill, UseWait
from tilespec.document.parts.view import View, named
from tilespec.job.types import Room, Surface


def hand_over(view: View) -> HandOverPart:
    last = [op for op in view.sequence.operations if op.stage == "hand-over"]
    waits = tuple(
        UseWait(link.wait.why, link.wait.minimum, view.number(link.operation), until)
        for op in last
        for link in op.after
        if link.wait is not None
        for until in [
            next((view.moment(p.until) for p in view.programme.pauses if (p.after, p.before) == (link.operation, op.id)), None)
        ]
    )
    values = tuple({v.name: v for op in last for v in named(op.values)}.values())
    facts = [f for op in last for f in op.facts]
    for room in view.job.rooms:
        facts += ["drain"] * bool(room.drains) + ["bath"] * bool(room.baths)
        facts += ["mirror" for s in room.surfaces for f in s.fittings if f.kind == "mirror"]
    products = view.job.products
    facts += ["stone" for t in view.job.tiles if t.stone or t.porous]
    no_drill = tuple(
        NoDrill(view.place(s.id), reasons) for room in view.job.rooms for s in room.surfaces if (reasons := _behind(room, s))
    )
    return HandOverPart(
        waits,
        no_drill,
        values,
        tuple(dict.fromkeys(facts)),
        tuple(view.tile(t) for t in view.job.tiles),
        tuple(view.product(p) for p in products if p.kind in ("grout", "sealant", "impregnator", "sealer", "heating")),
    )


def _behind(room: Room, s: Surface) -> tuple[str, ...]:
    """What a drill would meet, as wording keys."""
    reasons = []
    if room.heating is not None and s.kind == "floor":
        reasons.append("heating")
    if room.heating is not None and s.letter and s.letter == room.heating.sensor_wall:
        reasons.append("sensor")
    if s.membrane_areas and s.refusal("membrane") is None:
        reasons.append("membrane")
    if any(p.kind in ("pipe", "valve", "outlet", "shower head") for p in s.penetrations):
        reasons.append("pipes")
    if any(p.kind == "socket" for p in s.penetrations):
        reasons.append("cables")
    return tuple(reasons)
