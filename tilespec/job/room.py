"""One room: plan, levels, showers and baths, surfaces, products."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction as F
from math import hypot

from tilespec.diagnostics.model import Label
from tilespec.job import plan as plans
from tilespec.job import wet
from tilespec.job.context import Context, Item, Parts
from tilespec.job.declared import Pool
from tilespec.job.parts import take_apart
from tilespec.job.resolve import resolve
from tilespec.job.start import Ground
from tilespec.job.surface import (
    Draft,
    Tiles,
    base,
    coverings,
    floor_items,
    ground_of_floor,
    ground_of_wall,
    holes_in_openings,
    movement_joints,
    named_products,
    rectangle_outline,
    structural_joints,
    trims,
    wall_hole,
    wall_items,
    zero,
)
from tilespec.job.types import (
    Basin,
    Bath,
    Boxing,
    Fall,
    Fitting,
    Heating,
    Levels,
    Penetration,
    Product,
    Rect,
    Room,
    Shower,
    Surface,
    WallLine,
    Words,
)
from tilespec.quantity import UNITS, Kind, Quantity, work
from tilespec.quantity.read import read
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.vocabulary import BASIN_WORDS, BATH_WORDS, BOXING_WORDS, FLOOR_WORDS, HEATING, LAYERS, SHOWER_WORDS, STRUCTURE

_EPSILON = F(1, 1000)


@dataclass(slots=True)
class RoomDraft:
    """The statements of one room, in order, before anything of it is built."""

    name: str
    words: Words | None
    st: Statement | None
    unread: bool = False  # a statement here could not be read at all: it may be the wall or the floor that seems to be missing
    statements: list[Statement] = field(default_factory=list)
    tiles: Tiles = field(default_factory=lambda: Tiles({}))
    grounds: list[Ground] = field(default_factory=list)  # of its surfaces, with what their joints follow
    pool: Pool = field(default_factory=lambda: Pool({}, {}))
    named: Mapping[str, tuple[str, Span]] = field(default_factory=dict)  # `membrane none` at the margin of the room
    named_at: dict[str, dict[str, tuple[str, Span]]] = field(default_factory=dict)  # by surface id

    def of(self, kind: str) -> list[Statement]:
        return [s for s in self.statements if s.kind == kind]


def build(draft: RoomDraft, context: Context) -> Room | None:
    """The room, or None when there is nothing in it that a wall or floor can be built of."""
    walls = draft.of("wall")
    floors = draft.of("floor")
    for extra in floors[1:]:
        context.report(
            "said-twice",
            extra.span(),
            "The floor of this room is said twice.",
            help="Keep one, or start another room with `room`.",
            secondary=(Label(floors[0].span(), "said here first"),),
        )
    _once([w for w in walls], context)
    wall_parts = {id(w): take_apart(w, context) for w in walls}
    letters = tuple(dict.fromkeys(w.args[0].text for w in walls if w.args))
    floor_st = floors[0] if floors else None
    floor_parts = take_apart(floor_st, context) if floor_st else None
    sizes = {w.args[0].text: _wall_size(w, wall_parts[id(w)], context) for w in walls if w.args}
    plan = _plan(draft, floor_st, floor_parts, letters, sizes, context)
    lost = plan is None
    asked, told = list(context.questions), len(context.diagnostics)
    # Without a plan no room can be built, but words and numbers can be judged: in a room that holds everything.
    plan = plan or _any_plan(draft, letters, context)
    if plan is None:
        return None
    room = _build(draft, plan, walls, wall_parts, sizes, floor_st, floor_parts, context)
    if not lost:
        return room
    context.questions[:] = asked
    context.diagnostics[told:] = [d for d in context.diagnostics[told:] if d.name in _WITHOUT_PLAN]
    return None


# What is wrong in a room whatever its plan is.
_WITHOUT_PLAN = (
    "unknown-word", "misplaced-attribute", "said-twice", "unknown-tile", "unknown-product", "unknown-substrate",
    "unknown-description", "unknown-choice", "wrong-unit", "implausible-value", "bad-date", "bad-number", "pattern-impossible",
    "basket-size", "joint-wider-than-tile",
)


def _any_plan(draft: RoomDraft, letters: tuple[str, ...], context: Context) -> plans.Plan | None:
    if not draft.statements:
        return None
    side = context.practice.limit("room-height")
    large = Quantity(F(60), side.kind, side.shown, side.why)
    square = plans.rectangle(large, large, letters)
    last = square.walls[-1]
    others = tuple(replace(last, letter=x) for x in letters if x not in square.letters)
    return replace(square, walls=(*square.walls, *others))


def _build(
    draft: RoomDraft,
    plan: plans.Plan,
    walls: list[Statement],
    wall_parts: dict[int, Parts],
    sizes: dict[str, tuple[Quantity | None, Quantity | None]],
    floor_st: Statement | None,
    floor_parts: Parts | None,
    context: Context,
) -> Room:
    height = _height(draft, sizes, context)
    datum = _datum(draft, context)
    for w in walls:
        if w.args and plan.wall(w.args[0].text) is None:
            context.unknown_wall(
                w.span(w.args[0]),
                f"{_room(draft)} has no wall {w.args[0].text}.",
                w.args[0].text,
                plan.letters,
                "Its walls are " + ", ".join(plan.letters) + ", clockwise seen from above.",
            )
    walls = [w for w in walls if w.args and plan.wall(w.args[0].text)]
    showers, shower_holes = _showers(draft, plan, context)
    baths, bath_holes = _baths(draft, plan, context)
    basins = _basins(draft, plan, height, datum, context)
    boxings = _boxings(draft, plan, height, context)
    wall_surfaces: list[Surface] = []
    for w in walls:
        line = plan.wall(w.args[0].text)
        assert line
        holes = tuple(h for letter, h in (*shower_holes, *bath_holes) if letter == line.letter)
        surface = _wall(draft, w, wall_parts[id(w)], line, plan, sizes[line.letter], height, datum, holes, context)
        wall_surfaces.append(surface)
    order = {letter: n for n, letter in enumerate(plan.letters)}
    wall_surfaces.sort(key=lambda s: order[s.letter])
    floor, fall, heating = None, None, None
    if floor_st is not None and floor_parts is not None:
        standing = (*(s.rect for s in showers), *(b.rect for b in baths), *(b.rect for b in boxings))
        floor, fall, heating = _floor(draft, floor_st, floor_parts, plan, datum, standing, tuple(wall_surfaces), context)
    tiled = {s.letter for s in (*wall_surfaces, *((floor,) if floor is not None else ())) if s.coverings}
    _followed(draft, tiled, context)
    stated = tuple(s.letter for s in wall_surfaces)
    for shower in showers:
        missing = wet.left_out(plan, shower, stated)
        if missing and stated and not context.unread:
            listed = " and ".join(missing)
            context.report(
                "shower-wall-left-out",
                shower.span or draft.statements[0].span(),
                f"The shower stands against wall {listed}, but nothing is said of it.",
                help=f"Add a statement `wall {missing[0]}` with its base and tile, or move the shower.",
            )
    said_wet = any(z.exposure in ("shower", "bath") for s in wall_surfaces for z in s.zones)
    floor_wet = bool(
        showers
        or baths
        or said_wet
        or (floor and (floor.zones or any(p.kind in ("drain", "channel") for p in floor.penetrations)))
    )
    finished: list[Surface] = []
    for s in wall_surfaces:
        line = plan.wall(s.letter)
        assert line
        s = wet.wet_wall(s, line, showers, baths, basins, floor_wet and floor is not None, context)
        finished.append(replace(s, title=_title(s, showers, baths, basins, plan)))
    if floor is not None:
        floor = wet.wet_floor(floor, showers, baths, floor_wet)
        _drains(floor, showers, draft, context)
        if (
            (showers or any(p.kind in ("drain", "channel") for p in floor.penetrations))
            and fall is None
            and not (showers and all(s.tray for s in showers))   # a tray brings its own fall
        ):
            context.ask(
                "fall",
                draft.name,
                f"What fall does the floor of {draft.name} have, and towards where?",
                "designer",
                None,
                floor.span,
            )
        if any(not s.tray for s in showers) and not any(p.kind in ("drain", "channel") for p in floor.penetrations):
            context.ask("drain", draft.name, f"Where is the drain of {draft.name}?", "survey", None, floor.span)
        elif said_wet and not showers and not any(p.kind in ("drain", "channel") for p in floor.penetrations):
            context.ask(
                "drain",
                draft.name,
                f"Is there a drain in the floor of {draft.name}, or a tray, and where?",
                "survey",
                None,
                floor.span,
            )
    leveller_said = floor_parts is not None and any(
        a.text == "leveller" for b in floor_parts.all("build_up") for a in b.args if a.kind == "name"
    )
    cable = heating is not None and heating.kind == "cable"
    products = draft.named_at
    if floor is not None:
        floor = resolve(
            floor, draft.pool, {**draft.named, **products.get(floor.id, {})}, heating, leveller_said or cable, context
        )
    resolved = tuple(resolve(s, draft.pool, {**draft.named, **products.get(s.id, {})}, None, False, context) for s in finished)
    levels = _levels(draft, floor_st, floor_parts, floor, datum, fall, showers, plan, context)
    diagonals = _diagonals(draft, floor_st, floor_parts, plan, context)
    return Room(
        name=draft.name,
        words=draft.words,
        height=height,
        levels=levels,
        walls=plan.walls,
        corners=plan.corners,
        floor=floor,
        wall_surfaces=resolved,
        not_stated=tuple(x for x in plan.letters if x not in stated),
        showers=showers,
        baths=baths,
        basins=basins,
        boxings=boxings,
        fall=fall,
        heating=heating,
        diagonals=diagonals,
        rcd=context.number(floor_st, trip.args[0], "rcd")
        if floor_st is not None and floor_parts is not None and (trip := floor_parts.get("rcd"))
        else None,
        span=draft.st.span() if draft.st else None,
    )


def _room(draft: RoomDraft) -> str:
    return f'"{draft.name}"' if draft.words else "This room"


def _once(walls: list[Statement], context: Context) -> None:
    seen: dict[str, Statement] = {}
    for w in walls:
        if not w.args:
            continue
        letter = w.args[0].text
        if letter in seen:
            context.report(
                "duplicate-name",
                w.span(w.args[0]),
                f"Wall {letter} is said twice.",
                help="Put both under one `wall` statement, or start another room.",
                secondary=(Label(seen[letter].span(), "said here first"),),
            )
        else:
            seen[letter] = w
    walls[:] = list(seen.values())


# ---------------------------------------------------------------- plan and heights


def _wall_size(st: Statement, parts: Parts, context: Context) -> tuple[Quantity | None, Quantity | None]:
    a = parts.get("size")
    length = height = None
    if a is not None:
        names = [w for w in a.args if w.kind == "name"]
        if names:
            text = " ".join(w.text for w in names)
            span = st.span(names[0]).to(st.span(names[-1]))
            message = f"`{text}` does not describe a wall."
            context.unknown("unknown-description", span, message, text, ("shower zone", "bath zone", "untiled"))
        quantities = tuple(x for x in a.args if x.kind == "quantity")
        sides = context.size(st, quantities, "wall-side")
        length, height = sides[0], sides[1]
    if (a := parts.get("long")) is not None:
        length = context.number(st, a.args[0], "wall-side")
    if (a := parts.get("high") or parts.get("height")) is not None:
        height = context.number(st, a.args[0], "wall-height")
    return length, height


def _plan(
    draft: RoomDraft,
    st: Statement | None,
    parts: Parts | None,
    letters: tuple[str, ...],
    sizes: dict[str, tuple[Quantity | None, Quantity | None]],
    context: Context,
) -> plans.Plan | None:
    if st is not None and parts is not None:
        walked, size = parts.get("walk"), parts.get("size")
        if walked is not None:
            return plans.walk(st, walked, letters, draft.name, context)
        if size is not None:
            sides = context.size(st, tuple(x for x in size.args if x.kind == "quantity"), "room-side")
            if len(sides) > 2:
                context.report(
                    "missing-detail",
                    st.span(size),
                    "A floor has two sides, three are said.",
                    help="Write `floor 2.4 x 1.8`; the room's height goes to `room ... height 2.4`.",
                )
                return None
            if sides[0] is None or sides[1] is None:
                return None
            plan = plans.rectangle(sides[0], sides[1], letters)
            _compare_walls(st, plan, draft, sizes, context)
            return plan
        if st.broken:
            return None
    lengths = {k: v[0] for k, v in sizes.items() if v[0] is not None}
    known = {k: v for k, v in lengths.items() if v is not None}
    span = st.span() if st else draft.st.span() if draft.st else None
    found = plans.from_lengths(known, context, draft.name, span)
    if found is None and (st is not None or letters) and not context.unread:
        where = st.span() if st else draft.statements[0].span()
        context.report(
            "missing-detail",
            where,
            "The size of the floor is not said.",
            help=(
                "Write it as `floor 2.4 x 1.8` (along wall A first), or walk the walls: `floor walk A 2.4, B 1.8, C 2.4, D 1.8`."
            ),
        )
    return found


def _compare_walls(
    st: Statement, plan: plans.Plan, draft: RoomDraft, sizes: dict[str, tuple[Quantity | None, Quantity | None]], context: Context
) -> None:
    allowed = context.practice.limit("wall-size-tolerance").value
    for wall in plan.walls:
        said = sizes.get(wall.letter, (None, None))[0]
        if said is None or abs(said.value - wall.length.value) <= allowed:
            continue
        difference = float(abs(said.value - wall.length.value) * 1000)
        span = said.why.span if hasattr(said.why, "span") else st.span()
        context.report(
            "wall-size-differs",
            span,
            f"Wall {wall.letter} is {float(said.mm):g} mm long here, but the floor makes it {float(wall.length.mm):g} mm:"
            f" {difference:g} mm apart.",
            label="this length is used for the wall",
            help="Measure again; if the room is out of square, give the floor's `diagonals` or walk the walls.",
            secondary=(Label(st.span(), "the floor"),),
        )


def _height(draft: RoomDraft, sizes: dict[str, tuple[Quantity | None, Quantity | None]], context: Context) -> Quantity:
    if draft.st is not None:
        a = take_apart(draft.st, context).get("height")
        if a is not None:
            q = context.number(draft.st, a.args[0], "room-height")
            if q is not None:
                return q
    heights = [v[1] for v in sizes.values() if v[1] is not None]
    if heights:
        return max((h for h in heights if h is not None), key=lambda h: h.value)
    return context.assume(
        "room-height", "room-height", draft.name, f"How high is {draft.name}?", "survey", draft.st.span() if draft.st else None
    )


def _datum(draft: RoomDraft, context: Context) -> Quantity:
    found: Quantity | None = None
    first: tuple[Statement, Attribute] | None = None
    for st in draft.of("datum"):
        for a in take_apart(st, context).own:
            text = " ".join(x.text.lower() for x in a.args[1:])
            if text not in ("finished floor", "floor") or a.kind != "above":
                context.unknown(
                    "unknown-choice",
                    st.span(a),
                    "The datum line is said above the finished floor.",
                    text,
                    ("finished floor",),
                    "Write `datum 1.0 above finished floor`.",
                )
                continue
            if first is not None:
                if first[0] is not st:  # within one statement it is told already
                    context.report(
                        "said-twice",
                        st.span(a),
                        "The datum line of this room is said twice.",
                        help="Keep one of the two.",
                        secondary=(Label(first[0].span(first[1]), "said here first"),),
                    )
                continue
            found, first = context.number(st, a.args[0], "datum"), (st, a)
    return found or context.assume(
        "datum-height",
        "datum",
        draft.name,
        f"At what height above the finished floor is the datum line in {draft.name}?",
        "survey",
    )


# ---------------------------------------------------------------- showers, baths, basins, boxings


def _place(
    st: Statement, parts: Parts, plan: plans.Plan, slot: str, what: str, context: Context
) -> tuple[Rect, tuple[str, ...]] | None:
    """A rectangle on the floor in a corner or against a wall, and the letters of the walls that were named."""
    size = parts.get("size")
    if size is None and st.broken:
        return None  # what could not be read was reported
    if size is None:
        context.report(
            "missing-detail", st.span(), f"The size of the {what} is not said.", help="Write both sides, for example `0.9 x 0.9`."
        )
        return None
    sides = context.size(st, tuple(x for x in size.args if x.kind == "quantity"), slot)
    a, b = sides[0], sides[1]
    if a is None or b is None:
        return None
    corner = parts.get("in_corner")
    r: Rect | None = None
    letters: tuple[str, ...] = ()
    if corner is not None:
        one, other = corner.args
        for atom in (one, other):
            if plan.wall(atom.text) is None:
                context.unknown_wall(st.span(atom), f"This room has no wall {atom.text}.", atom.text, plan.letters)
                return None
        c = plan.corner(one.text, other.text)
        if c is None:
            span = st.span(one).to(st.span(other))
            corners = ", ".join(f"{k.before} {k.after}" for k in plan.corners)
            context.report(
                "not-a-corner", span, f"Walls {one.text} and {other.text} do not meet.", help=f"The corners are: {corners}."
            )
            return None
        r = plans.corner_rect(c, one.text, a, b, plan, st.span())
        letters = (one.text, other.text)
    else:
        on = parts.get("on_wall") or parts.get("along")
        if on is None:
            context.report(
                "missing-detail",
                st.span(),
                f"It is not said where the {what} is.",
                help=f"Write `{what} in corner D A, ...` or `{what} on wall A, ...; 0.5 from left`.",
            )
            return None
        letter = on.args[0]
        wall = plan.wall(letter.text)
        if wall is None:
            context.unknown_wall(st.span(letter), f"This room has no wall {letter.text}.", letter.text, plan.letters)
            return None
        left = _from_left(st, parts, wall, a, plan, what, context)
        if left is None:
            return None
        r = plans.wall_rect(wall, left, a, b, st.span())
        letters = (letter.text,)
    if not plans.rect_inside(plan, r):
        context.report(
            "outside-surface",
            st.span(),
            f"The {what} reaches outside the room.",
            help="Check its size: the side along the wall named first comes first.",
        )
        return None
    return r, letters


def _from_left(
    st: Statement, parts: Parts, wall: WallLine, along: Quantity, plan: plans.Plan, what: str, context: Context
) -> Quantity | None:
    n = plan.letters.index(wall.letter)
    before, after = plan.letters[n - 1], plan.letters[(n + 1) % len(plan.letters)]
    for a in (*parts.all("from_side"), *parts.all("from_wall")):
        text = " ".join(x.text.lower() for x in a.args[1:])
        q = context.number(st, a.args[0], "place")
        if q is None:
            return None
        if a.kind == "from_wall":
            letter = a.args[1].text
            text = "left" if letter == before else "right" if letter == after else ""
            if not text:
                context.unknown_wall(
                    st.span(a.args[1]),
                    f"Wall {letter} does not meet wall {wall.letter}.",
                    letter,
                    (before, after),
                )
                return None
        if text == "left":
            return q
        if text == "right":
            return work(
                "wall_length - from_right - side",
                "m",
                source="measured from the right",
                wall_length=wall.length,
                from_right=q,
                side=along,
            )
        context.unknown(
            "unknown-choice", st.span(a.args[1]), f"A place along a wall is not measured from `{text}`.", text, ("left", "right")
        )
        return None
    if abs(along.value - wall.length.value) <= F(2, 100):
        return zero(wall.length)
    context.report(
        "missing-detail",
        st.span(),
        f"It is not said how far from the left the {what} is.",
        help="Add it, for example `0.5 from left`.",
    )
    return None


def _words(st: Statement, parts: Parts, known: tuple[str, ...], what: str, context: Context) -> tuple[str, ...]:
    groups = [a.args for a in parts.all("words")]
    if (size := parts.get("size")) is not None:
        groups.append(tuple(w for w in size.args if w.kind == "name"))
    return tuple(w.text.lower() for g in groups for w in context.described(st, g, known, f"a {what}"))


def _hole_on(
    st: Statement, item: Item, walls: tuple[str, ...], plan: plans.Plan, context: Context, kind: str
) -> tuple[str, Penetration] | None:
    """A valve or outlet said at a shower or bath: on which wall, and where."""
    on = item.get("on_wall")
    letter = on.args[0].text if on else walls[0] if walls else ""
    wall = plan.wall(letter)
    if wall is None:
        span = st.span(on) if on else st.span(item.opener)
        context.unknown_wall(span, f"This room has no wall {letter}.", letter, plan.letters)
        return None
    n = plan.letters.index(letter)
    neighbours = (plan.letters[n - 1], plan.letters[(n + 1) % len(plan.letters)])
    tall = Quantity(F(12), wall.length.kind, wall.length.shown, wall.length.why)
    draft = Draft(st, Parts((), ()), "", letter, f"wall {letter}", wall.length, tall, tall, context, neighbours)
    hole = wall_hole(draft, item)
    return (letter, replace(hole, kind=kind)) if hole else None


def _head_height(st: Statement, parts: Parts, room: str, context: Context) -> Quantity:
    head = next(iter(parts.items_of("shower_head")), None)
    height = context.number(st, head.opener.args[0], "head-height") if head else None
    if height is None:
        question = f"How high is the shower head in {room}?"
        height = context.assume("shower-head-height", "shower-head", room, question, "survey", st.span())
    return height


def _showers(draft: RoomDraft, plan: plans.Plan, context: Context) -> tuple[tuple[Shower, ...], list[tuple[str, Penetration]]]:
    found: list[Shower] = []
    holes: list[tuple[str, Penetration]] = []
    for st in draft.of("shower"):
        parts = take_apart(st, context)
        placed = _place(st, parts, plan, "shower-side", "shower", context)
        if placed is None:
            continue
        r, named = placed
        words = _words(st, parts, SHOWER_WORDS, "shower", context)
        height = _head_height(st, parts, draft.name, context)
        touching = tuple(w.letter for w in plan.walls if plans.touches(w, r))
        valve_wall = None
        for item in parts.items_of("valve", "outlet"):
            hole = _hole_on(st, item, named, plan, context, item.kind)
            if hole is None:
                continue
            holes.append(hole)
            valve_wall = hole[0]
            line = plan.wall(hole[0])
            stretch = plans.touches(line, r) if line else None
            if stretch is None or not stretch[0] - _EPSILON <= hole[1].x.value <= stretch[1] + _EPSILON:
                where = (
                    f"{float(stretch[0]):g} to {float(stretch[1]):g} m from the left of wall {hole[0]}"
                    if stretch
                    else f"not on wall {hole[0]}"
                )
                context.report(
                    "drain-outside-shower",
                    st.span(item.opener),
                    f"The {item.kind} is outside its shower, which is {where}.",
                    help=(
                        "Water runs where nothing is sealed: move one of them, or correct the place (from the left, facing the"
                        " wall)."
                    ),
                )
        a = parts.get("flow")
        flow = context.number(st, a.args[0], "flow") if a else None
        found.append(Shower(touching, r, height, valve_wall, "tray" in words, "screen" in words, st.span(), flow))
    return tuple(found), holes


def _baths(draft: RoomDraft, plan: plans.Plan, context: Context) -> tuple[tuple[Bath, ...], list[tuple[str, Penetration]]]:
    found: list[Bath] = []
    holes: list[tuple[str, Penetration]] = []
    for st in draft.of("bath"):
        parts = take_apart(st, context)
        placed = _place(st, parts, plan, "bath-side", "bath", context)
        if placed is None:
            continue
        r, named = placed
        words = _words(st, parts, BATH_WORDS, "bath", context)
        a = parts.get("rim")
        rim = context.number(st, a.args[0], "rim") if a else None
        if rim is None:
            rim = context.assume(
                "bath-rim", "bath-rim", draft.name, f"How high is the rim of the bath in {draft.name}?", "data sheet", st.span()
            )
        for item in parts.items_of("valve"):
            hole = _hole_on(st, item, named, plan, context, "valve")
            if hole:
                holes.append(hole)
        over = bool(parts.items_of("zone_shower", "shower_head")) or "shower" in words
        head = _head_height(st, parts, draft.name, context) if over else None
        touching = tuple(w.letter for w in plan.walls if plans.touches(w, r))
        found.append(Bath(touching, r, rim, over, st.span(), head, "screen" in words))
    return tuple(found), holes


def _basins(draft: RoomDraft, plan: plans.Plan, height: Quantity, datum: Quantity, context: Context) -> tuple[Basin, ...]:
    found: list[Basin] = []
    for st in draft.of("basin"):
        parts = take_apart(st, context)
        placed = _place(st, parts, plan, "basin-side", "basin", context)
        if placed is None:
            continue
        r, named = placed
        _words(st, parts, BASIN_WORDS, "basin", context)
        a = parts.get("rim")
        rim = context.number(st, a.args[0], "rim") if a else None
        if rim is None:
            rim = context.assume(
                "basin-rim",
                "basin-rim",
                draft.name,
                f"How high is the rim of the basin in {draft.name}?",
                "data sheet",
                st.span(),
            )
        wall = plan.wall(named[0])
        assert wall
        stretch = plans.stretch_on(wall, r)
        left = stretch[0] if stretch else zero(rim)
        along = r.width if plans.direction(wall)[0] else r.height
        found.append(Basin(named[0], left, along, rim, st.span()))
    return tuple(found)


def _boxings(draft: RoomDraft, plan: plans.Plan, height: Quantity, context: Context) -> tuple[Boxing, ...]:
    found: list[Boxing] = []
    for st in draft.of("boxing"):
        parts = take_apart(st, context)
        placed = _place(st, parts, plan, "boxing-side", "boxing", context)
        if placed is None:
            continue
        r, _ = placed
        _words(st, parts, BOXING_WORDS, "boxing", context)
        a = parts.get("height") or parts.get("high")
        tall = context.number(st, a.args[0], "wall-height") if a else height
        if tall is None:
            continue
        if tall.value > height.value + _EPSILON:
            context.report(
                "outside-surface",
                st.span(a) if a else st.span(),
                "The boxing is higher than the room.",
                help=f"The room is {float(height.mm):g} mm high.",
            )
            continue
        found.append(Boxing(r, tall, tuple(w.letter for w in plan.walls if plans.touches(w, r)), st.span()))
    return tuple(found)


# ---------------------------------------------------------------- surfaces


def _title(s: Surface, showers: tuple[Shower, ...], baths: tuple[Bath, ...], basins: tuple[Basin, ...], plan: plans.Plan) -> str:
    names = []
    line = plan.wall(s.letter)
    if (
        line
        and any(plans.touches(line, x.rect) for x in showers)
        or any(z.exposure == "shower" and z.cause == "said" for z in s.zones)
    ):
        names.append("shower")
    if line and any(plans.touches(line, b.rect) for b in baths):
        names.append("bath")
    if any(b.wall == s.letter for b in basins):
        names.append("basin")
    names.extend(dict.fromkeys(o.kind for o in s.openings))
    if any(f.kind == "mirror" for f in s.fittings):
        names.append("mirror")
    return f"wall {s.letter}" + (", " + ", ".join(names) if names else "")


def _finder(draft: RoomDraft, st: Statement, kind: str, context: Context) -> Callable[[Atom], Product | None]:
    def find(atom: Atom) -> Product | None:
        own = next((p for p in draft.pool.declared(kind) if p.name == atom.text), None)
        if own is not None:
            return own
        generic = next((p for p in draft.pool.generic(kind) if p.name == atom.text or atom.text in p.flags), None)
        if generic is not None:
            return generic
        names = tuple(p.name for p in draft.pool.declared(kind))
        listed = "Declared are: " + ", ".join(names) + "." if names else f"Declare it: `{kind} {atom.text} ...` at the margin."
        context.unknown("unknown-product", st.span(atom), f"There is no {kind} called `{atom.text}`.", atom.text, names, listed)
        return None

    return find


def _check_named(draft: RoomDraft, named: dict[str, tuple[str, Span]], context: Context) -> dict[str, tuple[str, Span]]:
    """Products named at a surface must be declared, or be one of the generic stock."""
    found: dict[str, tuple[str, Span]] = {}
    for kind, (name, span) in named.items():
        names = tuple(p.name for p in draft.pool.declared(kind))
        generic = any(p.name == name for p in draft.pool.generic(kind))
        if name != "none" and name not in names and not generic:
            listed = "Declared are: " + ", ".join(names) + "." if names else f"Declare it: `{kind} {name} ...` at the margin."
            context.unknown("unknown-product", span, f"There is no {kind} called `{name}`.", name, (*names, "none"), listed)
            continue
        found[kind] = (name, span)
    return found


def _wall(
    draft: RoomDraft,
    st: Statement,
    parts: Parts,
    line: WallLine,
    plan: plans.Plan,
    size: tuple[Quantity | None, Quantity | None],
    room_height: Quantity,
    datum: Quantity,
    holes: tuple[Penetration, ...],
    context: Context,
) -> Surface:
    width = size[0] or line.length
    height = size[1] or room_height
    n = plan.letters.index(line.letter)
    neighbours = (plan.letters[n - 1], plan.letters[(n + 1) % len(plan.letters)])
    d = Draft(st, parts, draft.name, line.letter, f"wall {line.letter}", width, height, datum, context, neighbours)
    measured = None
    if (a := parts.get("heights")) is not None:
        sides = {a.args[i].text.lower(): context.number(st, a.args[i + 1], "wall-height") for i in (0, 2)}
        left, right = sides.get("left"), sides.get("right")
        if left is None or right is None:
            context.report(
                "missing-detail", st.span(a), "Heights are said left and right.", help="Write `heights left 2.41, right 2.39`."
            )
        else:
            measured = (left, right)
            if size[1] is None:
                height = left if left.value >= right.value else right
                d.height = height
    leaning = parts.get("out_of_plumb")
    plumb = context.number(st, leaning.args[0], "plumb") if leaning else None
    tiled_to = None
    if (a := parts.get("tiled_to")) is not None:
        tiled_to = context.number(st, a.args[0], "wall-height")
        if tiled_to is not None and tiled_to.value > height.value + _EPSILON:
            context.report(
                "outside-surface",
                st.span(a),
                f"Wall {line.letter} is tiled higher than it is.",
                help=f"It is {float(height.mm):g} mm high.",
            )
            tiled_to = None
    d.sides, d.tiled_to = measured, tiled_to
    what = base(d, False)
    openings, niches, untiled, own_holes, fittings, zones = wall_items(d, draft.tiles)
    named = _check_named(draft, named_products(d), context)
    inside = []
    for h in holes:
        if h.y.value > height.value:
            context.report(
                "outside-surface",
                h.span or st.span(),
                f"The {h.kind} is above wall {line.letter}.",
                help=f"The wall is {float(height.mm):g} mm high.",
            )
        else:
            inside.append(h)
    ground = ground_of_wall(d, plan, openings)
    draft.grounds.append(ground)
    id_ = f"{draft.name}/wall {line.letter}"
    draft.named_at[id_] = named
    return Surface(
        id=id_,
        room=draft.name,
        kind="wall",
        letter=line.letter,
        title=f"wall {line.letter}",
        width=width,
        height=height,
        outline=rectangle_outline(width.value, height.value),
        base=what,
        coverings=coverings(d, draft.tiles, ground),
        tiled_height=tiled_to,
        openings=openings,
        niches=niches,
        untiled=untiled,
        penetrations=holes_in_openings(d, (*own_holes, *inside), openings),
        fittings=fittings,
        zones=zones,
        measured_heights=measured,
        out_of_plumb=plumb,
        trims=trims(d, _finder(draft, st, "trim", context)),
        movement_joints=movement_joints(d, ground, False),
        base_joints=structural_joints(d, ground),
        refused=_refused({**draft.named, **named}),
        named=_named({**draft.named, **named}),
        span=st.span(),
    )


def _refused(named: dict[str, tuple[str, Span]]) -> tuple[tuple[str, Span], ...]:
    return tuple((kind, span) for kind, (name, span) in named.items() if name == "none")


def _named(named: dict[str, tuple[str, Span]]) -> tuple[tuple[str, Span], ...]:
    return tuple((kind, span) for kind, (name, span) in named.items() if name != "none")


def _floor(
    draft: RoomDraft,
    st: Statement,
    parts: Parts,
    plan: plans.Plan,
    datum: Quantity,
    standing: tuple[Rect, ...],
    walls: tuple[Surface, ...],
    context: Context,
) -> tuple[Surface, Fall | None, Heating | None]:
    x0, y0, x1, y1 = plan.bounds()
    first = plan.walls[0].length
    width = first if first.value == x1 - x0 else Quantity(x1 - x0, first.kind, UNITS["m"], first.why)
    side = next((w.length for w in plan.walls if w.length.value == y1 - y0 and not plans.direction(w)[0]), None)
    depth = side or Quantity(y1 - y0, first.kind, UNITS["m"], first.why)
    d = Draft(st, parts, draft.name, "", "the floor", width, depth, datum, context)
    words = _words(st, parts, FLOOR_WORDS, "floor", context)
    what = base(d, True)
    untiled, holes, fittings, zones = floor_items(d, plan)
    named = _check_named(draft, named_products(d), context)
    fall = None
    for item in parts.items_of("fall"):
        fall = _fall(st, item.opener, context) or fall
    heating = _heating(draft, st, parts, plan, words, fittings, (*untiled, *standing), context)
    ground = ground_of_floor(d, plan, holes, walls, tuple(draft.grounds))
    draft.grounds.append(ground)
    id_ = f"{draft.name}/floor"
    draft.named_at[id_] = named
    surface = Surface(
        id=id_,
        room=draft.name,
        kind="floor",
        letter="",
        title="floor",
        width=width,
        height=depth,
        outline=plan.outline,
        base=what,
        coverings=coverings(d, draft.tiles, ground),
        tiled_height=None,
        untiled=untiled,
        penetrations=holes,
        fittings=fittings,
        zones=zones,
        trims=trims(d, _finder(draft, st, "trim", context)),
        movement_joints=movement_joints(d, ground, heating is not None),
        base_joints=structural_joints(d, ground),
        perimeter_joint=context.number(st, edge.args[0], "movement-joint") if (edge := parts.get("perimeter_joint")) else None,
        sunlit="sunlit" in words,
        refused=_refused({**draft.named, **named}),
        named=_named({**draft.named, **named}),
        span=st.span(),
    )
    return surface, fall, heating


def _followed(draft: RoomDraft, tiled: set[str], context: Context) -> None:
    """What joints follow must be tiled, and follow nothing that follows them."""
    if context.unread:
        return
    by_letter = {g.letter: g for g in draft.grounds}
    for ground in draft.grounds:
        for target, span in ground.followed:
            letter = target.removeprefix("wall ") if target != "floor" else ""
            called = "the floor" if target == "floor" else target
            if letter not in tiled:
                if letter in by_letter:
                    continue  # what is wrong there is said there
                context.report(
                    "follow-impossible",
                    span,
                    f"The joints of {ground.title} cannot follow {called}: nothing is tiled there.",
                    help=f"Add a statement `{target}` with its tile, or take `joints follow {target}` out.",
                )
            elif path := _back(by_letter, letter, ground.letter):
                if ground.letter != min((ground.letter, *path)):
                    continue  # told at the first of them
                names = [f"wall {x}" if x else "the floor" for x in (ground.letter, *path, ground.letter)]
                context.report(
                    "follow-impossible",
                    span,
                    f"These wait for each other: {', then '.join(names)}. None of them can be set out first.",
                    help="Take one `joints follow` out and say where that surface starts, for example `joint on centre`.",
                )


def _back(by_letter: dict[str, Ground], at: str, goal: str, seen: tuple[str, ...] = ()) -> tuple[str, ...]:
    """The surfaces on the way from one to another along what their joints follow; () where there is no way."""
    if at in seen or at not in by_letter:
        return ()
    for target, _ in by_letter[at].followed:
        letter = target.removeprefix("wall ") if target != "floor" else ""
        if letter == goal:
            return (at,)
        if further := _back(by_letter, letter, goal, (*seen, at)):
            return (at, *further)
    return ()


def _drop(number: Atom) -> str | None:
    """The run that a fall said as a length alone is most likely for: a metre, or a foot for inches."""
    try:
        u = read(number.text).unit
    except ValueError:
        return None
    if u is None or u.kind is not Kind.LENGTH:
        return None
    return "ft" if u.symbol in ("in", "ft") else "m"


def _fall(st: Statement, a: Attribute, context: Context) -> Fall | None:
    number = a.args[0]
    per = next((x for x in a.args if x.kind == "per"), None)
    words = [x for x in a.args[1:] if x.kind == "name"]
    if per is None and (drop := _drop(number)):
        span = st.span(number)
        context.report(
            "wrong-unit",
            span,
            f"`{number.text}` is a length: a fall needs the run as well.",
            label="length here",
            help=f"Write `{number.text} per {drop}` if that is meant, or the fall as `1:60` or `1.5 %`.",
            fixes=context.write(span, f"{number.text} per {drop}"),
        )
        return None
    if per is not None:
        q = context.number(st, number, "layer")
        if q is None:
            return None
        if per.text not in UNITS or UNITS[per.text].kind is not q.kind:
            context.unknown("unknown-choice", st.span(per), f"A fall is not said per `{per.text}`.", per.text, ("ft", "m"))
            return None
        u = UNITS[per.text]
        one = Quantity(u.factor, u.kind, u, q.why)
        ratio = work("drop / run", "", source="fall as a ratio", drop=q, run=one)
        slope: Quantity | None = Quantity(ratio.value, UNITS["slope"].kind, UNITS["slope"], q.why)
    else:
        slope = context.number(st, number, "fall")
        if slope is not None:
            slope = Quantity(slope.value, UNITS["slope"].kind, UNITS["slope"], slope.why)
    planes = ""
    for w in words:
        t = w.text.lower()
        if t in ("one", "two", "four"):
            if planes and planes != t:
                message = f"A fall of {planes} planes and of {t} cannot both hold."
                context.report("said-twice", st.span(w), message, help="Keep one of the two.")
            planes = planes or t
        elif t not in ("plane", "planes"):
            context.unknown(
                "unknown-choice", st.span(w), f"`{w.text}` does not describe a fall.", w.text, ("four", "one", "two", "planes")
            )
    return Fall(slope, planes or "four", st.span(a)) if slope is not None else None


def _heating(
    draft: RoomDraft,
    st: Statement,
    parts: Parts,
    plan: plans.Plan,
    words: tuple[str, ...],
    fittings: tuple[Fitting, ...],
    kept_clear: tuple[Rect, ...],
    context: Context,
) -> Heating | None:
    item = next((i for i in parts.items_of("product") if i.opener.args[0].text == "heating"), None)
    sensor = next(iter(parts.items_of("sensor")), None)
    if item is None and "heated" not in words:
        return None
    us = context.practice.family == "US"
    kind = "mat"
    product: Product | None = None
    span = st.span(item.opener) if item else st.span()
    if item is not None:
        name = item.opener.args[1]
        if name.text == "none":
            if "heated" in words:
                context.report(
                    "said-twice", span, "The floor is `heated`, and has no heating: only one of the two can hold.",
                    help="Keep one of the two.",
                )
            return None
        if name.text in HEATING:
            kind = name.text
            product = next((p for p in draft.pool.declared("heating") if kind in p.flags), None)
        else:
            product = _finder(draft, st, "heating", context)(name)
            if product is None:
                return None
            kind = next((f for f in HEATING if f in product.flags), "mat")
    else:
        context.ask(
            "heating-kind",
            draft.name,
            f"How is the floor of {draft.name} heated: pipes in the screed, cable in the leveller or mat in the adhesive? (a mat"
            " is taken)",
            "client",
            None,
            span,
        )
    if product is None:
        options = [p for p in draft.pool.generic("heating") if kind in p.flags]
        product = next((p for p in options if p.name.endswith("-us") == us), options[0])
    letter = None
    if sensor is not None:
        a = sensor.get("at_wall") or sensor.get("on_wall")
        if a is not None:
            if plan.wall(a.args[0].text) is None:
                context.unknown_wall(st.span(a.args[0]), f"This room has no wall {a.args[0].text}.", a.args[0].text, plan.letters
                )
            else:
                letter = a.args[0].text
        elif (at := sensor.get("at")) is not None:
            where = st.span(at.args[0]).to(st.span(at.args[-1]))
            text = " ".join(x.text for x in at.args)
            message = f"A sensor does not come down at `{text}`."
            context.report("unknown-choice", where, message, help="Name the wall: `sensor at wall B`.")
    elif kind != "pipes":
        context.ask("sensor", draft.name, f"Where does the floor sensor of {draft.name} come down?", "designer", None, span)
    # No cable under what stands on the floor, nor in the wet area of an open shower (zone 0 of IEC 60364-7-701).
    keep = [f.rect for f in fittings if f.kind == "fixture"]
    return Heating(kind, product, letter, (*keep, *kept_clear), span)


def _drains(floor: Surface, showers: tuple[Shower, ...], draft: RoomDraft, context: Context) -> None:
    """A level shower needs its drain in its own wet area."""
    drains = [p for p in floor.penetrations if p.kind in ("drain", "channel")]
    for shower in showers:
        if shower.tray or not drains:
            continue
        r = shower.rect
        if not any(
            r.x.value - _EPSILON <= p.x.value <= r.right + _EPSILON and r.y.value - _EPSILON <= p.y.value <= r.top + _EPSILON
            for p in drains
        ):
            p = drains[0]
            context.report(
                "drain-outside-shower",
                p.span or floor.span or draft.statements[0].span(),
                "The drain is not in the wet area of the shower.",
                help="Move the drain into the shower, correct its distances from the walls, or say `tray` at the shower.",
                secondary=(Label(shower.span, "the shower"),) if shower.span else (),
            )


# ---------------------------------------------------------------- levels, diagonals


def _levels(
    draft: RoomDraft,
    st: Statement | None,
    parts: Parts | None,
    floor: Surface | None,
    datum: Quantity,
    fall: Fall | None,
    showers: tuple[Shower, ...],
    plan: plans.Plan,
    context: Context,
) -> Levels:
    layers: list[tuple[str, Quantity]] = []
    hall = None
    total = None
    grate = None
    if st is not None and parts is not None:
        if (a := parts.get("build_up")) is not None:
            for name, number in zip(a.args[::2], a.args[1::2], strict=True):
                q = context.number(st, number, "layer")
                if name.text not in LAYERS:
                    context.unknown("unknown-choice", st.span(name), f"`{name.text}` is no layer of a floor.", name.text, LAYERS)
                elif q is not None:
                    layers.append((name.text, q))
            field_ = floor.field if floor else None
            if layers and field_ and not any(n == "tile" for n, _ in layers):
                layers.append(("tile", field_.tile.thickness))
            for _, q in layers:
                total = q if total is None else work("below + layer", "mm", source="build-up of the floor", below=total, layer=q)
        if (a := parts.get("hall_floor")) is not None:
            hall = context.number(st, a.args[0], "level")
        if (a := parts.get("finished_floor")) is not None:
            said = context.number(st, a.args[0], "floor-level")
            text = " ".join(x.text.lower() for x in a.args[1:])
            if text not in STRUCTURE:
                context.unknown(
                    "unknown-choice", st.span(a), f"The finished floor is not said above `{text}`.", text, ("structural floor",)
                )
            elif said is not None:
                if total is not None and said.value != total.value:
                    context.report(
                        "finished-floor-differs",
                        st.span(a),
                        f"The finished floor is said {float(said.mm):g} mm above the structural floor, but the build-up gives"
                        f" {float(total.mm):g} mm.",
                        help="Correct one of them: the build-up counts with the tile.",
                    )
                total = total or said
    if floor is not None and fall is not None:
        drain = next((p for p in floor.penetrations if p.kind in ("drain", "channel")), None)
        if drain is not None:
            grate = _grate(drain, fall, showers, plan)
    if floor is not None and hall is None:
        context.ask(
            "hall-floor",
            draft.name,
            f"How high is the floor outside the door of {draft.name} against its finished floor?",
            "survey",
            None,
            floor.span,
        )
    return Levels(tuple(layers), total, hall, datum, grate)


def _grate(drain: Penetration, fall: Fall, showers: tuple[Shower, ...], plan: plans.Plan) -> Quantity:
    """Height of the grate against the finished floor at the edge that the fall starts from: the nearest edge keeps zero.

    The edge is that of the level shower round the drain, or else the walls. With four planes each plane falls square to its edge
    at the same rate, so the nearest sets the grate (worked example O of falls: a 900 mm tray at 1:50 from the middle of its
    sides falls 9 mm). One plane starts at the edge that lies farthest across from the drain.
    """
    spot = (drain.x, drain.y)
    axes = {wall.letter: 0 if plans.inward(wall)[0] else 1 for wall in plan.walls}
    edges = [(wall.start[axes[wall.letter]], axes[wall.letter]) for wall in plan.walls]
    for shower in showers:
        r = shower.rect
        ends = ((r.x.value, r.right), (r.y.value, r.top))
        if not shower.tray and all(low <= at.value <= high for (low, high), at in zip(ends, spot, strict=True)):
            edges = [(edge, axis) for axis, pair in enumerate(ends) for edge in pair]
            break
    distances = [(abs(spot[axis].value - edge), axis) for edge, axis in edges]
    distance, axis = min(distances, key=lambda t: t[0])
    if fall.planes == "one":
        axis = axes.get(drain.along or "", axis)
        distance = max(d for d, of in distances if of == axis)
    like = spot[axis]
    run = Quantity(distance, like.kind, UNITS["m"], like.why)
    source = "fall from the far edge to the grate" if fall.planes == "one" else "fall from the nearest edge to the grate"
    return work("-(run * fall)", "mm", source=source, run=run, fall=fall.slope)


def _diagonals(
    draft: RoomDraft, st: Statement | None, parts: Parts | None, plan: plans.Plan, context: Context,
) -> tuple[Quantity, Quantity] | None:
    a = parts.get("diagonals") if parts else None
    if st is None or a is None:
        return None
    one, two = (context.number(st, x, "diagonal") for x in a.args[:2])
    if one is None or two is None:
        return None
    if len(plan.walls) != 4:
        context.report(
            "diagonals-impossible",
            st.span(a),
            "Diagonals are said of rooms with four walls.",
            help="Measure the other corners by their walls' lengths.",
        )
        return None
    w, h = plan.walls[0].length.value, plan.walls[1].length.value
    for atom, q in zip(a.args, (one, two), strict=False):
        if not abs(w - h) < q.value < w + h:
            square = float(w * w + h * h) ** 0.5
            context.report(
                "diagonals-impossible",
                st.span(atom),
                f"No room of {float(w):g} x {float(h):g} m has a diagonal of {float(q.value):g} m.",
                help=f"In a square room it would be {square:.3f} m. Measure again.",
            )
            return None
    opposite = plan.walls[2]
    stated = opposite.length.value
    far = _far_side(w, h, plan.walls[3].length.value, one.value, two.value)
    off = abs(far - float(stated)) if far is not None else 0.0
    if far is None or off > float(stated * context.practice.limit("diagonals-slip").value):
        made = "the walls would cross" if far is None else (
            f"wall {opposite.letter} would be {far:.2f} m long, not {float(stated):g} m"
        )
        context.report(
            "diagonals-impossible",
            st.span(a),
            f"With diagonals of {float(one.value):g} and {float(two.value):g} m {made}.",
            help=f"In a square room both would be {float(w * w + h * h) ** 0.5:.3f} m. Measure them again, and the walls.",
        )
        return None
    if off > float(context.practice.limit("wall-size-tolerance").value):
        context.ask(
            "diagonals-misclosure",
            draft.name,
            f"With diagonals of {float(one.value):g} and {float(two.value):g} m wall {opposite.letter} comes to {far:.3f} m, not "
            f"{float(stated):g} m: which of them is it?",
            "survey",
            None,
            st.span(a),
        )
    return one, two


def _far_side(a: F, b: F, d: F, one: F, two: F) -> float | None:
    """The side opposite `a` of a four-cornered room with the sides a, b, d and both diagonals (m); None where sides would cross.

    `one` starts where `d` and `a` meet. Plane geometry: each far corner from its distances to the ends of `a`.
    """
    x1, x2 = float((one * one + a * a - b * b) / (2 * a)), float((d * d + a * a - two * two) / (2 * a))
    y1, y2 = float(one) ** 2 - x1 * x1, float(d) ** 2 - x2 * x2
    if y1 <= 0 or y2 <= 0:
        return None
    corners = ((0.0, 0.0), (float(a), 0.0), (x1, y1**0.5), (x2, y2**0.5))
    for n, (x, y) in enumerate(corners):
        (px, py), (qx, qy) = corners[n - 1], corners[(n + 1) % 4]
        if (x - px) * (qy - y) - (y - py) * (qx - x) <= 0:
            return None
    return hypot(corners[2][0] - corners[3][0], corners[2][1] - corners[3][1])
