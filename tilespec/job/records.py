"""Steps of other trades, deviations and records: what the spec says about named places."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from tilespec.diagnostics.model import Label
from tilespec.job.context import Context, Parts
from tilespec.job.parts import LABELLED, take_apart
from tilespec.job.product import thicknesses
from tilespec.job.slot import SLOTS
from tilespec.job.types import Delivery, Deviation, Note, Record, Room, Tile, TradeStep, Words
from tilespec.quantity import Given, Quantity, work
from tilespec.quantity.read import read
from tilespec.quantity.unit import UNITS, Kind
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.vocabulary import RECORD_CHAINS, RECORDS


def _find_room(st: Statement, parts: Parts, rooms: tuple[str, ...], context: Context) -> str | None:
    """The room a statement names; the only one where none is named. "" when it was named wrongly (reported)."""
    for kind in ("in_room", "on_room", "on_room_wall", "on_room_floor"):
        a = parts.get(kind)
        if a is None:
            continue
        name = a.args[0]
        if name.text in rooms:
            return name.text
        span = st.span(name)
        inner = Span(span.file, span.start + 1, span.end - 1)
        context.unknown(
            "unknown-room",
            inner,
            f'There is no room "{name.text}".',
            name.text,
            rooms,
            "Rooms are: " + ", ".join(f'"{r}"' for r in rooms) + ".",
        )
        return ""
    return rooms[0] if len(rooms) == 1 else None


def step(st: Statement, rooms: tuple[str, ...], context: Context) -> TradeStep | None:
    parts = take_apart(st, context)
    by, after, before, takes = parts.get("by"), parts.get("after"), parts.get("before"), parts.get("takes")
    if not st.args:
        return None
    if by is None:
        context.report(
            "missing-detail", st.span(), "It is not said who does this step.", help="Add it, for example `by glazier`."
        )
        return None
    if after is None and before is None:
        context.report(
            "missing-detail",
            st.span(),
            "It is not said when this step comes.",
            help="Add `after sealing` or `before membrane`, for example.",
        )
        return None
    room = _find_room(st, parts, rooms, context)
    if room == "":
        return None

    def phrase(a: Attribute | None) -> Words | None:
        return Words(" ".join(x.text.lower() for x in a.args), st.span(a.args[0]).to(st.span(a.args[-1]))) if a else None

    return TradeStep(
        context.words(st, st.args[0]),
        context.words(st, by.args[0]),
        phrase(after),
        phrase(before),
        context.number(st, takes.args[0], "takes") if takes else None,
        room,
        st.span(),
    )


def _place(st: Statement, parts: Parts, names: tuple[str, ...], rooms: list[Room], context: Context) -> str | None:
    """A surface id or a room's name. `names` are all rooms of the spec, also those that could not be built."""
    room = _find_room(st, parts, names, context)
    if room == "":
        return None
    wall = parts.get("on_wall") or parts.get("on_room_wall")
    floor = parts.get("on_floor") or parts.get("on_room_floor")
    if room is None:
        context.report(
            "place-needed",
            st.span(),
            "There are several rooms: it is not clear which one is meant.",
            help='Name it in full, for example `on "' + (names[0] if names else "Bathroom") + '" floor`.',
        )
        return None
    if wall is not None:
        letter = wall.args[-1]
        found = next((r for r in rooms if r.name == room), None)
        if found is None:
            return None  # the room was reported
        if found.surface(letter.text) is None and context.unread:
            return None  # it may be the statement that could not be read
        if found.surface(letter.text) is None:
            known = tuple(s.letter for s in found.wall_surfaces)
            context.unknown_wall(
                st.span(letter),
                f"Nothing is said of a wall {letter.text} in {room}.",
                letter.text,
                known,
                "Walls said are: " + ", ".join(known) + ".",
            )
            return None
        return f"{room}/wall {letter.text}"
    return f"{room}/floor" if floor is not None else room


