"""What can stand where the cursor is: words of the language, by the grammar and by what they may say something about; words of
the trade; names of this job; units; and, where a value is needed, an example of one."""

from __future__ import annotations

import os.path
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tilespec.editor.desk import Desk, Page
from tilespec.editor.reference import Telling, brief, entry, example, glossary, statement, telling
from tilespec.editor.seat import Seat, seat
from tilespec.editor.slots import key, slot
from tilespec.editor.spot import Before, before
from tilespec.editor.values import NAME, VALUE, described, generic, room_names, values
from tilespec.job.header import sizes_in_mm
from tilespec.job.schema import ITEMS, OWN_WORDS
from tilespec.job.schema import STATEMENTS as SCHEMA
from tilespec.job.slot import Slot
from tilespec.quantity.unit import SPELLINGS, UNITS, Kind
from tilespec.syntax.ahead import Ahead, ended, going_on, kinds_of, started_by
from tilespec.syntax.words import BOTH, PRODUCTS, STATEMENTS, WITH_ZONE

WORD, UNIT, EXAMPLE = "word", "unit", "example"
__all__ = ["EXAMPLE", "NAME", "UNIT", "VALUE", "WORD", "Choice", "complete"]

_PARTIAL = re.compile(r"[^\W\d_][\w'./+-]*$")
# An open text up to the cursor.
_TEXT = re.compile(r'"([^"]*)$')
# How values are written, by the kind of token.
_FORMS = {
    "DATE": "year-month-day", "CLOCKS": "from when to when", "STRING": "a text in quotes",
    "REFERENCE": "a word without blanks, or a text in quotes", "NAME": "a name of your own, one word",
}  # fmt: skip
# Where the job tells what was found on site or in a test, a number of ours would be a false one.
_FOUND = ("record", "delivery", "conditions")
_TESTED = ("built", "dcof", "pendulum", "absorption", "resistance", "deflection")
_TO_WRITE = '"..."'
# Statements that give something a new name.
_NAMED = ("tile", "product", "room")


@dataclass(frozen=True, slots=True)
class Choice:
    """text     what is written; what is typed of it starts at `start` in the text
    detail   what it is, in a few words
    written  how it is written, an example; about: all there is to say
    """

    text: str
    what: str
    start: int
    detail: str = ""
    written: str = ""
    about: str = ""


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
    here = seat(page, file, before(cut), begin, start)
    found: dict[str, Choice] = {}
    for choice in _choices(here, desk.date()):
        found.setdefault(choice.text, choice)
    return list(found.values())


# ---------------------------------------------------------------- choices


def _choices(here: Seat, today: str) -> Iterator[Choice]:
    following = here.following
    if not here.piece and not here.indented:
        if here.head and here.kind in SCHEMA and following is not None:
            yield from (choice for _, choice in _words(here, following))
            yield from _described(here, following)
        for text in (*STATEMENTS, *BOTH):
            kind = "product" if text in PRODUCTS else text
            meant, one = statement(text), example(kind, "", kind, text)
            detail = _product(text) if text in PRODUCTS else brief(meant.rstrip("."))
            yield Choice(text, WORD, here.start, detail, one.text if one is not None else _named(text), meant)
        return
    if here.kind not in SCHEMA or following is None:
        return
    if here.entry == "head" and here.piece in WITH_ZONE:
        row = entry("wall", "", f"zone_{here.piece}", f"{here.piece} zone")
        yield _choice(here, "zone", replace(telling(row), written=f"{here.piece} zone"))
    units = list(_units(here, following))
    ranked = list(_words(here, following))
    if following.inside[-1:] == ("QTY",) and _BARE.search(following.said[-1]):
        ranked = [(n, w) for n, w in ranked if w.text not in UNITS and w.text not in SPELLINGS]    # they would be its unit
    # A unit that must follow comes before all that could; lengths are mostly written without one.
    if units and not any(u.text == "m" for u in units):
        yield from units
    if here.kind in ("record", "delivery") and "DATE" in following.kinds and following.ends and today and here.entry == "head":
        if following.inside[:1] != ("record",) and not here.again("on_date"):
            told = replace(_told(here, "on_date", ""), detail=f"today: {_FORMS['DATE']}")
            yield _choice(here, today, told, EXAMPLE)
    yield from _values(here, following)
    # Words that go on with a description come first, not those that could begin one.
    yield from _needed(here, following)
    nearest = -1 if following.inside else _JOINT if here.laid else _OWN
    yield from (w for n, w in ranked if n <= nearest)
    yield from _described(here, following)
    yield from (w for n, w in ranked if n > nearest)
    yield from units
    yield from _examples(here, following, today)


def _choice(here: Seat, text: str, told: Telling, what: str = WORD) -> Choice:
    cut = brief(told.detail)
    about = told.about if cut == told.detail or told.detail in told.about else f"{told.detail}\n\n{told.about}".strip()
    return Choice(text, what, here.start, cut, told.written, about)


