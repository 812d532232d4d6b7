"""What can stand where the cursor is: words of the language, by the grammar and by what they may say something about; words of
the trade; names of this job; units."""

from __future__ import annotations

import os.path
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tilespec import vocabulary as known
from tilespec.checks import RULES
from tilespec.checks.rule import QUALITY
from tilespec.editor.desk import Desk, Page
from tilespec.editor.names import PRODUCT, ROOM, TILE, WALL, mentions
from tilespec.editor.reference import meaning, statement
from tilespec.editor.slots import slot_of, slot_of_kind
from tilespec.editor.spot import Before, before, room_of, words_of
from tilespec.job.header import sizes_in_mm
from tilespec.job.schema import ITEMS
from tilespec.job.schema import STATEMENTS as SCHEMA
from tilespec.practice.lookup import NAMES as FAMILIES
from tilespec.practice.lookup import practice
from tilespec.quantity.unit import UNITS
from tilespec.resources import data_text
from tilespec.sequence.stages import WORDS as STAGE_WORDS
from tilespec.source import Source
from tilespec.syntax.ahead import Ahead, ahead, behind_number, started_by
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.syntax.parse import parse
from tilespec.syntax.words import BOTH, PRODUCTS, STATEMENTS, starts_statement

WORD, NAME, VALUE, UNIT = "word", "name", "value", "unit"

_PARTIAL = re.compile(r"[^\W\d_][\w'./+-]*$")
# An open text up to the cursor.
_TEXT = re.compile(r'"([^"]*)$')
_CLASSES = {
    "adhesive": ("C1", "C1T", "C2", "C2T", "C2TE", "C2E", "C2F", "C2FT", "C2FTE", "S1", "S2", "D1", "D1T", "D1TE", "D2", "D2TE",
                 "R1", "R1T", "R2", "R2T"),
    "grout": ("CG1", "CG2", "CG2W", "CG2A", "CG2WA", "RG"),
    "membrane": ("CM", "DM", "RM", "O1", "O2", "P"),
    "sealant": ("XS1", "XS2", "XS3", "S1", "S2", "S3", "25LM", "25HM", "20LM", "20HM", "12.5E", "12.5P", "7.5P"),
}
_TRADES = ("tiler", "plumber", "electrician", "glazier", "plasterer", "joiner", "painter", "client")


@dataclass(frozen=True, slots=True)
class Choice:
    """text    what is written; what is typed of it starts at `start` in the text
    detail  what it is, in a few words
    """

    text: str
    what: str
    start: int
    detail: str = ""


@dataclass(frozen=True, slots=True)
class _Place:
    """Where something is typed.

    kind     of the statement; "" at the margin before its word is known
    piece    what the piece says up to the word being typed
    entry    "head" or "attributes"
    opener   the item of the line that the piece can say something about; "" for none
    """

    page: Page
    file: str
    room: str
    kind: str
    head: str
    piece: str
    entry: str
    opener: str
    last: Attribute | None
    statement: Statement | None
    start: int
    indented: bool


def complete(desk: Desk, file: str, offset: int) -> list[Choice]:
    """Everything that can be written at an offset, the likeliest first."""
    page = desk.page_of(file)
    seated = page.seated(file) if page is not None else None
    if page is None or seated is None:
        return []
    text = seated.source.text
    offset = max(0, min(offset, len(text)))
    begin = text.rfind("\n", 0, offset) + 1
    line = text[begin:offset]
    so_far = before(line)
    if so_far.comment:
        return []
    if so_far.text:
        return list(_texts(desk, file, page, so_far, offset))
    partial = _PARTIAL.search(line)
    start = begin + partial.start() if partial else offset
    cut = line[: start - begin]
    place = _place(page, file, cut, before(cut), begin, start)
    found: dict[str, Choice] = {}
    for choice in _choices(place):
        found.setdefault(choice.text, choice)
    return list(found.values())


