"""Trees to the job: scope by order, tiles and products declared, rooms, steps, deviations and records.

The only stage that applies defaults; each is marked and asked.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import time
from functools import partial
from typing import TypeVar

from tilespec.diagnostics.model import Diagnostic, Label
from tilespec.job import header as headers
from tilespec.job.chapter import SURFACES, Chapter, cut
from tilespec.job.context import Context, Item
from tilespec.job.declared import Asked, Declared, by_kind
from tilespec.job.kept import Kept
from tilespec.job.missing import missing
from tilespec.job.parts import take_apart
from tilespec.job.product import declare as declare_product
from tilespec.job.records import RecordOrder, delivery, deviation, measured, notes, record, step
from tilespec.job.room import RoomDraft
from tilespec.job.room import build as build_room
from tilespec.job.start import start
from tilespec.job.surface import Tiles
from tilespec.job.tiling import declare as declare_tile
from tilespec.job.tiling import fits, laying, turned, usual_joint
from tilespec.job.types import (
    PLANNED,
    Covering,
    Delivery,
    Hours,
    Job,
    Note,
    Pattern,
    Product,
    Question,
    Room,
    Start,
    Tile,
    WaitData,
    Words,
)
from tilespec.outcome import Outcome
from tilespec.practice.lookup import FirmValue, practice
from tilespec.quantity import Default, Quantity
from tilespec.source import Span
from tilespec.syntax.nodes import Statement, Tree

T = TypeVar("T")

_STOCK = ("tile", "product", "limit", "use", "language")


@dataclass(slots=True)
class _Scope:
    """What has been declared so far, job-wide or for one room."""

    tiles: dict[str, Tile] = field(default_factory=dict)
    spans: dict[str, Span] = field(default_factory=dict)
    products: dict[tuple[str, str], Product] = field(default_factory=dict)  # by kind and name
    named: dict[str, tuple[str, Span]] = field(default_factory=dict)
    default: tuple[Statement, Tile] | None = None


@dataclass(slots=True)
class _Opened:
    """A room while its statements are read.

    chapter  which the room is all of, if it is
    unread   a statement in it could not be read at all
    scope    what it declares for itself, if anything
    """

    name: str
    st: Statement | None
    statements: list[Statement]
    chapter: Chapter | None = None
    unread: bool = False
    scope: _Scope | None = None


def assemble(trees: tuple[Tree, ...], generic: Tree, kept: Kept | None = None) -> Outcome[Job]:
    """The job of a spec (first tree) and the stock files it uses. `generic` is the tree of the built-in stock; `kept` has the
    parts of the same job as it was before an edit; what only the finished job is asked is then not asked."""
    asking, kept = kept is None, kept or Kept()
    chapters = kept.chapters(cut(trees[0].statements))
    stock = tuple(s for t in trees[1:] for s in t.statements)
    # What is said of the whole job never stands in a plain chapter.
    said = tuple(s for c in chapters if not c.plain for s in c.statements)
    first = headers.Header(family=headers.family_of(said))
    context = Context(practice(first.family), headers.sizes_in_mm(said))
    firm = [
        v
        for s in (*stock, *said)
        if s.kind == "limit" and len(s.args) == 2 and not s.broken and (v := headers.limit(s, first, context))
    ]
    context.practice = kept.practice(practice(first.family, tuple(firm)))
    return _Builder(context, first, chapters, stock, generic, kept, asking).run(tuple(t.file for t in trees))


class _Builder:
    def __init__(
        self,
        context: Context,
        header: headers.Header,
        chapters: tuple[Chapter, ...],
        stock: tuple[Statement, ...],
        generic: Tree,
        kept: Kept,
        asking: bool,
    ) -> None:
        self.kept = kept
        self.asking = asking
        self.context = context
        self.header = header
        self.chapters = chapters
        self.stock = stock
        self.generic = kept.part(
            "generic stock", (), Context(context.practice), lambda c: by_kind(_generic(generic, c)), of=generic
        )
        self.scope = _Scope()
        self.rooms: list[_Opened] = []
        self.said: dict[str, Quantity] = {}
        self.later: list[Statement] = []
        self.names: dict[str, _Opened] = {}
        self.seen_job: Statement | None = None
        self.single: dict[tuple[str, str, str], Statement] = {}  # said once in a room and file
        self.above = False  # what could not be read at all stands above the first room

    # ------------------------------------------------------------ reading in order

    def run(self, files: tuple[str, ...]) -> Outcome[Job]:
        for statements in (self.stock, *(c.statements for c in self.chapters if not c.plain)):
            for st in statements:
                if st.broken:
                    self.context.doubt(st)
                if st.kind == "unknown":
                    self.context.unread = True
                    self.context.lost.update(a.text for a in st.args)
        for st in self.stock:
            if st.kind not in _STOCK and st.kind != "unknown":
                self.context.report(
                    "not-stock",
                    st.span(),
                    f"`{st.kind}` does not belong in a stock file.",
                    help="A stock file holds tiles, products and limits. Move this line to the spec.",
                )
            elif st.kind in ("tile", "product") and not (st.broken and not st.args):
                self.declare(st, self.scope)
        for chapter in self.chapters:
            if chapter.plain:
                self.open_room(chapter.statements[0], list(chapter.statements[1:]), chapter)
            else:
                for st in chapter.statements:
                    self.read(st)
        return self.finish(files)

    def read(self, st: Statement) -> None:
        if st.kind == "unknown":
            # Of the rooms only this one can lack it: what stands below an unread `room` falls to the one before.
            if self.rooms:
                self.rooms[-1].unread = True
            else:
                self.above = True
        elif st.broken and not st.args and st.kind not in ("job", "conditions", *SURFACES):
            return
        elif st.kind == "job":
            if self.seen_job is not None:
                self.context.report(
                    "said-twice",
                    st.span(),
                    "The job is said twice.",
                    help="Put it all under one `job`.",
                    secondary=(Label(self.seen_job.span(), "said here first"),),
                )
                return
            self.seen_job = st
            headers.job(st, self.header, self.context)
        elif st.kind == "language":
            self.context.number(st, st.args[0], "version")
            self.once("language", st, "The version of the language")
        elif st.kind == "conditions":
            self.said.update(headers.conditions(st, self.said, self.context))
        elif st.kind in ("tile", "product"):
            if self.rooms and self.rooms[-1].scope is None:
                self.rooms[-1].scope = _Scope()
            self.declare(st, self.rooms[-1].scope or self.scope if self.rooms else self.scope)
        elif st.kind == "room":
            self.open_room(st, [])
        elif st.kind in SURFACES:
            if not self.rooms:
                self.names["Room"] = _Opened("Room", None, [], unread=self.above)
                self.rooms.append(self.names["Room"])
            self.rooms[-1].statements.append(st)
        elif st.kind in ("step", "deviation", "record", "delivery"):
            self.later.append(st)

    def once(self, key: str, st: Statement, what: str) -> None:
        """Tell what is said for the second time of the job or of a room."""
        room = self.rooms[-1] if self.rooms else None
        first = self.single.setdefault((key, room.name if room is not None else "", st.file), st)
        if first is not st:
            self.context.report(
                "said-twice",
                st.span(),
                f"{what} is said twice.",
                help="Keep one of the two.",
                secondary=(Label(first.span(), "said here first"),),
            )

    def open_room(self, st: Statement, statements: list[Statement], whole: Chapter | None = None) -> None:
        name = st.args[0].text
        opened = _Opened(name, st, statements, whole, self.above and not self.rooms)
        twin = self.names.setdefault(name, opened)
        if twin is not opened:
            self.context.report(
                "duplicate-name",
                st.span(st.args[0]),
                f"There are two rooms called `{name}`.",
                help="Give each room its own name.",
                secondary=(Label(twin.st.span(), "the other"),) if twin.st else (),
            )
        self.rooms.append(opened)

    def declare(self, st: Statement, scope: _Scope) -> None:
        if st.kind == "product":
            self.product(st, scope)
            return
        has_size = bool(st.args and st.args[0].kind == "quantity") or any(
            a.kind == "size" for line in st.lines for a in line.attributes
        )
        if not has_size:
            if not st.args:
                return
            name = st.args[0]
            if st.broken:
                self.context.lost.add(name.text)
                return
            tile = scope.tiles.get(name.text) or self.scope.tiles.get(name.text)
            if tile is None:
                known = tuple({**self.scope.tiles, **scope.tiles})
                self.context.unknown(
                    "unknown-tile",
                    st.span(name),
                    f"There is no tile `{name.text}`.",
                    name.text,
                    known,
                    f"Declare it with a size: `tile {name.text} 600x300x9 porcelain`.",
                )
                return
            self.once("tile", st, "The tile of all surfaces" if scope is self.scope else "The tile of this room")
            scope.default = (st, tile)
            return
        tile = self.kept.part("tile", (st,), self.context, lambda c: declare_tile(st, c))
        if tile is None:
            self.context.lost.update(a.text for a in st.args if a.kind == "name")
            return
        if tile.name in scope.tiles:
            self.context.report(
                "duplicate-name",
                st.span(st.args[0]) if st.args else st.span(),
                f"There are two tiles called `{tile.name}`." if tile.named else "There are two tiles without a name.",
                help="Give each its own name.",
                secondary=(Label(scope.spans[tile.name], "the other"),),
            )
            return
        scope.tiles[tile.name] = tile
        scope.spans[tile.name] = st.span()
        if not tile.named:
            self.once("tile", st, "The tile of all surfaces" if scope is self.scope else "The tile of this room")
            scope.default = (st, tile)

    def product(self, st: Statement, scope: _Scope) -> None:
        if len(st.args) < 2:
            return
        kind, name = st.args[0].text, st.args[1]
        if name.text == "none" and len(st.args) == 2:
            self.once(kind, st, f"`{kind}`")
            scope.named[kind] = ("none", st.span(name))
            return
        key = kind, name.text
        bare = len(st.args) == 2 and not any(line.attributes for line in st.lines)
        stock = any(p.name == name.text for p in self.generic.get(kind, ()))
        if bare and (stock or key in scope.products or key in self.scope.products):
            self.once(kind, st, f"`{kind}`")
            scope.named[kind] = (name.text, st.span(name))
            return
        product = self.kept.part("product", (st,), self.context, lambda c: declare_product(st, c, False))
        twin = scope.products.get((kind, product.name))
        if twin is not None:
            self.context.report(
                "duplicate-name",
                st.span(name),
                f"There are two products `{kind} {product.name}`.",
                help="Give each its own name.",
                secondary=(Label(twin.span, "the other"),) if twin.span else (),
            )
            return
        scope.products[kind, product.name] = product

    # ------------------------------------------------------------ finishing

    def finish(self, files: tuple[str, ...]) -> Outcome[Job]:
        context, header = self.context, self.header
        conditions = headers.settle(self.said, context)
        deliveries = self.deliveries()
        rooms: list[Room] = []
        shared = self.declared(_Scope())
        for opened in self.rooms:
            room = self.room(opened, shared if opened.scope is None else self.declared(opened.scope))
            if room is not None:
                rooms.append(room)
        if not any(r.tiled for r in rooms) and not self.faulty():
            main = [st for c in self.chapters for st in c.statements]
            where = main[0].span() if main else Span(files[0], 0, 0)
            if main and all(s.kind in _STOCK for s in main):
                context.report(
                    "stock-only",
                    where,
                    "This file holds stock only: there is nothing to print of it.",
                    help="A spec names it with `use`.",
                )
            else:
                context.report(
                    "nothing-tiled",
                    where,
                    "Nothing is tiled in this spec.",
                    help="Say a floor or a wall with its tile, for example `floor 2.4 x 1.8; wall A; tile 300x600 joint 3`.",
                )
        if header.hours is None:
            hours = Hours((0, 1, 2, 3, 4), time(7, 30), time(16, 0), False)
            context.ask(
                "hours", "job", "What are the working days and hours? (Monday to Friday, 07:30 to 16:00 meanwhile)", "client"
            )
        else:
            hours = header.hours
        crew = header.crew
        if not crew:
            crew = (
                ("tiler", context.assume("crew-tilers", "crew", "job", "Who is in the crew?", "client")),
                ("helper", context.assume("crew-helpers", "crew-helpers", "job", "Is there a helper?", "client")),
            )
        notice = header.notice or context.assume(
            "hold-notice", "notice", "job", "How long before a hold point must the others be told?", "client"
        )
        if header.begin is None:
            context.ask("begin", "job", "On which day does the work begin?", "client")
        if header.measured_to is None:
            context.ask(
                "measured-to",
                "job",
                "Are the rooms measured to the bare wall or to the tile face? (bare wall meanwhile)",
                "survey",
            )
        if not header.family_given:
            context.ask("practice", "job", "Which practice applies: EN, DE, UK, US or AU? (EN meanwhile)", "client")
        if header.built is None:
            context.ask("built", "job", "When was the building built? (asbestos and lead)", "client")
        names = tuple(o.name for o in self.rooms)
        places = self.places(names, rooms) if self.later else None
        steps = tuple(s for s in self.each("step", places, lambda st, c: step(st, names, c)) if s)
        deviations = tuple(d for d in self.each("deviation", places, lambda st, c: deviation(st, names, rooms, c)) if d)
        records = tuple(r for r in self.each("record", places, lambda st, c: record(st, names, rooms, c)) if r)
        RecordOrder(context).check(records)
        job = Job(
            title=header.title,
            reference=header.reference,
            revision=header.revision,
            date=header.date,
            site=header.site,
            client=header.client,
            firm=header.firm,
            author=header.author,
            family=header.family,
            family_given=header.family_given,
            begin=header.begin,
            hours=hours,
            crew=crew,
            closed=tuple(sorted(set(header.closed))),
            built=header.built,
            occupied=header.occupied,
            measured_to=header.measured_to or "bare wall",
            paper=header.paper or ("Letter" if header.family == "US" else "A4"),
            notice=notice,
            conditions=conditions,
            rooms=tuple(rooms),
            steps=steps,
            deviations=deviations,
            records=records,
            firm_limits=tuple(header.limits),
            questions=tuple(context.questions),
            files=files,
            notes=self.notes(rooms),
            deliveries=deliveries,
            declared=tuple(p for scope in self.scopes() for p in scope.products.values()),
            cutting=header.cutting or PLANNED,
            aids=header.aids,
        )
        if self.asking:
            job = replace(job, questions=_ordered((*job.questions, *missing(job, context.practice)), names))
        return Outcome(job, tuple(_unique(context.diagnostics)))

    def faulty(self) -> bool:
        """Whether there is a mistake already that may be why nothing is tiled."""
        broken = any(st.broken for c in self.chapters if not c.plain for st in c.statements)
        return broken or any(d.severity.value == "error" for d in self.context.diagnostics)

    def places(self, names: tuple[str, ...], rooms: list[Room]) -> object:
        """Of the rooms, what is said about a place only needs to know which surfaces there are."""
        said = names, *((r.name, *(s.letter for s in r.surfaces)) for r in rooms)
        return self.kept.lasting((), said, lambda: said)

    def declared(self, scope: _Scope) -> Declared:
        """What a room can name that declares this itself."""
        tiles = {**self.scope.tiles, **scope.tiles}
        default = scope.default or self.scope.default
        products = (*scope.products.values(), *self.scope.products.values())
        named = {**self.scope.named, **scope.named}
        made_of = (*tiles.values(), *products, self.generic, *(default or ()))
        said = len(tiles), *tiles, *named.items()
        return self.kept.lasting(made_of, said, lambda: Declared(tiles, default, by_kind(products), named, self.generic))

    def room(self, opened: _Opened, declared: Declared) -> Room | None:
        """The room with what is declared for it."""
        st, asked = opened.st, Asked(declared)

        def make(context: Context) -> Room | None:
            draft = RoomDraft(opened.name, context.words(st, st.args[0]) if st else None, st, opened.unread, opened.statements)
            draft.pool, draft.named = asked.pool, declared.named
            draft.tiles = self.tiles(asked.tiles, declared.default, context)
            return build_room(draft, context)

        said = opened.chapter.statements if opened.chapter else (*((st,) if st else ()), *opened.statements)
        statements = (*said, declared.default[0]) if declared.default else said
        return self.kept.part(
            "room", statements, self.context, make, of=opened.chapter, asked=asked, declared=declared, unread=opened.unread
        )

    def scopes(self) -> tuple[_Scope, ...]:
        return (self.scope, *(o.scope for o in self.rooms if o.scope is not None))

    def each(self, kind: str, around: object, make: Callable[[Statement, Context], T]) -> tuple[T, ...]:
        """What the statements of a kind say."""
        found = [st for st in self.later if st.kind == kind]
        unread = self.context.unread
        return tuple(self.kept.part(kind, (st,), self.context, partial(make, st), around=around, unread=unread) for st in found)

    def deliveries(self) -> tuple[Delivery, ...]:
        """What came, and every tile at the size that it came in: before anything is built of it."""
        scopes = self.scopes()
        tiles = {name: t for scope in scopes for name, t in scope.tiles.items()}
        found: list[Delivery] = []

        def make(st: Statement, context: Context) -> Delivery | None:
            came = delivery(st, tiles, context)
            return replace(came, tile=measured(tiles[came.tile.name], came)) if came is not None else None

        for st in self.later:
            if st.kind != "delivery":
                continue
            around = self.kept.lasting(tuple(tiles.values()), tuple(tiles), lambda: tuple(tiles))
            came = self.kept.part("delivery", (st,), self.context, partial(make, st), around=around)
            if came is None:
                continue
            tile = came.tile
            tiles[tile.name] = tile
            found.append(came)
            for scope in scopes:
                if tile.name in scope.tiles:
                    scope.tiles[tile.name] = tile
                if scope.default is not None and scope.default[1].name == tile.name:
                    scope.default = (scope.default[0], tile)
        return tuple(found)

    def notes(self, rooms: list[Room]) -> tuple[Note, ...]:
        """Notes of the spec, and those of stock that is in use."""
        found = tuple(note for c in self.chapters for note in c.notes)
        if not self.stock:
            return found
        products = {(p.kind, p.name) for r in rooms for p in r.products}
        tiles = {t.name for r in rooms for t in r.tiles}
        used = [
            st for st in self.stock
            if (st.kind == "product" and len(st.args) > 1 and (st.args[0].text, st.args[1].text) in products)
            or (st.kind == "tile" and st.args and st.args[0].text in tiles)
        ]
        return (*found, *(note for st in used for note in notes(st)))

    def tiles(self, known: Mapping[str, Tile], found: tuple[Statement, Tile] | None, context: Context) -> Tiles:
        """The tiles that a room can name, and its default covering, from a `tile` at the margin."""
        if found is None:
            return Tiles(known)
        st, tile = found
        quiet = Context(context.practice)
        parts = take_apart(st, quiet)
        said = parts.own
        # Words at a tile with a size describe the tile; at one that is only named, how it is laid.
        sized = parts.get("size") is not None or bool(st.args and st.args[0].kind == "quantity")
        how = laying(st, tuple(a for a in said if a.kind != "words" or not sized), known, context)
        if how.orientation:
            tile = turned(tile, how.orientation)
        pattern = how.pattern or Pattern("straight", given=False)
        a = next((x for x in said if x.kind == "joint"), None)
        joint = context.number(st, a.args[0], "joint") if a else None
        if a is not None and joint is not None and joint.value >= min(tile.width.value, tile.height.value):
            context.report(
                "joint-wider-than-tile",
                st.span(a),
                "The joint is as wide as the tile or wider.",
                help="Joints are said in millimetres: `joint 3`.",
            )
            joint = None
        if joint is None:
            joint = usual_joint(tile, True, context, f"tile {tile.name}")
        fits(tile, joint, pattern, pattern.span or st.span(), context)
        # Each surface reads the start for itself; here its words are judged.
        start(st, said, (), None, context, own=False)
        return Tiles(known, Covering(tile, joint, pattern, Start(), None, "field", st.span()), (st, said))


def _generic(tree: Tree, context: Context) -> tuple[Product, ...]:
    """The built-in stock. What its statements leave open is no question of the job."""
    return tuple(
        _as_generic(declare_product(st, context, True)) for st in tree.statements if st.kind == "product" and len(st.args) > 1
    )


def _as_generic(product: Product) -> Product:
    """The generic product with every value marked: to be confirmed on the data sheet of the product that is bought."""

    def mark(q: Quantity | None, what: str) -> Quantity | None:
        if q is None:
            return None
        question = f"Data sheet of the {product.kind} that is bought: {what}?"
        return Quantity(q.value, q.kind, q.shown, Default(question, f"generic product {product.name}", "data sheet"))

    p = product
    waits = tuple(
        WaitData(w.before, mark(w.minimum, "wait") or w.minimum, mark(w.maximum, "longest wait"), w.overrun) for w in p.waits
    )
    return replace(
        p, span=None, waits=waits, pack=mark(p.pack, "pack"), consumption=mark(p.consumption, "consumption"),
        density=mark(p.density, "density"), water=mark(p.water, "mixing water"), maturing=mark(p.maturing, "maturing time"),
        pot_life=mark(p.pot_life, "pot life"), open_time=mark(p.open_time, "open time"), coats=mark(p.coats, "coats"),
        film=mark(p.film, "dry film"), notch=mark(p.notch, "notch"), width=mark(p.width, "width"),
        temperature_min=mark(p.temperature_min, "lowest temperature"),
        temperature_max=mark(p.temperature_max, "highest temperature"),
        movement=mark(p.movement, "movement"), output=mark(p.output, "output"), voltage=mark(p.voltage, "voltage"),
        resistance=mark(p.resistance, "resistance"), carries=mark(p.carries, "load"),
    )


def _unique(found: list[Diagnostic]) -> list[Diagnostic]:
    """In the order of the text, each once (a statement may be looked at for more than one purpose)."""
    seen: dict[tuple[str, Span, str], Diagnostic] = {}
    for d in found:
        seen.setdefault((d.name, d.primary.span, d.message), d)
    return list(seen.values())


def _ordered(questions: tuple[Question, ...], rooms: tuple[str, ...]) -> tuple[Question, ...]:
    """By who is asked, then room by room; what is about the whole job or about tiles before the rooms."""
    order = {"survey": 0, "client": 1, "designer": 2, "data sheet": 3}

    rank = {name: n for n, name in reversed(list(enumerate(rooms)))}

    def room(q: Question) -> int:
        # A surface is named behind its room: "Bathroom/wall A".
        return rank.get(q.about, rank.get(q.about.rpartition("/")[0], -1))

    return tuple(sorted(questions, key=lambda q: (order.get(q.ask, 9), room(q))))


__all__ = ["assemble", "FirmValue", "Item", "Words"]
