"""Names of a spec: where each is declared, where it is used, and what renaming it changes."""

from __future__ import annotations

import os.path
import re
from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.editor.desk import Desk, Page
from tilespec.editor.spot import Spot
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement

TILE, PRODUCT, ROOM, WALL, FILE = "tile", "product", "room", "wall", "file"
_NAME = re.compile(r"[^\W\d_][\w'./+-]{0,80}")
_ROOMS = ("on_room", "on_room_wall", "on_room_floor", "in_room")
_WALLS = ("on_wall", "along", "at_wall", "from_wall", "in_corner")
# Of these, a wall's letter stands behind the word `wall`.
_BEHIND_WALL = ("full_tile", "start_from", "joints_follow", "joint_on", "tile_on")


@dataclass(frozen=True, slots=True)
class Mention:
    """A name in a text.

    name      of a product with its kind: "adhesive wall-grip"
    room      the room it is looked for in: "" before the first
    span      of the name alone, without quotes, in the text of its file
    defines   the name is declared here; `leg`: a wall, by walking round the room
    """

    what: str
    name: str
    room: str
    span: Span
    defines: bool
    leg: bool = False


@dataclass(frozen=True, slots=True)
class _Named:
    """A name within its statement. `room`: where it is looked for, if not in the room of the statement."""

    what: str
    name: str
    atom: Atom
    defines: bool = False
    leg: bool = False
    room: str | None = None


def mentions(page: Page) -> list[Mention]:
    """Every name of a spec and the files it uses, in order: stock first, as it is read."""
    if page.look is None:
        return []
    found: list[Mention] = []
    trees = page.look.workspace.trees
    for tree in (*trees[1:], trees[0]):
        room = ""
        for st in tree.statements:
            if st.kind == "room" and st.args:
                room = st.args[0].text
            for n in _of(st):
                span = st.span(n.atom)
                if n.atom.kind == "string":
                    span = Span(span.file, span.start + 1, span.end - 1)
                found.append(Mention(n.what, n.name, room if n.room is None else n.room, page.back(span), n.defines, n.leg))
    return found


def _of(st: Statement) -> Iterator[_Named]:
    args = st.args
    attributes = [a for line in st.lines for a in line.attributes]
    if st.kind == "tile" and args and args[0].kind == "name":
        yield _Named(TILE, args[0].text, args[0], any(a.kind == "size" for a in attributes))
    elif st.kind == "product" and len(args) > 1 and args[1].text != "none":
        yield _Named(PRODUCT, f"{args[0].text} {args[1].text}", args[1], len(args) > 2 or bool(attributes))
    elif st.kind == "room" and args:
        yield _Named(ROOM, args[0].text, args[0], True)
    elif st.kind == "wall" and args:
        yield _Named(WALL, args[0].text, args[0], True)
    elif st.kind == "delivery" and args:
        yield _Named(TILE, args[0].text, args[0])
    elif st.kind == "use" and args:
        yield _Named(FILE, args[0].text, args[0])
    for a in attributes:
        yield from _in_attribute(a)


def _in_attribute(a: Attribute) -> Iterator[_Named]:
    names = [x for x in a.args if x.kind in ("name", "string", "tile")]
    if a.kind in _ROOMS and names:
        yield _Named(ROOM, names[0].text, names[0])
        if a.kind == "on_room_wall" and len(names) > 1:
            yield _Named(WALL, names[1].text, names[1], room=names[0].text)
    elif a.kind == "tile" and names and not any(x.kind == "quantity" for x in a.args):
        yield _Named(TILE, names[0].text, names[0])
    elif names and (a.kind == "modular" or a.kind == "for" and names[0].kind == "tile"):
        yield _Named(TILE, names[-1].text, names[-1])
    elif a.kind == "product" and len(names) > 1 and names[1].text != "none":
        yield _Named(PRODUCT, f"{names[0].text} {names[1].text}", names[1])
    elif a.kind in _WALLS:
        yield from (_Named(WALL, x.text, x) for x in names)
    elif a.kind in _BEHIND_WALL:
        yield from (_Named(WALL, y.text, y) for x, y in zip(names, names[1:]) if x.text == "wall")
    elif a.kind == "walk":
        yield from (_Named(WALL, x.text, x, True, True) for x in names)