def _place(page: Page, file: str, cut: str, so_far: Before, begin: int, start: int) -> _Place:
    seated = page.seated(file)
    assert seated is not None
    piece = so_far.pieces[-1]
    n = seated.index(begin) if so_far.indented else -1
    above = seated.tree.statements[n] if n >= 0 else None
    text = seated.source.text
    if so_far.indented and above is not None:
        at = seated.start(n)
        stop = min((x for x in (text.find("\n", at), text.find(";", at)) if x >= 0), default=len(text))
        head = text[at:stop]
        tree = parse(Source("", f"{head}\n  {cut}\n")).value
        st = tree.statements[0] if tree.statements else None
        said = st.lines[-1].attributes if st is not None and len(st.lines) > 1 else ()
        kind, entry = above.kind, "attributes"
    else:
        # At the margin: the last piece that starts a statement.
        firsts = [n for n, p in enumerate(so_far.pieces) if starts_statement(*_two(p))]
        head = so_far.pieces[firsts[-1]] if firsts else ""
        last = "; ".join(so_far.pieces[firsts[-1] :]) if firsts else ""
        st = next(iter(parse(Source("", last)).value.statements), None)
        said = tuple(a for line in st.lines for a in line.attributes) if st is not None else ()
        kind = st.kind if st is not None else ""
        entry = "head" if not firsts or firsts[-1] == len(so_far.pieces) - 1 else "attributes"
        if firsts and not kind:
            kind = _two(head)[0]
    kind = "product" if kind in PRODUCTS else kind
    opener = ""
    for a in said:
        if kind in SCHEMA and a.kind in SCHEMA[kind][1]:
            opener = a.kind
        elif kind in SCHEMA and a.kind in SCHEMA[kind][0] and a.kind != "words" and a.kind not in ITEMS.get(opener, ()):
            opener = ""
    room = room_of(seated, above) if above is not None else ""
    if not so_far.indented:
        n = seated.index(begin - 1) if begin else -1
        room = room_of(seated, seated.tree.statements[n]) if n >= 0 else ""
    return _Place(
        page, file, room, kind, head, piece, entry, opener, said[-1] if said else None, st, start, so_far.indented
    )


def _two(piece: str) -> tuple[str, str]:
    m = re.match(r"([^\W\d_][\w-]*)[ \t\u00a0]*([^\W\d_][\w-]*)?", piece)
    return (m[1], m[2] or "") if m else ("", "")


# ---------------------------------------------------------------- choices


def _choices(place: _Place) -> Iterator[Choice]:
    def word(text: str) -> Choice:
        return Choice(text, WORD, place.start, _told(text, place.kind))

    piece = place.piece.rstrip()
    if not piece and not place.indented:
        following = ahead("", "attributes")
        if place.head and place.kind in SCHEMA and following is not None:
            yield from _attributes(place, following)
            yield from (Choice(n, what, place.start, detail) for n, what, detail in _names(place, [], following))
        yield from map(word, (*STATEMENTS, *BOTH))
        return
    if place.kind not in SCHEMA:
        return
    following = ahead(piece, place.entry)
    if following is None:
        return
    tokens = [t.lower() for t in words_of(piece)]
    if tokens in (["shower"], ["bath"]):
        yield word("zone")
    names = [Choice(n, what, place.start, detail) for n, what, detail in _names(place, tokens, following)]
    # A word that must follow comes before all that could.
    units = list(_units(place, piece, tokens))
    # Lengths are mostly written without one.
    if units and not any(u.text == "m" for u in units):
        yield from units
    yield from names
    yield from _attributes(place, following)
    yield from units