def _values(here: Seat, following: Ahead) -> Iterator[Choice]:
    for value in values(here, following):
        yield _choice(here, value.text, value.telling, value.what)


def _described(here: Seat, following: Ahead) -> Iterator[Choice]:
    for value in described(here, following):
        yield _choice(here, value.text, value.telling, value.what)


# How near words are: what the attribute itself needs; the joint of a tile; what else is said of it, or of the statement where
# nothing nearer is; then the rest of the statement, and its products.
_NEEDED, _JOINT, _OWN, _REST, _PRODUCTS = range(5)
# What is said of every floor and wall.
_SURFACE = ("base", "tile")
_PARTS_OF_TILE = {"band", "panel", "border", "start_at"}


def _near(here: Seat, kind: str) -> int:
    if kind == "joint" and here.laid:
        return _JOINT
    if here.item == "tile" and kind in ITEMS["untiled"] and not _PARTS_OF_TILE.intersection(here.beside):
        return _REST    # of a part of the tiling, and none is said
    if here.kind in ("floor", "wall") and here.item in ("", "base") and kind in _SURFACE:
        return _NEEDED
    own = ITEMS[here.item] if here.item else SCHEMA[here.kind][0]
    return _OWN if kind in own else _REST


def _words(here: Seat, following: Ahead) -> Iterator[tuple[int, Choice]]:
    """Words of the language, each with how near it is, the nearest first."""
    order = here.allowed
    found: list[tuple[int, int, str, str]] = []
    fresh = following.ends or not following.inside
    begun, said = kinds_of(following.inside), ended(following.inside) if following.inside else frozenset()
    for text in following.words:
        on = going_on(following.inside, text) if following.inside or text not in started_by() else frozenset()
        begins = started_by().get(text, frozenset()) if fresh else frozenset()
        kinds = on | frozenset(k for k in begins if not here.again(k))
        if text == "x" and following.inside.count("QTY") > (here.kind == "tile") + 1:
            continue    # only a tile is told how thick it is
        if here.kind in on and here.entry == "head" or text == "corner" and following.inside[:1] == ("walk",):
            found.append((_NEEDED, -1, text, here.kind if here.kind in on else "walk"))
        elif kinds := (kinds & set(order)) - (said - on):
            kind = min(kinds, key=lambda k: order[k])
            new = following.ends or not following.inside
            found.append((_near(here, kind) if new else _NEEDED, order[kind] if new else -1, text, kind))
    for near, _, text, kind in sorted(found):
        yield near, _choice(here, text, _told(here, kind, " ".join((*following.said, text)) if kind in begun else text))
    if "PRODUCT" in following.kinds and "product" in order:
        for text in PRODUCTS:
            if text in here.begun and text != "trim" and not here.item_for("product"):
                continue
            yield _PRODUCTS, Choice(text, WORD, here.start, _product(text), _named(text), _told(here, "product", text).about)


def _product(kind: str) -> str:
    return brief(glossary().get(kind.replace("-", " "), ""))


def _named(kind: str) -> str:
    return f"{kind} {next(iter(generic(kind)), 'none')}"


def _told(here: Seat, kind: str, text: str) -> Telling:
    item = here.item_for(kind)
    if here.kind == "tile" and here.laid and kind != here.kind:
        item = "tile"    # of the tile of a whole room: how it is laid
    told = telling(entry(here.kind, item, kind, text, here.thing), example(here.kind, here.item_for(kind), kind, here.thing))
    return told if told.about or kind != here.kind else replace(told, about=statement(here.thing))


# ---------------------------------------------------------------- examples


def _examples(here: Seat, following: Ahead, today: str) -> Iterator[Choice]:
    """Where a value is needed, how one is written."""
    inside = following.inside
    if not inside or inside[-1] == ",":
        return
    head = here.entry == "head" and here.kind in kinds_of(inside)
    for token in ("NAME", "DATE", "CLOCKS", "STRING", "REFERENCE", "QTY"):
        kinds = going_on(inside, token) if token in following.kinds else frozenset()
        kind = here.kind if head and here.kind in kinds else next((k for k in here.allowed if k in kinds), "")
        # A title may be left out, but not a value; names are listed, but for a new one.
        if not kind or following.ends and token != "STRING" or token == "NAME" and (not head or here.kind not in _NAMED):
            continue
        if kind in OWN_WORDS:
            if token == "STRING":
                told = _told(here, kind, " ".join(following.said))
                yield _choice(here, _TO_WRITE, replace(told, detail="your own words, between quotes"), EXAMPLE)
            continue
        if token == "QTY" and (here.kind in _FOUND or kind in _TESTED):
            continue
        item = here.item_for(kind)
        one, nth = example(here.kind, item, kind, here.thing), len(following.values)
        text = one.values[nth] if one is not None and nth < len(one.values) else ""
        if token == "DATE":
            text = today or ("" if here.kind in _FOUND else text)
        if text and _is(token, text):
            told = _told(here, kind, " ".join(following.said))
            way = "today" if token == "DATE" and today else "example"
            yield _choice(here, text, replace(told, detail=f"{way}: {_form(here, kind, token, inside)}"), EXAMPLE)


