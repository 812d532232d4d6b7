"""Parts 3 and 4: what to order, how to mix it, and what to work with."""

from __future__ import annotations

from tilespec.document.model import HeatingRow, MaterialRow, MaterialsPart, MissingRow, MixRow, NotchRow, SawRow, Share, ToolsPart
from tilespec.document.parts.view import View
from tilespec.document.text import Said
from tilespec.job.types import Product, Tile
from tilespec.takeoff.types import HeatingMeasure, Line


def materials(view: View) -> MaterialsPart:
    takeoff = view.takeoff
    return MaterialsPart(
        tuple(_line(view, line) for line in takeoff.lines),
        tuple(MissingRow(m.kind, Said(m.name), m.lacks, view.places(m.places)) for m in takeoff.missing),
        tuple(
            MixRow(
                view.product(m.product),
                m.pack,
                m.water,
                m.maturing,
                m.pot_life,
                m.within_pot_life,
                m.mixes,
                m.share,
                m.powder,
                m.mix_water,
            )
            for m in takeoff.mixes
        ),
        tuple(row for h in takeoff.heating if (row := _heating(view, h)) is not None),
    )


def _line(view: View, line: Line) -> MaterialRow:
    return MaterialRow(
        line.kind,
        line.role,
        Said(line.name),
        view.product(line.item) if isinstance(line.item, Product) else None,
        view.tile(line.item) if isinstance(line.item, Tile) else None,
        tuple(Share(view.short_place(p.place), p.role, p.measure, p.net) for p in line.parts),
        line.net,
        line.allowance,
        line.gross,
        line.pack,
        line.packs,
        line.weight,
        line.pieces,
        line.whole,
        line.cut,
        line.left,
    )


def _heating(view: View, h: HeatingMeasure) -> HeatingRow | None:
    room = next(r for r in view.job.rooms if r.name == h.room)
    if room.heating is None:
        return None
    return HeatingRow(
        Said(h.room),
        view.product(room.heating.product),
        room.heating.kind,
        h.free_area,
        h.power,
        h.current,
        h.resistance,
        h.resistance_low,
        h.resistance_high,
    )


def tools(view: View) -> ToolsPart:
    notches = tuple(
        NotchRow(view.short_place(n.place), Said(n.tile), n.notch, n.bed, n.back_butter, n.contact) for n in view.takeoff.notches
    )
    kinds = tuple(dict.fromkeys(op.kind for op in view.sequence.operations))
    facts = tuple(dict.fromkeys(f for op in view.sequence.operations for f in op.facts))
    sawing = tuple(SawRow(view.tile(w.tile), w.length, w.time) for w in view.takeoff.sawing)
    return ToolsPart(notches, sawing, kinds, facts)
