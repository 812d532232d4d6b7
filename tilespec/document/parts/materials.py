"""Parts 3 and 4: what to order, how to mix it, and what to work with."""

from __future__ import annotations

from tilespec.document.model import (
    AskRow,
    HeatingRow,
    LeastRow,
    MaterialRow,
    MaterialsPart,
    MissingRow,
    MixRow,
    NotchRow,
    SawRow,
    Share,
    ToolsPart,
    Where,
    WhyRow,
)
from tilespec.document.parts.view import View
from tilespec.document.text import Said
from tilespec.job.suitability import Suit, suitability
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
        _why(view),
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


def _why(view: View) -> tuple[WhyRow, ...]:
    """Places that ask the same of a product stand together, whatever wets each of them."""
    grouped: dict[tuple[object, ...], list[Suit]] = {}
    for s in suitability(view.job, view.practice):
        asked = tuple((a.word.text, a.word.why.key, a.over) for a in s.asks)
        grouped.setdefault((s.kind, s.product.name, asked, s.least, s.fit), []).append(s)
    kinds = ("adhesive", "grout", "membrane", "sealant")
    return tuple(_suits(view, same) for same in sorted(grouped.values(), key=lambda same: kinds.index(same[0].kind)))


def _suits(view: View, same: list[Suit]) -> WhyRow:
    first = same[0]
    asks = tuple(
        AskRow(tuple(dict.fromkeys(b for s in same for b in s.asks[n].because)), ask.word, ask.over)
        for n, ask in enumerate(first.asks)
    )
    return WhyRow(
        first.kind,
        view.product(first.product),
        tuple(dict.fromkeys(Said(s.tile) for s in same if s.tile)),
        _places(view, tuple(dict.fromkeys(s.place for s in same))),
        asks,
        tuple(LeastRow(x.what, x.limit, x.fit) for x in first.least),
        first.fit,
    )


def _places(view: View, ids: tuple[str, ...]) -> tuple[Where, ...]:
    """Short, also where there is one: what else is in the place says nothing here."""
    return (Where(view.short_place(ids[0]), None, False, ()),) if len(ids) == 1 else view.where(ids)


def tools(view: View) -> ToolsPart:
    notches = tuple(
        NotchRow(view.short_place(n.place), Said(n.tile), n.notch, n.bed, n.back_butter, n.contact) for n in view.takeoff.notches
    )
    kinds = tuple(dict.fromkeys(op.kind for op in view.sequence.operations))
    facts = tuple(dict.fromkeys(f for op in view.sequence.operations for f in op.facts))
    sawing = tuple(SawRow(view.tile(w.tile), w.length, w.time, w.snap, w.saw, w.shaped, w.holes) for w in view.takeoff.sawing)
    return ToolsPart(notches, sawing, kinds, facts)
