"""Where something is typed: the statement, the item of it, and what the piece has said so far."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tilespec.editor.desk import Page
from tilespec.editor.place import Seated
from tilespec.editor.spot import Before, room_of
from tilespec.job.parts import twice
from tilespec.job.schema import ITEMS, ONE
from tilespec.job.schema import STATEMENTS as SCHEMA
from tilespec.syntax.ahead import Ahead, ahead, ended
from tilespec.syntax.nodes import Statement
from tilespec.syntax.words import PRODUCTS, starts_statement

# What the tables of attributes let stand where it says nothing, by statement, item and kind.
IDLE = frozenset({
    ("datum", "", "below"), ("wall", "valve", "on_wall"), ("wall", "outlet", "on_wall"), ("floor", "product", "at"),
})  # fmt: skip
_SURFACES, _ROOMS = ("on_wall", "on_floor", "on_room_wall", "on_room_floor"), ("on_room", "in_room")
# What says how a tile is laid, and nothing about the tile itself.
_LAYING = ("joint_on", "tile_on", "full_tile", "start_from", "joints_follow", "run", "modular")


@dataclass(frozen=True, slots=True)
class Seat:
    """kind       of the statement; "" at the margin before its word is known
    thing      its first word: a product's own
    name       what stands behind that: the name of a tile, the kind of a record
    piece      what the piece says up to the word being typed
    entry      "head" or "attributes"
    item       of the line, that the piece can say something about; "" for none
    following  what can stand next; None where the piece cannot be read
    room       the statement stands in
    start      of what is typed, in the text
    sized      of a tile: its size is said
    described  the words that describe the item, of the pieces before
    own        kinds said of the statement elsewhere in it; beside: of the item, on its line
    begun      items that the statement has elsewhere, a product by its own word
    """

    page: Page
    room: str
    kind: str
    thing: str
    name: str
    piece: str
    entry: str
    item: str
    following: Ahead | None
    start: int
    indented: bool
    head: str
    sized: bool
    described: tuple[str, ...] = ()
    own: frozenset[str] = frozenset()
    beside: tuple[str, ...] = ()
    begun: frozenset[str] = frozenset()

    @property
    def laid(self) -> bool:
        """Whether it is said how a tile is laid: on a surface, or of the tile of a whole room."""
        return self.item == "tile" or self.kind == "tile" and not self.sized

    @property
    def allowed(self) -> dict[str, int]:
        """The kinds of attributes that can be said here, with their order."""
        if self.kind not in SCHEMA:
            return {}
        own, items = SCHEMA[self.kind]
        said = ITEMS.get(self.item, ())
        kinds = [k for k in dict.fromkeys((*said, *own, *items)) if k != "at" or self.item in ("product", "sensor")]
        if self.kind == "tile" and self.sized and self.name:
            kinds = [k for k in kinds if k not in _LAYING]
        kinds = [k for k in kinds if (self.kind, self.item_for(k), k) not in IDLE]
        return {kind: n for n, kind in enumerate(kinds)}

    def again(self, kind: str) -> bool:
        """Whether it has been said and cannot be said twice."""
        if kind in self.begun and kind in (*ONE, "base"):
            return True
        item = self.item_for(kind)
        said = self.beside if item else self.own
        if kind in _ROOMS and self.own.intersection(_SURFACES):
            look = self.page.look
            return kind == "on_room" or look is None or len(look.job.rooms) < 2
        return twice(kind, said, item or self.kind)

    def item_for(self, kind: str) -> str:
        """The item that an attribute of a kind would say something about."""
        return self.item if kind in ITEMS.get(self.item, ()) else ""


def seat(page: Page, file: str, so_far: Before, begin: int, start: int) -> Seat:
    """so_far: the line up to the word being typed, which starts at `start`; `begin`: where the line does."""
    seated = page.seated(file)
    assert seated is not None
    text = seated.source.text
    pieces = so_far.pieces
    n = seated.index(begin if so_far.indented else begin - 1) if begin else -1
    above = seated.tree.statements[n] if n >= 0 else None
    room = room_of(seated, above) if above is not None else ""
    firsts: list[int] = []
    if so_far.indented and above is not None:
        at = seated.start(n)
        head = text[at : min((x for x in (text.find("\n", at), text.find(";", at)) if x >= 0), default=len(text))]
        kind = above.kind
        line = pieces
        whole: Statement | None = above
    else:
        # At the margin: the last piece that starts a statement.
        firsts = [n for n, piece in enumerate(pieces) if starts_statement(*two(piece))]
        line = pieces[firsts[-1] :] if firsts else pieces[-1:]
        head = line[0] if firsts else ""
        first = two(head)[0]
        kind = "product" if first in PRODUCTS else first
        kind = kind if kind in SCHEMA else ""
        at = seated.index(start - 1) if firsts and start else -1
        whole = seated.tree.statements[at] if at >= 0 and seated.tree.statements[at].kind == kind else None
    thing, name = two(head)
    entries = ["attributes"] * len(line)
    if firsts:
        entries[0] = "head"
    item, sized = "", bool(kind == "tile" and re.search(r"[0-9].*[xX×].*[0-9]", head))
    following = None
    own, begun = _elsewhere(seated, whole, begin, start) if whole is not None and whole.kind in SCHEMA else (set(), set())
    beside: list[str] = []
    described: list[str] = []
    words: list[str] = []
    for piece, entry in zip(line, entries, strict=True):
        described += words
        words = []
        following = ahead(piece.rstrip(), entry)
        if following is None:
            continue
        last = sorted(ended(following.inside)) if following.ends else []
        said = [*following.whole, *last]
        if entry == "head" and said and kind in ("product", said[0]):
            said = said[1:]
        words = [w.lower() for w in following.values] if last == ["words"] else []
        for one in said:
            sized = sized or one == "size"
            if one in ITEMS.get(item, ()):
                beside.append(one)
                continue
            if kind in SCHEMA and one in SCHEMA[kind][1]:
                item, described, beside = one, [], []
                begun.add(one)
            elif kind in SCHEMA and one in SCHEMA[kind][0] and one != "words":
                item, described, beside = "", [], []
                own.add(one)
    return Seat(
        page, room, kind, thing, name, pieces[-1].rstrip(), entries[-1], item, following, start, so_far.indented, head, sized,
        tuple(described), frozenset(own), tuple(beside), frozenset(begun),
    )


def _elsewhere(seated: Seated, st: Statement, begin: int, start: int) -> tuple[set[str], set[str]]:
    """What a statement says on all lines, but for what is being typed: kinds of its own, and items."""
    own: set[str] = set()
    begun: set[str] = set()
    for line in st.lines:
        item = ""
        for a in line.attributes:
            first, last = seated.offset(st.base + a.start), seated.offset(st.base + a.end - 1) + 1
            said = ITEMS.get(item, ())
            if a.kind in SCHEMA[st.kind][1] and a.kind not in said:
                item = a.kind
            elif a.kind in SCHEMA[st.kind][0] and a.kind != "words" and a.kind not in said:
                item = ""
            if first <= start <= last or a.kind in said:
                continue
            if item:
                begun.add(a.args[0].text if a.kind == "product" else a.kind)
            else:
                own.add(a.kind)
    return own, begun


def two(piece: str) -> tuple[str, str]:
    m = re.match(r"([^\W\d_][\w-]*)[ \t\u00a0]*([^\W\d_][\w-]*)?", piece)
    return (m[1], m[2] or "") if m else ("", "")
