"""What a word means, and what follows from what it names."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.diagnostics.catalogue import UnknownDiagnostic, explain
from tilespec.editor import figures
from tilespec.editor.desk import Desk
from tilespec.editor.names import PRODUCT, ROOM, TILE, WALL, mentions, named, target
from tilespec.editor.reference import Entry, description, entry, sentences, statement
from tilespec.editor.slots import item_of, slot_of
from tilespec.editor.spot import Spot, room_of
from tilespec.job.header import sizes_in_mm
from tilespec.job.meaning import meaning as class_meaning
from tilespec.job.types import Product, Room, Surface
from tilespec.quantity.read import read
from tilespec.source import Span
from tilespec.syntax.nodes import Statement
from tilespec.syntax.words import PRODUCTS
from tilespec.takeoff.types import TakeOff
from tilespec.vocabulary import BASE_WORDS, BASES, PATTERNS_OF_PLANES


@dataclass(frozen=True, slots=True)
class Told:
    """Plain text, and the words it is about."""

    span: Span
    text: str


def hover(desk: Desk, spot: Spot) -> Told | None:
    said: list[str] = []
    st = spot.statement
    span = Span(spot.file, spot.start, spot.end)
    if st is None:
        return None
    takeoff = figures.takeoff_of(spot.page)
    said += _named(desk, spot, takeoff)
    if spot.atom is not None and spot.atom.kind in ("quantity", "per"):
        number = _number(spot, st)
        if number:
            return Told(spot.page.back(st.span(spot.atom)), number)
    said += _surface(spot, st, takeoff)
    if spot.atom is not None and spot.attribute is not None and spot.attribute.kind in ("class", "barefoot", "slip"):
        said += _class(spot, st)
    if st.kind == "deviation" and st.args and spot.atom is st.args[0]:
        said += [*_rule(spot.word), *figures.silenced(spot.page, st.span(spot.atom))]
    if spot.attribute is not None and spot.attribute.kind == "base":
        words = " ".join(a.text.lower() for a in spot.attribute.args)
        key = next((k for words_of, k in BASES.items() if words_of == words), None)
        if key is not None and key.replace("-", " ") != words:
            said.append(f"Read as {key.replace('-', ' ')}.")
    head = spot.start == spot.seated.offset(st.base)
    if head:
        said.append(statement(spot.word))
    row = explained(spot, st) if not head or spot.word not in PRODUCTS else None
    if row is not None:
        # Of a statement's own name it is no news what happens without, nor how another is called.
        own = spot.attribute is None
        said += [*([] if own else [row.cell]), *sentences(row, silent=not own)]
    said = [s for s in dict.fromkeys(said) if s]
    return Told(span, "\n\n".join(said)) if said else None


def explained(spot: Spot, st: Statement) -> Entry | None:
    """The row about the word under the cursor: that of its own statement, item and attribute."""
    if not spot.word:
        return None
    attribute, kind = spot.attribute, st.kind
    thing = st.args[0].text if kind == "product" and st.args else kind
    sized = any(a.kind == "quantity" for a in st.args) or any(a.kind == "size" for line in st.lines for a in line.attributes)
    item = item_of(st, attribute) if attribute is not None else ""
    if kind == "tile" and not sized:
        item = "tile"    # how the tile of a room is laid
    named = spot.atom is not None and spot.atom.kind == "name"
    if attribute is None:
        if named and (kind == "product" and spot.atom not in st.args[:2] or kind == "tile" and spot.atom is not st.args[0]):
            return description(kind, "", spot.word, thing)
        if kind == "product" or kind == "tile" and sized:
            return None    # its name
        return entry(kind, "", kind, spot.word)
    begin = spot.seated.offset(st.base + attribute.start)
    if attribute.kind == "words" or attribute.kind in ("size", "fall") and named:
        word = "back and forth" if spot.word in ("back", "and", "forth") else spot.word
        if attribute.kind == "fall":
            word = " ".join(a.text for a in attribute.args if a.kind == "name" and a.text in PATTERNS_OF_PLANES)
        return description(kind, attribute.kind if attribute.kind == "fall" else item, word, thing)
    if attribute.kind == "base" and spot.word in BASE_WORDS:
        return description(kind, "base", spot.word)
    written = spot.text[begin : spot.seated.offset(st.base + attribute.end - 1) + 1]
    return entry(kind, item, attribute.kind, written, thing)


def _named(desk: Desk, spot: Spot, takeoff: TakeOff | None) -> list[str]:
    m = named(spot)
    look = spot.page.look
    if m is None or look is None:
        return []
    if m.what == TILE:
        tile = next((t for t in look.job.tiles if t.name == m.name), None)
        if tile is None:
            return []
        return [f"tile {m.name}: {figures.size_words(tile)}", figures.order_words(m.name, takeoff) if takeoff else ""]
    if m.what == PRODUCT:
        kind, _, name = m.name.partition(" ")
        product = next((p for p in (*look.job.declared, *look.job.products) if (p.kind, p.name) == (kind, name)), None)
        return [m.name, *figures.product_words(product, takeoff)] if isinstance(product, Product) else []
    if m.what == ROOM:
        room = next((r for r in look.job.rooms if r.name == m.name), None)
        return _room(room, takeoff) if room is not None else []
    if m.what == WALL and takeoff is not None:
        room = next((r for r in look.job.rooms if r.name == m.room), None) or (look.job.rooms[0] if look.job.rooms else None)
        surface = room.surface(m.name) if room is not None else None
        meant = target(mentions(spot.page), m)
        if surface is not None and surface.coverings and meant is not None:
            return [f"wall {m.name}: {figures.surface_words(surface, takeoff)}"]
    return []


def _room(room: Room, takeoff: TakeOff | None) -> list[str]:
    walls = ", ".join(f"{w.letter} {float(w.length.value):g} m" for w in room.walls)
    said = [f"{room.name}: walls {walls}; {float(room.height.value):g} m high."]
    if takeoff is not None:
        said += [f"{s.title}: {figures.surface_words(s, takeoff)}" for s in room.surfaces if s.coverings]
    return said


def _surface(spot: Spot, st: Statement, takeoff: TakeOff | None) -> list[str]:
    """What follows from the floor or the wall, on its own word; from the heating, on that."""
    look = spot.page.look
    if takeoff is None or look is None:
        return []
    name = room_of(spot.seated, st)
    room = next((r for r in look.job.rooms if r.name == name), look.job.rooms[0] if look.job.rooms else None)
    if room is None:
        return []
    head = spot.start == spot.seated.offset(st.base)
    surface: Surface | None = None
    if head and st.kind == "floor":
        surface = room.floor
    elif head and st.kind == "wall" and st.args:
        surface = room.surface(st.args[0].text)
    said = [figures.surface_words(surface, takeoff)] if surface is not None and surface.coverings else []
    if spot.word in ("heating", "heated") and room.heating is not None:
        said.append(figures.heating_words(room.name, room.heating, takeoff))
    return said


def _class(spot: Spot, st: Statement) -> list[str]:
    assert spot.attribute is not None and spot.page.look is not None
    text = " ".join(a.text for a in spot.attribute.args)
    found = class_meaning(text, spot.page.look.practice)
    if found is None:
        return []
    return [f"{found.written} ({found.standard}): " + "; ".join(f"{p.letters} {p.words}" for p in found.parts) + "."]


def _rule(name: str) -> list[str]:
    try:
        entry = explain(name)
    except UnknownDiagnostic:
        return []
    return [f"{entry.code} {entry.name}: {entry.title}.", entry.explanation.split("\n\n")[0].replace("\n", " ")]


def _number(spot: Spot, st: Statement) -> str:
    assert spot.atom is not None
    mm = spot.page.look is not None and sizes_in_mm(spot.page.look.workspace.trees[0].statements)
    slot = slot_of(st, spot.attribute, spot.atom, mm)
    if slot is None:
        return ""
    try:
        reading = read(spot.atom.text)
    except ValueError:
        return ""
    read_in = slot.unit.symbol if reading.unit is None and slot.unit.symbol not in ("count", "year", "", "slope") else ""
    return f"{slot.words[:1].upper()}{slot.words[1:]}{', read in ' + read_in if read_in else ''}."