def target(found: list[Mention], asked: Mention) -> Mention | None:
    """The declaration that a mention means."""
    same = [m for m in found if m.defines and (m.what, m.name) == (asked.what, asked.name)]
    here = [m for m in same if m.room == asked.room]
    if asked.what == WALL:
        return min(here, key=lambda m: m.leg, default=None)
    if asked.what in (TILE, PRODUCT):
        return next(iter(here), None) or next((m for m in same if not m.room), None)
    return next(iter(same), None)


def named(spot: Spot) -> Mention | None:
    """The mention under the cursor."""
    for m in mentions(spot.page):
        if m.span.file == spot.file and m.span.start <= spot.offset <= m.span.end:
            return m
    return None


def file_of(desk: Desk, page: Page, m: Mention) -> str | None:
    """The path of the file that a `use` means, among those that were read."""
    if page.look is None:
        return None
    wanted = [os.path.join(os.path.dirname(m.span.file), m.name)] + ([f"{desk.library}/{m.name}"] if desk.library else [])
    reals = {desk.host.real(path) for path in wanted}
    return next((name for name in page.look.sources if desk.host.real(name) in reals), None)


def definition(desk: Desk, spot: Spot) -> Span | None:
    m = named(spot)
    if m is None:
        return None
    if m.what == FILE:
        path = file_of(desk, spot.page, m)
        return Span(path, 0, 0) if path is not None else None
    found = target(mentions(spot.page), m)
    return found.span if found is not None else None


def references(desk: Desk, spot: Spot, declaration: bool = True) -> list[Span]:
    """Every place that means the same, in all open specs."""
    return [m.span for m in _same(desk, spot) if declaration or not m.defines]


def _same(desk: Desk, spot: Spot) -> list[Mention]:
    m = named(spot)
    if m is None:
        return []
    if m.what == FILE:
        return [x for x in mentions(spot.page) if x.what == FILE and x.name == m.name]
    meant = target(mentions(spot.page), m)
    found: dict[Span, Mention] = {}
    for page in {id(p): p for p in (spot.page, *desk.pages.values())}.values():
        listed = mentions(page)
        for other in listed:
            if (other.what, other.name) == (m.what, m.name) and (meant is not None or page is spot.page):
                to = target(listed, other)
                if (to.span if to else None) == (meant.span if meant else None):
                    found.setdefault(other.span, other)
    return sorted(found.values(), key=lambda x: (x.span.file, x.span.start))


class Refused(Exception):
    """What cannot be renamed, or not so; the message says why."""


def renamable(spot: Spot) -> Mention:
    """The name under the cursor, if it can be renamed. Raises Refused."""
    m = named(spot)
    if m is None or m.what not in (TILE, PRODUCT, ROOM):
        raise Refused("Tiles, products and rooms can be renamed; nothing of these stands here.")
    if target(mentions(spot.page), m) is None:
        raise Refused(f"{m.name} is not declared in these files: it comes with tilespec, or is not known.")
    return m


def rename(desk: Desk, spot: Spot, new: str) -> list[tuple[Span, str]]:
    """The edits that give a name to what stands under the cursor, wherever it is meant. Raises Refused."""
    m = renamable(spot)
    new = new.strip()
    if m.what == ROOM:
        if not new or '"' in new or "\n" in new:
            raise Refused("A room's name is a text on one line, without quotes.")
    elif not _NAME.fullmatch(new) or new == "none":
        raise Refused("A name is one word that starts with a letter; letters, digits, - _ . / + and ' may follow.")
    wanted = f"{m.name.split(' ')[0]} {new}" if m.what == PRODUCT else new
    meant = target(mentions(spot.page), m)
    for other in mentions(spot.page):
        if other.defines and (other.what, other.name) == (m.what, wanted) and meant is not None:
            if wanted != m.name and (m.what == ROOM or other.room == meant.room):
                raise Refused(f"There is already a {m.what} {new}.")
    edits = []
    for x in _same(desk, spot):
        text = desk.text(x.span.file)
        quoted = text[x.span.start - 1 : x.span.start] == '"'
        edits.append((x.span, new if quoted or _NAME.fullmatch(new) else f'"{new}"'))
    return edits
