"""What words mean and how they are written: from the tables and examples of `grammar/LANGUAGE.md`, so that they cannot differ."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from tilespec.job.schema import ITEMS
from tilespec.resources import data_text
from tilespec.source import Source
from tilespec.syntax.ahead import SEVERAL, patterns
from tilespec.syntax.nodes import Atom, Statement
from tilespec.syntax.parse import parse
from tilespec.syntax.words import PRODUCTS

_HEADING = re.compile(r"^(#{2,3}) (.*)$")
_CODE = re.compile(r"`([^`]+)`( \*N\*)?")
_LINK = re.compile(r"\[([^]]+)]\([^)]*\)")
_TOKEN = re.compile(
    r'(?P<DATE>[0-9]{4}-[0-9]{2}-[0-9]{2})|(?P<STRING>"[^"]*")'
    r"|(?P<QTY>[+-]?[0-9][0-9:.]*(?: (?:mm|cm|kg|mL|min|h|C|d|L)(?:/\S+)?\b| %)?)"
    r"|(?P<x>[xX×])(?=\s*[0-9])|(?P<word>[^\W\d_][\w.-]*)|(?P<other>[,…])"
)
# What a thing is stands in italics before what it does.
_WHAT = re.compile(r"(?:\*([^*]{3,40})\.\* )?(.*)", re.DOTALL)
# The columns that say how a thing is written.
_WRITE = ("Write", "Word", "Words of a wait", "A place on a wall", "A place on a floor", "")
# What a row says of a thing is said in another section.
_ELSEWHERE = ("see there", "see above")


@dataclass(frozen=True, slots=True)
class Entry:
    """One row of a table.

    section   its part and heading: "5/floor"
    written   how it is written, each way
    cell      all of that cell
    silent    what happens when it is not said; "" where the table does not tell
    what      what it is, in a short sentence; "" where the table does not say it
    means     what it does; `printed`: the column says what it changes in the print
    of        what it is said of, where the table has a column for that
    ways      the kinds of attributes and statements that it explains, each with how it is written
    kinds     all of these; `within`: of what is written behind them
    words     in all its cells
    """

    section: str
    written: tuple[str, ...]
    cell: str
    silent: str
    what: str
    means: str
    printed: bool
    of: str
    ways: tuple[tuple[frozenset[str], str], ...]
    kinds: frozenset[str]
    within: frozenset[str]
    words: tuple[str, ...]


# ---------------------------------------------------------------- tables


def _rows() -> Iterator[tuple[str, list[str], list[str]]]:
    """Section, head and cells of every row."""
    part, section, head = "", "", list[str]()
    for line in data_text("grammar/LANGUAGE.md").split("\n"):
        if heading := _HEADING.match(line):
            title = heading[2].replace("`", "")
            if heading[1] == "##":
                part, title = title.split(".")[0], ""
            section, head = f"{part}/{title}".rstrip("/"), []
        elif not line.startswith("|"):
            head = []
        elif not head:
            head = _cells(line)
        elif not set(line) <= set("|-: "):
            yield section, head, _cells(line)


@lru_cache(maxsize=1)
def entries() -> tuple[Entry, ...]:
    return tuple(e for section, head, cells in _rows() if (e := _entry(section, head, cells)) is not None)


@lru_cache(maxsize=1)
def glossary() -> dict[str, str]:
    """What words of the trade mean, in plain English."""
    return {word: cells[1] for section, _, cells in _rows() if section == "9" for word in cells[0].split(", ")}


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip().strip("|").split("|")]


def _entry(section: str, head: list[str], cells: list[str]) -> Entry | None:
    codes = [(m[1], m[2]) for m in _CODE.finditer(cells[0])]
    if len(cells) < 2 or not codes or head[0] not in _WRITE:
        return None
    told = dict(zip(head, cells))
    if head[0].startswith("A place on a "):
        section = f"{section}/{head[0].split()[-1]}"
    silent = _plain(told.get("Silent", ""))
    found = _WHAT.match(cells[-1])
    assert found is not None, "it takes any text"
    what, means = _plain(found[1] or ""), _plain(found[2])
    if means in _ELSEWHERE or not (means or silent):
        return None
    ways: list[tuple[frozenset[str], str]] = []
    within = set[str]()
    for text, number in ((one.strip(), number) for code, number in codes for one in code.split(";")):
        called = list(_called(text + (" 1" if number else ""))) or list(_called(f"1 {text}"))
        # Words of a wait are no products, and where a trim runs is no place of something else.
        if called and head[0] != "Words of a wait" and not (ways and "product" in ways[0][0] and text.isalpha()):
            ways.append((called[0], text))
            within |= {kind for one in called[1:] for kind in one}
    words = dict.fromkeys(w.lower() for cell in cells for code, _ in _CODE.findall(cell) for w in (code, *code.split()))
    return Entry(
        section, tuple(text for text, _ in codes), _plain(cells[0]), silent, what, means, head[-1].startswith("What it changes"),
        _plain(told.get("Of", "") or told.get("Said of", "")), tuple(ways),
        frozenset(kind for kinds, _ in ways for kind in kinds), frozenset(within), tuple(words),
    )


def _plain(cell: str) -> str:
    return _LINK.sub(r"\1", cell).replace("`", "").replace("*N*", "N").replace("*", "")


def _called(text: str) -> Iterator[frozenset[str]]:
    """The kinds of attributes and statements that a text of the tables stands for, one after another."""
    tokens = [(m.lastgroup or "", m[0]) for m in _TOKEN.finditer(text)]
    at = 0
    while at < len(tokens):
        # Most words of the language first, then the fewest tokens.
        scores = [(same, -taken, kind) for kind, p in _beginning(tokens[at]) for same, taken in [_score(p, tokens[at:])] if taken]
        if not scores and not at:
            return    # a describing word
        best = max(scores)[:2] if scores else (0, -1)
        if scores:
            yield frozenset(kind for same, taken, kind in scores if (same, taken) == best)
        at -= best[1]


@lru_cache(maxsize=256)
def _beginning(token: tuple[str, str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    group, text = token
    firsts = {group, text, "PRODUCT" if text in PRODUCTS else ""}
    return tuple(p for p in patterns() if p[1] and p[1][0] in firsts)


def _score(pattern: tuple[str, ...], tokens: list[tuple[str, str]]) -> tuple[int, int]:
    """How many words of the language in a pattern are the same as the first of a text, and how many tokens are taken."""
    same = at = 0
    for symbol in pattern:
        if at == len(tokens):
            break
        group, text = tokens[at]
        if symbol == SEVERAL or symbol == "NAME":
            if group != "word":
                return 0, 0
            at += 1
            while symbol == SEVERAL and at < len(tokens) and tokens[at][0] == "word":
                at += 1
        elif symbol in ("QTY", "DATE", "STRING", "REFERENCE", "CLOCKS"):
            if symbol != group and symbol not in ("REFERENCE", "CLOCKS") and text not in ("N", "VALUE"):
                return 0, 0
            same += symbol == "DATE"
            at += 1
        elif symbol == "PRODUCT":
            if text not in PRODUCTS:
                return 0, 0
            same += 1
            at += 1
        elif symbol != (group if group == "x" else text):
            return 0, 0
        else:
            same += 1
            at += 1
    return same, at if same else 0


# ---------------------------------------------------------------- what explains a thing

_PLACES, _ON_FLOOR = "4/wall", "4/floor"
_LAID, _STARTS, _BONDS = "5/tile: how it is laid", "6/Starts", "6/Bonds"
# With nothing behind them they name no start in particular.
_START_WORDS = {"full", "joint", "tile", "start", "at", "on", "from"}
_FITTINGS = "5/shower, bath, basin, boxing"
_FILES = "5/use, limit and language"
# Where a statement's attributes are told, the likeliest first.
_TOLD: dict[str, tuple[str, ...]] = {
    "use": (_FILES,), "limit": (_FILES,), "language": (_FILES,),
    "tile": ("5/tile: what a tile is", _STARTS, _LAID, _BONDS),
    "product": ("5/Products",), "room": ("5/room and datum",), "datum": ("5/room and datum",),
    "floor": ("5/floor", _ON_FLOOR, _PLACES, _LAID), "wall": ("5/wall", _PLACES, "5/floor", _LAID),
    **dict.fromkeys(("shower", "bath", "basin", "boxing"), (_FITTINGS, "5/wall", _ON_FLOOR, _PLACES)),
}  # fmt: skip
# Where an item and what is said about it are told, before all of its statement.
_OF_ITEM: dict[str, tuple[str, ...]] = {"base": ("5/base",), "tile": (_STARTS, _LAID, _BONDS, _PLACES)}
# Where the words that describe a thing are told.
_DESCRIBED: dict[str, tuple[str, ...]] = {
    "tile": ("6/Tiles", _BONDS), "product": ("6/Products",), "base": ("5/base",), "laid": (_BONDS, "6/Tiles", _LAID),
}  # fmt: skip
# Said in one of these ways, a place means the same.
_WHERE = ("on_wall", "on_floor", "on_room", "on_room_wall", "on_room_floor", "in_room")
_PLACED = frozenset(ITEMS["untiled"])


def sections(statement: str, item: str = "") -> tuple[str, ...]:
    """Where a statement, or an item of it, is told."""
    own = _TOLD.get(statement, (f"5/{statement}",))
    # A tile at the margin may say how it is laid.
    return (*_OF_ITEM.get(item, ()), *(own if item not in _OF_ITEM or statement == item else ()))


@lru_cache(maxsize=4096)
def entry(statement: str, item: str, kind: str, text: str = "", thing: str = "") -> Entry | None:
    """The row about an attribute, or about the head of a statement (then `kind` is the statement's).

    item   that it says something about, "" for the statement itself
    text   as written, to choose among rows about the same kind; thing: the statement's first word
    """
    told = sections(statement, item if item in _OF_ITEM else kind)
    if item == "product":
        told = (*told, *sections("product"))
    if item and item not in _OF_ITEM and kind in _PLACED:
        told = tuple(sorted(told, key=lambda s: s not in (_PLACES, _ON_FLOOR)))
    if kind == statement:
        told = told[:1]
    kinds = (kind, *_WHERE, "at_wall") if kind in _WHERE else (kind,)
    asked = text.lower().split()
    if set(asked) <= _START_WORDS:
        told = tuple(sorted(told, key=lambda s: s == _STARTS))
    best: tuple[tuple[int, ...], Entry] | None = None
    for e in entries():
        if e.section not in told:
            continue
        about = item in e.kinds if item else False
        own = next((len(kinds) - n for n, k in enumerate(kinds) if k in e.kinds), 0)
        if not own and not (about and e.within.intersection(kinds)):
            continue
        same = max((_same(code.lower().split(), asked) for _, code in e.ways), default=0)
        if kind == "product" and statement != "product" and not item and not same and not e.cell.startswith("product names"):
            continue
        of = _of(e.of, statement, thing)
        rank = (of, about, same, -told.index(e.section), own)
        if best is None or rank > best[0]:
            best = rank, e
    return best[1] if best is not None else None


def _same(code: list[str], asked: list[str]) -> int:
    """How many words are the same, from the first on; one number is as good as another."""
    pairs = ((a.strip(","), b.strip(",;")) for a, b in zip(code, asked))
    alike = (a == b or a[:1].isdigit() and b[:1].isdigit() for a, b in pairs)
    return next((n for n, same in enumerate(alike) if not same), min(len(code), len(asked)))


def _of(of: str, statement: str, thing: str) -> int:
    """Whether a row is about this thing: 1 where it says so or says nothing, 0 where it is about others."""
    named = set(re.findall(r"[\w-]+", of))
    others = named & {*PRODUCTS, "shower", "bath", "basin", "boxing"}
    return int(not others or statement in others or thing in others)


def describing(statement: str, item: str) -> str:
    """What kind of thing is described by words at a place: a key of what can be said of it."""
    if item in ("tile", "base", "fitting"):
        return {"tile": "laid"}.get(item, item)
    return statement


@lru_cache(maxsize=4096)
def description(statement: str, item: str, word: str, thing: str = "") -> Entry | None:
    """The row about a describing word."""
    told = _DESCRIBED.get(describing(statement, item), sections(statement, item))
    word = word.lower()
    best: tuple[tuple[int, ...], Entry] | None = None
    for e in entries():
        if e.section not in told or word not in e.words:
            continue
        listed = [code.lower() for code in e.written]
        near = 3 if word in listed else 2 if any(word in code.split() for code in listed) else 1
        near = near if near < 3 or not e.kinds else 1
        rank = (_of(e.of, statement, thing), near, -told.index(e.section))
        if best is None or rank > best[0]:
            best = rank, e
    return best[1] if best is not None else None


# ---------------------------------------------------------------- how it is written


@dataclass(frozen=True, slots=True)
class Example:
    """How something is written: a text of the page's examples, and the values in it, in order."""

    text: str
    values: tuple[str, ...]


def example(statement: str, item: str, kind: str, thing: str = "") -> Example | None:
    """How an attribute is written, or the head of a statement; said of another thing where the page has no nearer example."""
    found = _examples()
    if kind == "product" and statement == "product":
        return found.get((thing, "", "product"))
    near = found.get((thing or statement, item, kind)) or found.get((statement, item, kind))
    if near is not None:
        return near
    row = entry(statement, item, kind, "", thing)
    way = next((text for kinds, text in row.ways if kind in kinds), "") if row is not None else ""
    if len(way.split()) > 1:
        return Example(way, tuple(re.findall(r'"[^"]*"|\S+', way)[1:]))
    for other in (sorted(k)[0] for k, _ in row.ways) if row is not None and way else ():
        if like := found.get((statement, "", other)):
            return Example(" ".join((way, *like.text.split()[1:])), like.values)    # written as another thing of its row
    return found.get((statement, "", kind)) or found.get(("", item, kind)) or found.get(("", "", kind))


# Written with a place or a size behind it.
_WITH_PLACE = ("band", "panel", "border", "start_at")


@lru_cache(maxsize=1)
def _examples() -> dict[tuple[str, str, str], Example]:
    """By statement, item and kind, the first of each; by less than all three where nothing nearer is found."""
    page = data_text("grammar/LANGUAGE.md")
    blocks = re.findall(r"^```tilespec[^\n]*\n(.*?)^```$", page, re.M | re.S)
    # The sections of single statements say it best; what stands before them mixes units to show that it may.
    early = len(re.findall(r"^```tilespec", page[: page.index("## 5. ")], re.M))
    found: dict[tuple[str, str, str], Example] = {}
    for block in (*blocks[early:], *blocks[:early]):
        for st in parse(Source("", block)).value.statements:
            for item, kind, one in _written(st, block):
                thing = st.args[0].text if st.kind == "product" else st.kind
                for key in ((thing, item, kind), (st.kind, item, kind), ("", item, kind), ("", "", kind)):
                    found.setdefault(key, one)
    return found


def _written(st: Statement, block: str) -> Iterator[tuple[str, str, Example]]:
    """Item, kind and text of all that a statement says."""

    def values(args: tuple[Atom, ...]) -> tuple[str, ...]:
        return tuple(block[st.base + a.start : st.base + a.end] for a in args)

    yield "", st.kind, Example(block[st.base : st.base + st.end].split("\n")[0].split(";")[0], values(st.args))
    for line in st.lines:
        item = ""
        for a in line.attributes:
            text = block[st.base + a.start : st.base + a.end]
            if a.kind in ITEMS or a.kind in _WITH_PLACE:
                text = re.split(r"[;\n]", block[st.base + a.start :], maxsplit=1)[0].strip()
            one = Example(text, values(a.args))
            if item and a.kind in ITEMS[item]:
                yield item, a.kind, one
            else:
                item = a.kind if a.kind in ITEMS else ""
                yield "", a.kind, one


# ---------------------------------------------------------------- statements

# In one line, where the page begins with an example.
_STATEMENTS = {
    "job": "What the whole job is called, for whom it is, when it begins and whose limits hold.",
    "conditions": "Air, humidity and temperature of the base on site.",
    "room": "A room with its name and height; what follows stands in it.",
    "datum": "The height of the level line that heights and courses are measured from.",
    "floor": "The floor: size or walk, base, build-up, tile, fall, drains, heating.",
    "wall": "A wall by its letter: base, tile, openings, niches, pipes, what is fixed to it.",
    "shower": "A shower, as a thing in the room: where it stands, its size, its head and valve.",
    "bath": "A bath, as a thing in the room: where it stands, its size and rim, and whether there is a shower over it.",
    "basin": "A basin, as a thing in the room: where it stands, its size and rim.",
    "boxing": "A box built around pipes: where it stands, its size and height.",
    "tile": "A tile that this job uses: its name, size and what it is made of. With a name only it says how that tile is laid.",
    "use": "A stock file with tiles, products and limits.",
    "language": "The version of this language; there is only 1, and it need not be said.",
    "limit": "A limit of the firm's own, stricter than the practice's.",
    "step": "A step of another trade, put between the stages of the work.",
    "record": "A reading or a signature, with its date.",
    "deviation": "A rule that is departed from at one place, with the reason.",
    "delivery": "What came of a tile: shade, caliber, sizes measured.",
    "product": "A product, with what its data sheet says. What is left out comes from the generic one of its class, marked.",
}


def statement(word: str) -> str:
    """What a word that starts a statement is for; "" for another."""
    said = _STATEMENTS.get("product" if word in PRODUCTS else word, "")
    meant = glossary().get(word.replace("-", " "), "") if word in PRODUCTS else ""
    return f"{word[:1].upper()}{word[1:]}: {meant}. {said}" if meant else said


# ---------------------------------------------------------------- in an editor


@dataclass(frozen=True, slots=True)
class Telling:
    """What an editor shows beside a word.

    detail   in a few words
    written  how it is written, an example; "" where there is none
    about    all there is to say
    """

    detail: str = ""
    written: str = ""
    about: str = ""


def telling(row: Entry | None, one: Example | None = None) -> Telling:
    written = one.text if one is not None else ""
    if row is None:
        return Telling("", written)
    said = sentences(row)
    return Telling(brief(row.what or row.means or row.silent), written, "\n\n".join(said))


def sentences(row: Entry, silent: bool = True) -> list[str]:
    """All that a row says."""
    said = [f"In the print: {row.means}." if row.printed else f"{row.means[:1].upper()}{row.means[1:]}."] if row.means else []
    said = [f"{row.what}.", *said] if row.what else said
    return [*said, *([f"If it is not said: {row.silent}."] if silent and row.silent else [])]


# As much as the popups of editors show beside a word.
SHORT = 40


def brief(text: str, length: int = SHORT) -> str:
    """The beginning of a text, as far as it makes sense by itself on one short line; else as many words as fit, and dots."""
    if len(text) <= length:
        return text
    ends = [m.start() for m in re.finditer(r"[;:.,](?= )| \(", text) if 12 <= m.start() <= length]
    ends = [end for end in ends if text.count("(", 0, end) == text.count(")", 0, end)]
    return text[: ends[-1]] if ends else text[: text.rindex(" ", 0, length)].rstrip(",;:(") + "…"
