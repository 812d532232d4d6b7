"""Marking what stays untiled, datum and plumb lines, dry layout, and the sample area that others accept."""

from __future__ import annotations

from tilespec.quantity import counted
from tilespec.sequence import features
from tilespec.sequence.site import Chain, ids, looked_at
from tilespec.sequence.types import Point


def set_out(chain: Chain) -> None:
    site, room = chain.site, chain.room
    assert room is not None
    tiled = features.surfaces(room)
    untiled = features.untiled_places(room)
    if untiled is not None:
        with_places = tuple(s for s in tiled if s.untiled)
        chain.pass_through(chain.make(
            "mark-untiled", "set-out", ids(with_places), labour=site.timed("time-mark-untiled", untiled),
        ))
    facts = [fact for fact, here in (
        ("walls", any(s.kind == "wall" for s in tiled)),
        ("floor", any(s.kind == "floor" for s in tiled)),
        ("membrane", any(s.membrane_areas and s.product("membrane") for s in tiled)),
        ("drain", bool(room.drains) and features.floor(room) is not None),
        ("bands", any(c.role != "field" for s in tiled for c in s.coverings)),
    ) if here]
    chain.pass_through(chain.make(
        "set-out", "set-out", ids(tiled), values=(("datum", room.levels.datum),), facts=tuple(facts),
        labour=site.timed("time-set-out", counted(len(tiled), "surfaces", *(s.span for s in tiled if s.span))),
    ))
    chain.pass_through(chain.make(
        "sample-area", "set-out", ids(tiled),
        point=Point("witness", "client", looked_at("sample-layout", "sample-look", "sample-lippage")),
        labour=site.timed("time-sample-area"),
    ))