# What has a place on a wall.
_ON_WALLS = ("window", "opening", "niche", "valve", "outlet", "socket", "mirror", "fitting", "pipe")


def _needed(here: Seat, following: Ahead) -> Iterator[Choice]:
    """What a thing needs first: its size or its place."""
    inside = following.inside
    placed = [k for k in here.beside if k in ("from_side", "from_wall")]
    if not inside and here.kind in ("wall", "shower", "bath") and here.item in _ON_WALLS and len(placed) == 1:
        if not {"up", "above", "below", "bottom"}.intersection(here.beside):
            told = telling(entry(here.kind, here.item, "up"))
            yield _choice(here, "1100 up" if _mm(here) else "1.1 up", replace(told, detail="example: how high up"), EXAMPLE)
    kinds = ended(inside) if following.ends and "QTY" in following.kinds and all(map(str.islower, inside)) else frozenset()
    for kind in kinds if len(kinds) == 1 else ():
        item, lead = here.item_for(kind), " ".join(inside)
        one = example(here.kind, item, kind, here.thing)
        rest = one.text.removeprefix(lead).strip() if one is not None and one.text.startswith(f"{lead} ") else ""
        if rest[:1].isdigit():
            told = _told(here, kind, lead)
            yield _choice(here, rest, replace(told, detail="example: its size, or its place"), EXAMPLE)


def _is(token: str, text: str) -> bool:
    first = text[:1]
    own = {"STRING": first == '"', "REFERENCE": first != '"', "NAME": first.isalpha(), "QTY": first in "+-" or first.isdigit()}
    return own.get(token, True)


def _form(here: Seat, kind: str, token: str, inside: tuple[str, ...]) -> str:
    if token != "QTY":
        return _FORMS[token]
    found = _slot(here, kind, inside.count("QTY"))
    if found is None:
        return "a number"
    symbol = found.unit.symbol
    return found.words + (f", in {symbol} where no unit is written" if symbol not in ("count", "year", "slope", "") else "")


def _texts(desk: Desk, file: str, page: Page, so_far: Before, offset: int) -> Iterator[Choice]:
    """Inside a text: the name of a room, where one is meant; a stock file behind `use`."""
    typed = _TEXT.search(so_far.pieces[-1])
    if typed is None:
        return
    lead = so_far.pieces[-1][: typed.start()].split()
    start = offset - len(typed[1])
    if lead[-1:] in (["on"], ["in"]):
        for name in room_names(page):
            yield Choice(name, NAME, start, "room")
    elif lead == ["use"]:
        own = os.path.basename(file)
        for folder, what in ((os.path.dirname(file), "beside the spec"), (desk.library or "", "in the library")):
            for name in desk.host.disk.names(folder) if folder else ():
                if name.endswith(".tilespec") and name != own:
                    yield Choice(name, NAME, start, what)


# ---------------------------------------------------------------- units

# A number with no unit, that is no fall.
_BARE = re.compile(r"^[^:]*[0-9½¼¾⅛⅜⅝⅞]$")
# Of a reading of moisture the unit of the method must be there.
_METHODS = {"CM%": "by the carbide method", "%RH": "in a hygrometer box over the base"}


def _mm(here: Seat) -> bool:
    look = here.page.look
    return look is not None and sizes_in_mm(look.workspace.trees[0].statements)


def _slot(here: Seat, kind: str, nth: int) -> Slot | None:
    return slot(key(here.kind, here.item_for(kind), kind, nth, here.name), _mm(here))


def _units(here: Seat, following: Ahead) -> Iterator[Choice]:
    """Behind a bare number: the units of what it measures, its own first."""
    inside = following.inside
    if inside[-1:] != ("QTY",) or not _BARE.search(following.said[-1]):
        return
    if inside == ("QTY",) and following.whole[-1:] == ("words",):
        return    # a misspelt word of the language reads as a description: what is measured is not known
    order = here.allowed
    kinds = sorted(kinds_of(inside) & {*order, here.kind}, key=lambda k: order.get(k, -1))
    if "reading" in kinds and here.name == "substrate-moisture":
        for symbol, method in _METHODS.items():
            yield Choice(symbol, UNIT, here.start, method)
        return
    found = next((s for kind in kinds if (s := _slot(here, kind, inside.count("QTY") - 1)) is not None), None)
    if found is None and inside[0] != "QTY":
        return
    measured = found.unit.kind if found is not None else Kind.LENGTH
    first = found.unit.symbol if found is not None else "m"
    symbols = [u.symbol for u in UNITS.values() if u.kind is measured and u.symbol not in ("count", "year", "slope", "")]
    if measured in (Kind.HUMIDITY, Kind.SLOPE):
        symbols.append("%")
    for symbol in sorted(symbols, key=lambda s: s != first):
        yield Choice(symbol, UNIT, here.start, "read so where no unit is written" if symbol == first else "")