def _attributes(place: _Place, following: Ahead) -> Iterator[Choice]:
    own, items = SCHEMA[place.kind] if place.kind in SCHEMA else ((), ())
    said = ITEMS.get(place.opener, ()) if place.opener else ()
    allowed = {*said, *own, *items}
    order = {kind: n for n, kind in enumerate((*said, *own, *items))}
    tokens = list(words_of(place.piece))
    number = bool(tokens) and tokens[-1][-1:].isnumeric() or bool(re.search(r"[0-9½¼¾][^\W\d_%]*$|%$", place.piece.rstrip()))
    found: list[tuple[int, str]] = []
    for text in following.words:
        kinds = started_by().get(text, frozenset())
        if number:
            kinds |= behind_number().get(text, frozenset())
        # Where the piece cannot end, only the words of the attribute itself can follow.
        if not following.ends and tokens and tokens[-1] != ",":
            found.append((-1, text))
        elif kinds & allowed:
            found.append((min(order[k] for k in kinds & allowed), text))
        elif not kinds and text not in behind_number():
            found.append((-1, text))
    for _, text in sorted(found):
        yield Choice(text, WORD, place.start, _told(text, place.kind))
    if "PRODUCT" in following.kinds and ("product" in allowed or place.entry == "head" and not tokens):
        for text in PRODUCTS:
            yield Choice(text, WORD, place.start, "product")


def _told(text: str, kind: str) -> str:
    if not kind and (words := statement(text)):
        return words
    entry = meaning(text, text, (kind if kind != "product" else "products",))
    words = entry.means or entry.silent if entry is not None else ""
    return words if len(words) <= 90 else words[:87].rstrip() + "..."


_Named = tuple[str, str, str]


