"""Words of the trade and names of this job that can stand at a place, as the job reads them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from tilespec import vocabulary as known
from tilespec.checks import RULES
from tilespec.checks.rule import QUALITY
from tilespec.editor import figures
from tilespec.editor.desk import Page
from tilespec.editor.names import PRODUCT, ROOM, TILE, WALL, mentions
from tilespec.editor.reference import Telling, brief, description, entry, example, glossary, statement, telling
from tilespec.editor.seat import Seat
from tilespec.job.meaning import meaning
from tilespec.job.product import class_parts
from tilespec.job.schema import ITEMS
from tilespec.practice.lookup import NAMES as FAMILIES
from tilespec.practice.lookup import practice
from tilespec.quantity.typed import typed
from tilespec.resources import data_text
from tilespec.sequence.stages import WORDS as STAGE_WORDS
from tilespec.syntax.ahead import Ahead, going_on, started_by

NAME, VALUE = "name", "value"

_CLASSES = {
    "adhesive": ("C1", "C1T", "C2", "C2T", "C2TE", "C2E", "C2F", "C2FT", "C2FTE", "S1", "S2", "D1", "D1T", "D1TE", "D2", "D2TE",
                 "R1", "R1T", "R2", "R2T"),
    "grout": ("CG1", "CG2", "CG2W", "CG2A", "CG2WA", "RG"),
    "membrane": ("CM", "DM", "RM", "O1", "O2", "P"),
    "sealant": ("XS1", "XS2", "XS3", "S1", "S2", "S3", "25LM", "25HM", "20LM", "20HM", "12.5E", "12.5P", "7.5P"),
}
_TRADES = ("tiler", "plumber", "electrician", "glazier", "plasterer", "joiner", "painter", "client")
_DAYS = ("mon-fri", "mon-thu", "mon-sat", *known.DAYS)
_PLANES = ("four planes", "two planes", "one plane")
_BACK = "back and forth"
# What can be said of a bond once it is named, and what stands before one.
_OF_BONDS = ("stepped", _BACK)
_BEFORE_BONDS = ("straight", "diagonal", "vertical", "double", "landscape", "upright")


# Told for each of their values.
_EACH = ("full_tile", "start_from", "joint_on", "tile_on", "from_side", "above", "below")


@dataclass(frozen=True, slots=True)
class Value:
    text: str
    what: str
    telling: Telling


def values(seat: Seat, following: Ahead) -> Iterator[Value]:
    """What can stand here, the likeliest first."""
    if not following.kinds & {"NAME", "STRING", "MOVEMENT", "BACKER_BOARD"}:
        return
    kinds = going_on(following.inside, "NAME") | going_on(following.inside, "STRING")
    allowed = seat.allowed
    # Of a list, its first word tells.
    kinds |= started_by().get(following.inside[0], frozenset()) if following.inside and not kinds else frozenset()
    kind = min((k for k in kinds if k in allowed), key=lambda k: allowed[k], default=seat.kind)
    if kinds and not kinds & {*allowed, seat.kind}:
        return
    item = seat.item_for(kind)
    row = entry(seat.kind, item, kind, " ".join(following.said), seat.thing)
    whole = telling(row, example(seat.kind, item, kind, seat.thing))
    if row is None and kind == seat.kind:
        whole = replace(whole, about=statement(seat.thing))
    for text, what, detail in _listed(seat, following, [v.lower() for v in following.values]):
        told = whole
        if kind in _EACH:
            own = entry(seat.kind, item, kind, " ".join((*following.said, text)), seat.thing)
            told = telling(own, example(seat.kind, item, kind, seat.thing))
            if own is not None and text not in told.written:
                ways = (way for of, way in own.ways if kind in of and way.endswith(text))
                told = replace(told, written=next(ways, told.written))
        elif kind == "fall" and text.split()[-1] in known.PATTERNS_OF_PLANES:
            said = [t for t, symbol in zip(following.said, following.inside, strict=True) if symbol == "NAME"]
            told = telling(description("floor", "fall", " ".join((*said, text))), example(seat.kind, item, kind))
        elif kind == "cutting" and (own := description("job", "", " ".join((*_since_comma(following), text)))) is not None:
            told = telling(own, example(seat.kind, item, kind))
        yield Value(text, what, Telling(detail or told.detail, told.written, told.about))


_Listed = Iterator[tuple[str, str, str]]


def _of(texts: Iterable[str], detail: str = "") -> _Listed:
    for text in texts:
        yield text, VALUE, detail


def _rest(phrases: Iterable[str], said: list[str]) -> list[str]:
    """What is missing of each phrase that begins with what has been said."""
    listed = [phrase.split() for phrase in phrases]
    return list(dict.fromkeys(" ".join(p[len(said) :]) for p in listed if p[: len(said)] == said and len(p) > len(said)))


def _since_comma(following: Ahead) -> list[str]:
    """The names behind the last comma of a list, or behind its first word."""
    at = max((n for n, symbol in enumerate(following.inside) if symbol == ","), default=0)
    return [text.lower() for text in following.said[at + 1 :]]


def _listed(seat: Seat, following: Ahead, said: list[str]) -> _Listed:
    """Words and names of an attribute that is not whole, or could go on."""
    floor, wall = seat.kind == "floor", seat.kind == "wall"
    match following.inside:
        # names
        case ("tile",) | ("modular", "with") | ("for", "tile") | ("delivery",):
            yield from _tiles(seat)
        case ("PRODUCT",):
            if seat.item == "base" and following.said == ("backer",):
                yield from _bases(seat.piece.lower().partition("base ")[2], floor)    # half of `backer board`
                return
            yield from _products(seat, following.said[0])
        case ("wall",):
            yield from _lettered(seat, _free_walls(seat))
        case (*_, "wall") | ("full", "tile", "at" | "NAME", "NAME") if following.inside[-1] == "wall" or said[-1:] == ["wall"]:
            yield from _lettered(seat, _walls(seat))
        case ("start", "from", "NAME") | ("joints", "follow", "NAME") if said == ["wall"]:
            yield from _lettered(seat, _walls(seat))
        case ("in", "corner", *_):
            yield from _lettered(seat, _meeting(seat, said))
        case ("on",) | ("in",):
            for name in room_names(seat.page):
                yield f'"{name}"', NAME, "room"
        case ("record",):
            yield from _of(known.RECORDS, "what was read or signed")
        case ("deviation",):
            here = seat.page.spoken
            for rule in sorted((r for r in RULES if r.guards == QUALITY), key=lambda r: (r.code not in here, r.name)):
                yield rule.name, VALUE, f"found here: {rule.title}" if rule.code in here else rule.title
        case ("limit",):
            at = practice(seat.page.look.job.family if seat.page.look else "EN")
            for key in at.keys():
                one = at.entry(key)
                yield key, VALUE, one.what if one is not None else ""
        # lists
        case ("walk", *_, "corner"):
            yield from _of(("internal", "external"), "how the walk turns")
        case ("walk", *_, "walk" | ",") | ("walk",):
            legs = [t for t, symbol in zip(following.said, following.inside, strict=True) if symbol == "NAME" and len(t) == 1]
            yield from _of((chr(ord(max(legs)) + 1),) if legs else ("A",), "the next wall")
        case ("crew",) | ("crew", *_, ","):
            yield from _of(r for r in known.CREW if r not in said)
        case ("build-up",) | ("build-up", *_, ","):
            for layer in known.LAYERS:
                if layer not in said:
                    yield layer, VALUE, brief(glossary().get(layer, "layer of the floor"))
        case ("heights",) | ("heights", *_, ","):
            yield from _of(s for s in ("left", "right") if s not in said)
        case ("cutting", *_):
            begun = _since_comma(following)
            yield from _of(_rest(known.CUTTERS, begun))
            if " ".join(begun) in known.CUTTERS:
                yield known.OUTDOORS, VALUE, "cut outside"
        case ("aids", *_):
            yield from _of(_rest(known.AIDS, _since_comma(following)))
        # the job
        case ("practice",):
            yield from ((f, VALUE, title) for f, title in FAMILIES.items() if f != "common")
        case ("paper",):
            yield from _of(known.PAPERS)
        case ("sizes", "in"):
            yield from _of(("mm", "m"))
        case ("rooms", "measured", "to", *_):
            yield from _of(_rest(("bare wall", "tile face"), said))
        case ("hours",):
            yield from _of(_DAYS)
        # places
        case ("QTY", "from", *_):
            if seat.kind in ("shower", "bath", "basin", "boxing") and not seat.item:
                yield from _of(_rest(("left", "right"), said[1:]))
            elif not floor:
                yield from _of(_rest(known.FROM, said[1:]))
        case ("QTY", "above" | "below", *_):
            yield from _of(_rest(("finished floor",) if seat.kind == "datum" else ("finished floor", "datum"), said[1:]))
        case ("finished", "floor", "QTY", "above", *_):
            yield from _of(_rest(known.STRUCTURE, said[1:]))
        case ("at", *_) if seat.item == "product":
            yield from _of(_rest((p for p in known.TRIM_PLACES if p != "niches"), said))
        # how tiles are laid
        case ("full", "tile", "at", *_):
            on_wall = (*(place for place in known.STARTS if not wall or place != "drain"), "wall")
            yield from _of(_rest(("wall", "left", "right", "door", "drain") if floor else on_wall, said))
        case ("start", "from", *_):
            yield from _of(_rest(("wall", "left", "right") if floor else (*known.FROM, "wall"), said))
        case ("joint" | "tile", "on", *_):
            if said and said[0] in known.MIDDLES:
                yield from _of(_rest(known.WAYS, said[1:]), "direction")
            else:
                no = "window" if floor else "drain" if wall else ""
                yield from _of(m for m in known.MIDDLES if m != no and not said)
        case ("joints", "follow", *_):
            yield from _of(_rest(("floor", "wall", "field") if not floor else ("wall", "field"), said))
        case ("base", *_):
            yield from _bases(" ".join(said), floor)
        case ("fall", "QTY", "per"):
            yield from _of(("m", "ft"))
        case ("fall", "QTY", *rest):
            yield from _of(_rest(_PLANES, said[2 if rest[:1] == ["per"] else 1 :]))
        # products
        case ("barefoot", "class"):
            yield from _of(("A", "B", "C"))
        case ("slip", "class"):
            yield from _of(known.SLIP)
        case ("class", *_):
            look = seat.page.look
            for cls in _classes(seat.thing, following.values):
                found = meaning(" ".join((*following.values, cls)), look.practice) if look is not None else None
                yield cls, VALUE, brief("; ".join(p.words for p in found.parts)) if found is not None else ""
        case ("for",):
            yield from _of(("floor", "walls"))
        case ("colour",):
            yield from _of(known.COLOURS)
        case ("wait", *_, "before"):
            yield from _of(w for w in known.WAITS if w != "coats")
        case ("wait", *_, "between"):
            yield from _of(("coats",))
        # steps and records
        case ("by",) if seat.kind == "step":
            yield from _of(_TRADES, "trade")
        case ("after" | "before", *_) if seat.kind == "step":
            yield from _of(_rest((w.word for w in STAGE_WORDS), said), "stage of the work")
        case ("result",):
            yield from _of(("pass", "fail"))


def _bases(said: str, floor: bool) -> _Listed:
    right = known.FLOOR_BASES if floor else known.WALL_BASES
    # Each by its usual name, then by its others.
    usual = {key: words for words, key in reversed(known.BASES.items())}
    listed = [words for words, key in known.BASES.items() if key in right]
    for words in sorted(listed, key=lambda w: (usual[known.BASES[w]] != w, right.index(known.BASES[w]))):
        key = known.BASES[words]
        if rest := _rest((words,), said.split()):
            as_key = key.replace("-", " ")
            yield rest[0], VALUE, f"base: {as_key}"
    if said in known.BASES:
        for word in known.BASE_WORDS:
            row = description("wall", "base", word)
            yield word, VALUE, brief(row.what or row.means) if row is not None else ""


def _classes(thing: str, said: tuple[str, ...]) -> list[str]:
    """The classes of a kind of product: at first, and what its standard lets stand behind one."""
    return [c for c in _CLASSES.get(thing, ()) if c not in said and class_parts(thing, " ".join((*said, c)))]


def described(seat: Seat, following: Ahead) -> Iterator[Value]:
    """Words that describe, only where descriptions stand."""
    if "NAME" not in following.kinds:
        return
    inside, said = following.inside, [v.lower() for v in following.values]
    item = seat.item
    takes = "words" in ITEMS.get(item, ())
    match inside:
        case () if seat.piece.endswith(",") and item and not takes:
            return
        case () | ("NAME", *_) if "words" in seat.allowed and set(inside) <= {"NAME"}:
            item = item if takes else ""
        case ("QTY", "x", "QTY", *_) | ("tile", "QTY", "x", "QTY", *_) if not item:
            pass
        case ("PRODUCT", "NAME", *_) if seat.kind == "product" and seat.entry == "head":
            pass
        case _:
            return
    laid = seat.laid and inside[-1:] != ("QTY",) and "QTY" not in inside
    for word in _words(seat, item, laid, said):
        row = description(seat.kind, "tile" if laid else item, word.split()[0] if word != _BACK else word, seat.thing)
        found = telling(row)
        yield Value(word, VALUE, Telling(found.detail, "", found.about))


def _words(seat: Seat, item: str, laid: bool, said: list[str]) -> Iterable[str]:
    if laid:
        return _laying([*seat.described, *said])
    if item == "base":
        listed: tuple[str, ...] = known.BASE_WORDS
    elif seat.kind == "tile":
        listed = known.TILE_WORDS
    elif seat.kind == "product":
        listed = known.PRODUCT_WORDS
    else:
        listed = known.DESCRIBED.get(item or seat.kind, ())
    return [w for w in listed if w not in said and not any(known.contrary(w, s) for s in (*seat.described, *said))]


def _laying(said: list[str]) -> Iterable[str]:
    """How tiles are laid: a bond, what stands before one, and what can be said of it."""
    if rest := _rest((_BACK,), said[next((n for n, w in enumerate(said) if w == "back"), len(said)) :]):
        if said and rest[0] != _BACK:
            yield from rest
            return
    bonds = [w for w in said if w in known.BONDS and w not in _BEFORE_BONDS]
    last = said[-1] if said else ""
    if last in known.OFFSETS:
        yield "bond"
    if last == "basket":
        yield "weave"
    if last in ("stack", "stacked"):
        yield "offset"
    if not bonds and "double" in said:
        yield "herringbone"
        yield from ("straight herringbone", "diagonal herringbone") if last not in ("straight", "diagonal") else ()
    elif not bonds and "vertical" in said:
        yield from (w for w in known.OFFSETS if w != "run")
    elif not bonds:
        yield from (w for w in (*known.BONDS, "vertical", "double") if w not in said)
    yield from (w for w in (*_OF_BONDS, "landscape", "upright") if w.split()[0] not in said)


# ---------------------------------------------------------------- names


def _tiles(seat: Seat) -> _Listed:
    look = seat.page.look
    found = {t.name: figures.size_words(t) for t in look.job.tiles} if look is not None else {}
    for m in mentions(seat.page):
        if m.defines and m.what == TILE and m.room in ("", seat.room):
            yield m.name, NAME, found.get(m.name, "tile of this job")


def _products(seat: Seat, kind: str) -> _Listed:
    look = seat.page.look
    classes = {p.name: " ".join(p.cls) for p in look.job.declared if p.kind == kind} if look is not None else {}
    for m in mentions(seat.page):
        if m.defines and m.what == PRODUCT and m.room in ("", seat.room):
            product, _, name = m.name.partition(" ")
            if product == kind:
                yield name, NAME, f"{kind} of this job{', ' if classes.get(name) else ''}{classes.get(name, '')}"
    if seat.kind != "product":
        look = seat.page.look
        us = look is not None and look.job.family == "US"
        for name in sorted(generic(kind), key=lambda name: not name.endswith("-us")):
            if name.endswith("-us") and not us:
                continue    # for the voltage of another country
            yield name, NAME, "generic: to be confirmed on the data sheet"
        if kind == "heating":
            yield from _of(known.HEATING, "kind of heating")
    yield "none", VALUE, "refused here"


@lru_cache(maxsize=32)
def generic(kind: str) -> tuple[str, ...]:
    """The generic products of a kind, by name."""
    return tuple(re.findall(rf"^{re.escape(kind)} ([\w-]+)", data_text("templates/stock/generic.tilespec"), re.MULTILINE))


def room_names(page: Page) -> list[str]:
    return list(dict.fromkeys(m.name for m in mentions(page) if m.what == ROOM and m.defines))


def _walls(seat: Seat) -> list[str]:
    look = seat.page.look
    room = next((r for r in look.job.rooms if r.name == seat.room), None) if look is not None else None
    if room is None and look is not None and len(look.job.rooms) == 1:
        room = look.job.rooms[0]
    letters = [w.letter for w in room.walls] if room is not None else []
    said = [m.name for m in mentions(seat.page) if m.what == WALL and m.room == seat.room]
    return sorted({*letters, *said, *(() if letters else "ABCD")})


def _meeting(seat: Seat, said: list[str]) -> list[str]:
    """Walls for a corner: all of them, then those that meet the first."""
    walls = _walls(seat)
    n = next((n for n, w in enumerate(walls) if said and w.lower() == said[0]), -1)
    beside = (walls[n - 1], walls[(n + 1) % len(walls)]) if n >= 0 and len(walls) > 3 else walls
    return [w for w in walls if w in beside and w.lower() not in said]


def _lettered(seat: Seat, letters: Iterable[str]) -> _Listed:
    look = seat.page.look
    room = next((r for r in look.job.rooms if r.name == seat.room), None) if look is not None else None
    long = {w.letter: f", {typed(w.length)} long" for w in room.walls} if room is not None else {}
    for letter in letters:
        yield letter, VALUE, f"wall {letter}{long.get(letter, '')}"


def _free_walls(seat: Seat) -> list[str]:
    taken = {m.name for m in mentions(seat.page) if m.what == WALL and m.defines and not m.leg and m.room == seat.room}
    walls = _walls(seat)
    return [w for w in walls if w not in taken] + [w for w in walls if w in taken]
