"""Where a set-out starts on one surface, direction by direction, as a spec says it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

from tilespec.diagnostics.model import Label
from tilespec.job.context import Context, Item
from tilespec.job.plan import Plan, direction, inward
from tilespec.job.types import Opening, Penetration, Start, WallLine
from tilespec.quantity import Quantity
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.vocabulary import CENTRE, FROM, MIDDLES, STARTS, WAYS

Sides = tuple[Quantity, Quantity]
Point = tuple[Quantity, Quantity]

_PLACES = ("from_side", "from_wall", "up", "above", "below", "bottom")
_SAME = {"finished floor": "floor", "ceiling": "top", "center": "centre"}


@dataclass(slots=True)
class Ground:
    """What a start on one surface can be at.

    point     reads the place of a tile's lower left corner; given the sides of the tile, from its nearest edges
    holds     whether a point lies on the surface; extent: what to check where it does not
    doors     floors: the walls with a doorway
    lost      kinds of things that are said but could not be read: they may be what a start is at
    followed  grows: what joints of this surface are said to follow, and where; judged when all surfaces of the room are known
    """

    letter: str  # "" for the floor
    title: str
    plan: Plan | None
    neighbours: tuple[str, str]
    point: Callable[[tuple[Attribute, ...], Sides | None], Point | None]
    holds: Callable[[Fraction, Fraction], bool]
    extent: str
    openings: tuple[Opening, ...] = ()
    drains: tuple[Penetration, ...] = ()
    doors: tuple[WallLine, ...] = ()
    lost: tuple[str, ...] = ()
    followed: list[tuple[str, Span]] = field(default_factory=list)

    @property
    def floor(self) -> bool:
        return not self.letter


def split(item: Item) -> tuple[Item, tuple[Attribute, ...]]:
    """An item without the place that stands behind its `start at`, and that place."""
    at = next((n for n, a in enumerate(item.said) if a.kind == "start_at"), None)
    if at is None:
        return item, ()
    end = at + 1
    while end < len(item.said) and end - at <= 2 and item.said[end].kind in _PLACES:
        end += 1
    return Item(item.opener, (*item.said[: at + 1], *item.said[end:]), item.line), item.said[at + 1 : end]


class _Reader:
    """The start of one covering. `ground` None: words are judged, but on no surface (a tile at the margin).

    own   said at the surface itself: what it lacks is an error. What is said for the whole room holds where it can.
    """

    def __init__(self, st: Statement, ground: Ground | None, context: Context, own: bool, field_: bool) -> None:
        self.st, self.ground, self.context, self.own, self.field = st, ground, context, own, field_
        self.found: dict[str, tuple[str, Attribute]] = {}
        self.both: tuple[str, Attribute] | None = None
        self.follows: list[str] = []

    def set(self, way: str, value: str, a: Attribute) -> None:
        before = self.found.get(way)
        if before is not None and before[1] is not a:
            other = "across" if way == "up" else "up"
            turns = any(x.kind in ("joint_on", "tile_on") for x in (a, before[1]))
            self.context.report(
                "said-twice",
                self.st.span(a),
                f"The start {way} is said twice.",
                help=f"Keep one of the two, or write which is meant for {other}: `tile on centre {other}`."
                if turns
                else "Keep one of the two.",
                secondary=(Label(self.st.span(before[1]), "said here first"),),
            )
            return
        self.found[way] = (value, a)

    # ------------------------------------------------------------ on the middle of something

    def on(self, a: Attribute) -> None:
        word = a.args[0]
        target = _SAME.get(word.text.lower(), word.text.lower())
        if target not in MIDDLES:
            self.context.unknown(
                "unknown-choice", self.st.span(word), f"A set-out does not start on `{word.text}`.", word.text, MIDDLES
            )
            return
        way = " ".join(x.text.lower() for x in a.args[1:])
        if way and way not in WAYS:
            span = self.st.span(a.args[1]).to(self.st.span(a.args[-1]))
            self.context.unknown("unknown-choice", span, f"`{way}` is no direction of a set-out.", way, WAYS)
            return
        value = f"{'joint' if a.kind == 'joint_on' else 'tile'} on {target}"
        if target not in CENTRE and not self.there(target, a, a.args[0]):
            return
        ways = ("across", "up") if way == "both ways" or not way and target == "drain" else (way or "across",)
        ground = self.ground
        if target == "door" and ground is not None:
            if ground.floor:
                along = "across" if direction(ground.doors[0])[0] else "up"
                if way and way != along:
                    self.context.report(
                        "start-nowhere",
                        self.st.span(a),
                        f"The doorway lies in wall {ground.doors[0].letter}: a tile can be on its middle only along that wall.",
                        help=f"Write `{value}`, or `full tile at door` for the other direction.",
                    )
                    return
                ways = (along,)
            elif "up" in ways:
                self.context.report(
                    "start-nowhere",
                    self.st.span(a),
                    "A door stands on the floor: courses do not start on its middle.",
                    help=f"Write `{value}` for the start across; upwards `full tile at floor` or `full tile at datum`.",
                )
                return
        for w in ways:
            self.set(w, value, a)
        if target == "centre" and not way and ground is not None and ground.floor:
            self.both = (value, a)   # both ways, unless the other is said

    def there(self, target: str, a: Attribute, word: Atom) -> bool:
        """Whether the surface has the one window, door or drain that is meant."""
        ground = self.ground
        if ground is None:
            return True
        if target == "door" and ground.floor:
            number = len(ground.doors)
        elif target == "drain":
            number = len(ground.drains)
        else:
            number = sum(o.kind == target for o in ground.openings)
        if number == 1:
            return True
        if self.own and not self.context.unread and target not in ground.lost:
            where = "this room" if target == "door" and ground.floor else ground.title
            place = "0.6 from wall D, 0.3 from wall A" if ground.floor else "0.6 from left, 1.2 up"
            if number:
                message = f"There are {number} {target}s: it is not clear at which one the set-out starts."
                help = f"Say the place of a full tile: `start at {place}`."
                if ground.floor and target == "door":
                    help = f"Name the wall: `full tile at wall {ground.doors[0].letter}`."
            else:
                message = f"There is no {target} {'in' if where == 'this room' else 'on'} {where} to start at."
                side = "wall A" if ground.floor else "left"
                help = f"Write `joint on centre`, `tile on centre` or `full tile at {side}`, or say " + (
                    f"the {target} on its wall." if where == "this room" else f"the {target} with its place."
                )
                if ground.floor and target == "window":
                    help = f"Write `joint on centre`, or say the place of a full tile: `start at {place}`."
                elif not ground.floor and target == "drain":
                    help = "Write `joint on centre`, `tile on centre` or `full tile at left`. A drain lies in the floor."
            self.context.report("start-nowhere", self.st.span(word), message, help=help)
        return False

    # ------------------------------------------------------------ a full tile from a side

    def full(self, a: Attribute) -> None:
        text = " ".join(x.text.lower() for x in a.args)
        span = self.st.span(a.args[0]).to(self.st.span(a.args[-1]))
        if a.args[0].text.lower() == "wall" and len(a.args) == 2:
            self.wall(a, a.args[1])
            return
        known = STARTS if a.kind == "full_tile" else FROM
        if text not in known:
            how = "at" if a.kind == "full_tile" else "from"
            self.context.unknown("unknown-choice", span, f"A set-out does not start {how} `{text}`.", text, known)
            return
        text = _SAME.get(text, text)
        if text in ("left", "right"):
            self.set("across", f"from {text}", a)
        elif text == "drain":
            # A drain is cut into the middle of a full tile.
            if self.there(text, a, a.args[0]):
                self.set("across", "tile on drain", a)
                self.set("up", "tile on drain", a)
        elif text in ("door", "window"):
            if self.there(text, a, a.args[0]):
                floor = self.ground is not None and self.ground.floor
                square = floor and self.ground is not None and direction(self.ground.doors[0])[0]
                self.set("up" if square else "across", f"full tile at {text}", a)
        elif self.ground is not None and self.ground.floor:
            if self.own:
                self.context.report(
                    "start-nowhere",
                    span,
                    f"`{text}` is a place on walls, not on a floor.",
                    help="Name the wall that the full tiles start from: `full tile at wall A`.",
                )
        elif text == "top" and a.kind == "start_from":
            self.set("up", "from top", a)
        else:
            self.set("up", f"full tile at {text}", a)

    def wall(self, a: Attribute, letter: Atom) -> None:
        """A full tile at a wall: on a floor at one of its sides, on a wall in the corner with its neighbour."""
        ground = self.ground
        if ground is None:
            return
        span = self.st.span(letter)
        if not ground.floor:
            if letter.text in ground.neighbours:
                self.set("across", "from left" if letter.text == ground.neighbours[0] else "from right", a)
            elif self.own:
                self.context.unknown_wall(
                    span,
                    f"Wall {letter.text} does not meet {ground.title}.",
                    letter.text,
                    ground.neighbours,
                    f"Beside it are wall {ground.neighbours[0]} on the left and wall {ground.neighbours[1]} on the right.",
                )
            return
        plan = ground.plan
        line = plan.wall(letter.text) if plan is not None else None
        if plan is None or line is None:
            self.context.unknown_wall(
                span, f"This room has no wall {letter.text}.", letter.text, plan.letters if plan is not None else ()
            )
            return
        normal, (x0, y0, x1, y1) = inward(line), plan.bounds()
        at, low, high = (line.start[0], x0, x1) if normal[0] else (line.start[1], y0, y1)
        if at not in (low, high):
            self.context.report(
                "start-nowhere",
                self.st.span(a),
                f"Wall {letter.text} is no outer side of the floor.",
                help=f"Say the place of a full tile: `start at 0 from wall {letter.text}, 0 from wall {plan.letters[0]}`.",
            )
            return
        if normal[0]:
            self.set("across", "from left" if at == low else "from right", a)
        else:
            self.set("up", "full tile at floor" if at == low else "full tile at top", a)

    # ------------------------------------------------------------ joints that run on

    def follow(self, a: Attribute) -> None:
        words = [x.text for x in a.args]
        text = " ".join(words).lower()
        span = self.st.span(a.args[0]).to(self.st.span(a.args[-1]))
        ground = self.ground
        if words[0].lower() == "wall" and len(words) == 2:
            target = f"wall {words[1]}"
            if ground is not None and not self.neighbour(ground, a.args[1]):
                return
        elif text == "floor":
            target = "floor"
            if ground is not None and ground.floor:
                if self.own:
                    help = "Name a wall: `joints follow wall A`."
                    self.impossible(span, "The joints of the floor cannot follow themselves.", help)
                return
        elif text == "field":
            target = "field"
            if self.field:
                help = "Write `joints follow floor` or `joints follow wall A`; a niche, a band or a panel follows the field."
                self.impossible(span, "This is the field itself.", help)
                return
        else:
            self.context.unknown(
                "unknown-choice", span, f"Joints do not follow `{' '.join(words)}`.", text, ("floor", "field", "wall A")
            )
            return
        if target in self.follows:
            return
        self.follows.append(target)
        if ground is not None and target != "field":
            ground.followed.append((target, span))

    def neighbour(self, ground: Ground, letter: Atom) -> bool:
        span = self.st.span(letter)
        letters = ground.plan.letters if ground.plan is not None else ()
        if letter.text not in letters:
            self.context.unknown_wall(span, f"This room has no wall {letter.text}.", letter.text, letters)
            return False
        if ground.floor or letter.text in ground.neighbours:
            return True
        if self.own:
            if letter.text == ground.letter:
                message = f"The joints of wall {letter.text} cannot follow themselves."
            else:
                message = f"Wall {letter.text} does not meet {ground.title}: joints cannot run on from it."
            one, other = ground.neighbours
            self.impossible(span, message, f"Beside it are wall {one} and wall {other}.")
        return False

    def impossible(self, span: Span, message: str, help: str) -> None:
        self.context.report("follow-impossible", span, message, help=help)


def start(
    st: Statement,
    said: tuple[Attribute, ...],
    place: tuple[Attribute, ...],
    ground: Ground | None,
    context: Context,
    *,
    own: bool,
    field: bool = True,
    sides: Sides | None = None,
) -> Start:
    """Where the set-out starts, from what is said beside a tile.

    place   what stands behind `start at`
    own     said at the surface; else for the whole room, and left out where the surface has no such thing
    field   whether the covering is the surface's field
    sides   of the tile, where they lie along the surface's edges: `start at` is measured to the tile's nearest edges
    """
    reader = _Reader(st, ground, context, own, field)
    x: Quantity | None = None
    y: Quantity | None = None
    for a in said:
        if a.kind in ("joint_on", "tile_on"):
            reader.on(a)
        elif a.kind in ("full_tile", "start_from"):
            reader.full(a)
        elif a.kind == "joints_follow":
            reader.follow(a)
        elif a.kind == "start_at" and ground is not None:
            at = _point(st, a, place, ground, context, sides)
            if at is not None:
                x, y = at
                reader.set("across", "point", a)
                reader.set("up", "point", a)
    across, up = reader.found.get("across"), reader.found.get("up", reader.both)
    first = across or up
    separate = across is not None and up is not None and across[1] is not up[1]
    return Start(
        across[0] if across else "found",
        up[0] if up else "found",
        st.span(first[1]) if first else None,
        st.span(up[1]) if separate and up is not None else None,
        x,
        y,
        tuple(reader.follows),
    )


def _point(
    st: Statement, a: Attribute, place: tuple[Attribute, ...], ground: Ground, context: Context, sides: Sides | None
) -> Point | None:
    span = st.span(a).to(st.span(place[-1])) if place else st.span(a)
    before = len(context.diagnostics)
    corner = ground.point(place, None) if len(place) == 2 else None
    if corner is None:
        if len(context.diagnostics) == before:
            example = "start at 0.6 from wall D, 0.3 from wall A" if ground.floor else "start at 0.6 from left, 1.2 up"
            context.report(
                "missing-detail", span, "It is not said where the corner of a full tile lies.", help=f"Write it as `{example}`."
            )
        return None
    if not ground.holds(corner[0].value, corner[1].value):
        context.report("outside-surface", span, f"The start is not on {ground.title}.", help=ground.extent)
        return None
    return ground.point(place, sides) if sides is not None else corner


def merged(own: Start, room: Start) -> Start:
    """The surface's own start, and in a direction where it says none, the room's."""
    if own.across == "point" or (own.across != "found" and own.up != "found"):
        return own if own.follows else Start(own.across, own.up, own.span, own.up_span, own.x, own.y, room.follows)
    across = own.across if own.across != "found" else room.across
    up = own.up if own.up != "found" else room.up
    a = own.span if own.across != "found" else room.span if room.across != "found" else None
    b = own.span if own.up != "found" else (room.up_span or room.span) if room.up != "found" else None
    span = a or b
    return Start(across, up, span, b if a is not None and b is not None and b != a else None, follows=own.follows or room.follows)


__all__ = ["Ground", "merged", "split", "start"]