def deviation(st: Statement, names: tuple[str, ...], rooms: list[Room], context: Context) -> Deviation | None:
    parts = take_apart(st, context)
    because = parts.get("because")
    if because is None:
        context.report(
            "missing-detail",
            st.span(),
            "A deviation needs a reason.",
            help='Add it: `because "agreed by the client, 2026-02-20"`.',
        )
        return None
    if not because.args[0].text.strip(" ."):
        context.report(
            "missing-detail",
            st.span(because),
            "The reason of this deviation is still to be written.",
            help='Say who agreed and why, for example `because "matches the hall, agreed with the client"`.',
        )
        return None
    place = _place(st, parts, names, rooms, context)
    if place is None or not st.args:
        return None
    return Deviation(context.words(st, st.args[0]), place, context.words(st, because.args[0]), st.span())


def record(st: Statement, names: tuple[str, ...], rooms: list[Room], context: Context) -> Record | None:
    if not st.args:
        return None
    kind = st.args[0]
    parts = take_apart(st, context)
    if kind.text not in RECORDS:
        context.unknown("unknown-record", st.span(kind), f"There is no record of `{kind.text}`.", kind.text, RECORDS)
        return None
    on, by = parts.get("on_date"), parts.get("by")
    if on is None or by is None:
        lacks = "the day" if on is None else "who signed"
        context.report(
            "missing-detail",
            st.span(),
            f"The record does not say {lacks}.",
            help='Write it in full: `record membrane on "Shower room" floor 2026-03-11 by "name"`.',
        )
        return None
    place = _place(st, parts, names, rooms, context)
    day = context.day(st, on.args[0])
    if place is None or day is None:
        return None
    a, d, result = parts.get("reading"), parts.get("depth"), parts.get("result")
    reading = _reading(st, kind.text, a.args[0], context) if a is not None else None

    def number(name: str) -> Quantity | None:
        said = parts.get(name)
        return context.number(st, said.args[0], name) if said else None

    work_by = parts.get("work_by")
    outcome = None
    if result is not None:
        outcome = result.args[0].text.lower()
        if outcome not in ("pass", "fail"):
            context.unknown("unknown-choice", st.span(result.args[0]), f"A result is not `{outcome}`.", outcome, ("pass", "fail"))
            outcome = None
    return Record(
        context.words(st, kind),
        place,
        day,
        context.words(st, by.args[0]),
        reading,
        context.number(st, d.args[0], "depth") if d else None,
        outcome,
        st.span(),
        number("over"),
        number("samples"),
        number("lasted"),
        number("fell"),
        context.words(st, work_by.args[0]) if work_by else None,
    )


# What is read at each kind of record: the slot that its number is read in.
READ_IN = {
    "substrate-flatness": "gap", "substrate-strength": "strength", "membrane-thickness": "film", "ponding": "water-depth",
    "contact": "contact", "lippage": "gap", "finished-plane": "gap", "heating-before": "resistance",
    "heating-cover": "resistance", "heating-after": "resistance", "insulation-before": "insulation",
    "insulation-cover": "insulation", "insulation-after": "insulation",
}


def _by_method(number: Fraction) -> Iterator[str]:
    """The ways to write a moisture reading that it can have been: whoever read it knows which of them it was."""
    for slot in (SLOTS["moisture"], SLOTS["humidity"]):
        if slot.low <= number * slot.unit.factor <= slot.high:
            yield f"{float(number):g} {slot.unit.symbol}"


def _reading(st: Statement, kind: str, text: Atom, context: Context) -> Quantity | None:
    """The reading of a record, in the unit of what is read there; any unit where nothing in particular is."""
    if kind in READ_IN:
        return context.number(st, text, READ_IN[kind])
    try:
        r = read(text.text)
    except ValueError:
        context.report(
            "bad-number",
            st.span(text),
            f"`{text.text}` is not a number that can be read.",
            help="Write a number and its unit.",
        )
        return None
    if kind != "substrate-moisture":
        u = r.unit or UNITS[""]
        return Quantity(r.number * u.factor + u.offset, u.kind, u, Given(st.span(text)))
    if r.unit is None or r.unit.symbol == "%":
        context.report(
            "record-unit",
            st.span(text),
            f"`{text.text}` does not say by which method it was read.",
            help="Write the unit of the method: `1.6 CM%` (carbide method) or `72 %RH` (hygrometer).",
            fixes=tuple(fix for written in _by_method(r.number) for fix in context.write(st.span(text), written)),
        )
        return None
    return context.number(st, text, "humidity" if r.unit.kind is Kind.HUMIDITY else "moisture")