def _names(place: _Place, tokens: list[str], following: Ahead) -> Iterator[_Named]:
    """Words of the trade and names that can stand here."""
    if "NAME" not in following.kinds and "STRING" not in following.kinds and "MOVEMENT" not in following.kinds:
        return
    last = tokens[-1] if tokens else ""
    prev = tokens[-2] if len(tokens) > 1 else ""
    # The last word of the language, and what has been said behind it.
    back = next((n for n in range(len(tokens) - 1, -1, -1) if tokens[n] in _LEADS or tokens[n] in PRODUCTS), -1)
    if tokens[:1] == ["build-up"]:
        back = 0    # its layers are called like products
    lead, said = (tokens[back], tokens[back + 1 :]) if back >= 0 else ("", [])

    def values(listed: Iterable[str], detail: str = "") -> Iterator[_Named]:
        for text in listed:
            yield text, VALUE, detail

    if last == "," and place.kind != "product" and lead not in ("crew", "build-up", "walk", "heights", "aids"):
        lead, said = "", []
    if place.entry == "head" and len(tokens) == 1:
        match place.kind:
            case "tile":
                yield from _declared(place, TILE)
            case "product":
                yield from _declared(place, PRODUCT, last)
                yield "none", VALUE, "refused here"
            case "wall":
                yield from values(_free_walls(place), "wall")
            case "delivery":
                yield from _declared(place, TILE)
            case "record":
                yield from values(known.RECORDS, "record")
            case "deviation":
                for rule in RULES:
                    if rule.guards == QUALITY:
                        yield rule.name, VALUE, rule.title
            case "limit":
                at = practice(place.page.look.job.family if place.page.look else "EN")
                for key in at.keys():
                    entry = at.entry(key)
                    yield key, VALUE, entry.what if entry is not None else ""
        return
    if last == "corner":
        yield from values(("internal", "external") if place.kind == "floor" and "walk" in tokens else _walls(place), "")
        return
    if last == "walk" or lead == "walk" and last == ",":
        legs = [t.upper() for t in said if len(t) == 1 and t.isalpha()]
        yield from values([chr(ord(max(legs)) + 1)] if legs else ["A"], "the next wall")
        yield "corner", WORD, "where it turns left: `corner external`"
        return
    if prev == "corner" or last == "wall":
        yield from values(_walls(place), "wall")
        return
    if last in ("on", "in") and "STRING" in following.kinds:
        for name in _rooms(place.page):
            yield f'"{name}"', NAME, "room"
        if place.kind in ("record", "step", "deviation"):
            return
    if lead in PRODUCTS and not said and place.entry != "head":
        yield from _declared(place, PRODUCT, lead)
        yield from _generic(lead)
        if lead == "heating":
            yield from values(("mat", "cable", "pipes"), "kind of heating")
        yield "none", VALUE, "refused here"
        return
    match lead:
        case "tile" | "with" if not said:
            yield from _declared(place, TILE)
            return
        case "for" if not said:
            yield from values(("floor", "walls"), "where it is taken first")
            return
        case "class":
            kind = _two(place.head)[0]
            before_it = tokens[back - 1] if back else ""
            classes = {"barefoot": ("A", "B", "C"), "slip": known.SLIP}.get(before_it, _CLASSES.get(kind, ()))
            yield from values(c for c in classes if c.lower() not in said)
            if before_it in ("barefoot", "slip"):
                return
        case "base":
            whole = " ".join(said)
            for words in known.BASES:
                if words.startswith(whole) and (not whole or words[len(whole) : len(whole) + 1] in (" ", "")):
                    rest = words[len(whole) :].strip()
                    if rest:
                        yield rest, VALUE, "base"
            yield from values(known.BASE_WORDS, "of a base")
            if not said:
                return
        case "practice":
            yield from ((f, VALUE, name) for f, name in FAMILIES.items() if f != "common")
        case "paper":
            yield from values(("A4", "Letter"))
        case "sizes":
            yield from values(("mm", "m"))
        case "measured" if last in ("to", "bare", "tile"):
            yield from values({"to": ("bare wall", "tile face"), "bare": ("wall",), "tile": ("face",)}[last])
        case "hours":
            yield from values(("mon-fri", "mon-thu", "mon-sat", *known.DAYS))
        case "crew":
            yield from values(("tiler", "helper", "apprentice"))
        case "aids":
            yield from values(known.AIDS)
        case "build-up":
            yield from values(known.LAYERS, "layer")
        case "heights":
            yield from values(("left", "right"))
        case "colour":
            yield from values(known.COLOURS)
        case "before" | "after" if place.kind == "step":
            yield from values(dict.fromkeys(w.word for w in STAGE_WORDS), "stage of the work")
        case "before":
            yield from values(w for w in known.WAITS if w != "coats")
        case "between":
            yield from values(("coats",))
        case "result":
            yield from values(("pass", "fail"))
        case "by":
            yield from values(_TRADES, "trade")
        case "fall":
            yield from values(("four planes", "two planes", "one plane", "planes", "plane"))
            yield from values(("m", "ft") if last == "per" else ())
        case "follow":
            yield from values(("floor", "field", "wall") if not said else _walls(place) if last == "wall" else ())
        case "at" if "full" in tokens[:back]:
            yield from values((*known.STARTS, "wall") if not said else ("floor",) if last == "finished" else ())
        case "at" if "sensor" not in tokens:
            yield from values(("left", "right", "top", "bottom", "openings", "niche", "external corner", "boxing"))
        case "from" if "start" in tokens[:back]:
            yield from values(("left", "right", "floor", "top", "ceiling", "door", "datum", "wall"))
        case "from":
            yield from values(("left", "right", "wall", "top", "ceiling", "floor"))
        case "above" | "below":
            yield from values(("finished floor", "datum", "structural floor", "floor"))
            yield from values(("floor",) if last in ("finished", "structural") else ())
        case "on" if not said and (prev in ("joint", "tile") or place.kind == "tile"):
            yield from values(known.MIDDLES)
            return
        case "on" if prev in known.MIDDLES or last in known.MIDDLES:
            yield from values(known.WAYS, "direction")
    if lead in ("from", "above", "below", "at", "hours", "colour", "practice", "sizes", "paper") and not said:
        return
    yield from values(_plain(place), "")


# Words of the language that take words of the trade or names behind them.
_LEADS = frozenset((
    "tile", "with", "for", "class", "base", "practice", "paper", "sizes", "measured", "hours", "crew", "build-up", "heights",
    "colour", "before", "after", "between", "result", "by", "fall", "follow", "at", "from", "above", "below", "on", "walk",
))  # fmt: skip


def _plain(place: _Place) -> Iterable[str]:
    """Words that describe what is being said."""
    if place.opener == "tile":
        return known.BOND_WORDS
    if place.opener == "base":
        return known.BASE_WORDS
    match place.kind:
        case "tile":
            return (*known.TILE_WORDS, *known.BOND_WORDS)
        case "product":
            return known.PRODUCT_WORDS
        case "floor" | "shower" | "bath" | "basin" | "boxing" | "job":
            return known.PLACE_WORDS
        case "wall" if place.opener == "fitting":
            return ("glued", "screwed")
    return ()