def measured(tile: Tile, found: Delivery) -> Tile:
    """The tile at the size it came in: the middle of what was measured, where the spec itself says no work size."""
    if tile.work_width is not None or found.width is None or found.height is None:
        return tile
    width, height = (
        work("(least + most) / 2", "mm", source="middle of the measured sizes", least=low, most=high)
        for low, high in (found.width, found.height)
    )
    return replace(tile, work_width=width, work_height=height)


def delivery(st: Statement, tiles: dict[str, Tile], context: Context) -> Delivery | None:
    """What came of one tile."""
    if not st.args:
        return None
    name, parts = st.args[0], take_apart(st, context)
    tile = tiles.get(name.text)
    if tile is None:
        listed = "Declared are: " + ", ".join(tiles) + "." if tiles else ""
        context.unknown("unknown-tile", st.span(name), f"There is no tile `{name.text}`.", name.text, tuple(tiles), listed)
        return None

    def words(kind: str) -> Words | None:
        a = parts.get(kind)
        return context.words(st, a.args[0]) if a else None

    def sides(kind: str) -> tuple[Quantity, Quantity] | None:
        a = parts.get(kind)
        return thicknesses(st, a, context, "tile-side") if a else None

    on, warp = parts.get("on_date"), parts.get("warp")
    width, height = sides("measured_width"), sides("measured_height")
    if width is not None and abs(width[0].value - tile.width.value) > abs(width[0].value - tile.height.value):
        # Written in the order of the size, and the tile is laid the other way round.
        width, height = height, width
    return Delivery(
        tile,
        context.day(st, on.args[0]) if on else None,
        words("shade"),
        words("caliber"),
        width,
        height,
        context.number(st, warp.args[0], "warp") if warp else None,
        st.span(),
    )


def notes(st: Statement) -> tuple[Note, ...]:
    """The notes of a statement, in order."""
    about = " ".join(dict.fromkeys((st.kind if st.kind != "product" else "", *(a.text for a in st.args)))).strip()
    found: list[Note] = []
    for line in st.lines:
        labelled = False
        for a in line.attributes:
            labelled = labelled or a.kind in LABELLED
            if a.kind == "note" and a.args and not labelled:
                found.append(Note(Words(about, st.span()), Words(a.args[0].text, st.span(a.args[0]))))
    return tuple(found)


@dataclass(slots=True)
class RecordOrder:
    """Records of one surface (or of it and its whole room) must be dated in the order in which the work can be signed."""

    context: Context

    def check(self, records: tuple[Record, ...]) -> None:
        of_room: dict[str, list[Record]] = {}
        for r in records:
            of_room.setdefault(r.place.partition("/")[0], []).append(r)
        for later in records:
            for earlier in of_room[later.place.partition("/")[0]]:
                if earlier.on <= later.on or not meet(earlier.place, later.place):
                    continue
                if not before(earlier.kind.text, later.kind.text):
                    continue
                # Read or signed once more, after what comes before it: the last one counts.
                again = (r for r in records if r.kind.text == later.kind.text and meet(r.place, later.place))
                if not any(r.on >= earlier.on for r in again):
                    self.context.report(
                        "record-out-of-order",
                        later.span or later.kind.span,
                        f"`{later.kind.text}` is signed on {later.on}, before `{earlier.kind.text}` on {earlier.on}.",
                        help="What is covered was signed after its cover: correct a date, or look again.",
                        secondary=(Label(earlier.span, "this comes first in the work"),) if earlier.span else (),
                    )


def meet(one: str, other: str) -> bool:
    """Whether both records are about the same surface: a room's are about all of its own."""
    return one == other or one.startswith(other + "/") or other.startswith(one + "/")


def before(first: str, second: str) -> bool:
    """Whether work of the first kind is signed before work of the second."""
    return any(first in chain and second in chain and chain.index(first) < chain.index(second) for chain in RECORD_CHAINS)