def _declared(place: _Place, what: str, kind: str = "") -> Iterator[_Named]:
    for m in mentions(place.page):
        if m.defines and m.what == what and m.room in ("", place.room):
            product, _, name = m.name.partition(" ")
            if what == TILE:
                yield m.name, NAME, "tile"
            elif product == kind:
                yield name, NAME, kind


def _generic(kind: str) -> Iterator[_Named]:
    for m in re.finditer(rf"^{re.escape(kind)} ([\w-]+)", data_text("templates/stock/generic.tilespec"), re.MULTILINE):
        yield m[1], NAME, "generic: to be confirmed on the data sheet"


def _rooms(page: Page) -> list[str]:
    return list(dict.fromkeys(m.name for m in mentions(page) if m.what == ROOM and m.defines))


def _walls(place: _Place) -> list[str]:
    look = place.page.look
    room = next((r for r in look.job.rooms if r.name == place.room), None) if look is not None else None
    if room is None and look is not None and len(look.job.rooms) == 1:
        room = look.job.rooms[0]
    letters = [w.letter for w in room.walls] if room is not None else []
    said = [m.name for m in mentions(place.page) if m.what == WALL and m.room == place.room]
    return sorted({*letters, *said, *(() if letters else "ABCD")})


def _free_walls(place: _Place) -> list[str]:
    taken = {m.name for m in mentions(place.page) if m.what == WALL and m.defines and not m.leg and m.room == place.room}
    walls = _walls(place)
    return [w for w in walls if w not in taken] + [w for w in walls if w in taken]


def _texts(desk: Desk, file: str, page: Page, so_far: Before, offset: int) -> Iterator[Choice]:
    """Inside a text: the name of a room, where one is meant; a stock file behind `use`."""
    typed = _TEXT.search(so_far.pieces[-1])
    if typed is None:
        return
    lead = so_far.pieces[-1][: typed.start()].split()
    start = offset - len(typed[1])
    if lead[-1:] in (["on"], ["in"]):
        for name in _rooms(page):
            yield Choice(name, NAME, start, "room")
    elif lead == ["use"]:
        own = os.path.basename(file)
        for folder, what in ((os.path.dirname(file), "beside the spec"), (desk.library or "", "in the library")):
            for name in desk.host.disk.names(folder) if folder else ():
                if name.endswith(".tilespec") and name != own:
                    yield Choice(name, NAME, start, what)


# ---------------------------------------------------------------- units


def _units(place: _Place, piece: str, tokens: list[str]) -> Iterator[Choice]:
    """Behind a bare number: the units of what it measures, its own first."""
    if not tokens or not re.search(r"[0-9½¼¾⅛⅜⅝⅞]$", piece) or re.search(r"[0-9]:[0-9]+$|[0-9]{4}-[0-9-]*$", piece):
        return
    look = place.page.look
    mm = look is not None and sizes_in_mm(look.workspace.trees[0].statements)
    # What is not whole yet has not been read: then its own word tells what its number is.
    lead = next((t for t in reversed(tokens) if t in started_by()), "")
    a = place.last
    slot = None
    if a is not None and a.kind in started_by().get(lead, (a.kind,)):
        st = place.statement
        atom = a.args[-1] if a.args else None
        slot = slot_of(st, a, atom, mm) if st is not None and isinstance(atom, Atom) else None
    if slot is None and lead:
        slot = next((found for kind in sorted(started_by()[lead]) if (found := slot_of_kind(kind, mm)) is not None), None)
    kinds = [slot.unit.kind] if slot is not None else [UNITS["mm"].kind]
    first = slot.unit.symbol if slot is not None else "m"
    symbols = [u.symbol for u in UNITS.values() if u.kind in kinds and u.symbol not in ("count", "year", "slope", "")]
    for symbol in sorted(symbols, key=lambda s: s != first):
        yield Choice(symbol, UNIT, place.start, "read so where no unit is written" if symbol == first else "")
