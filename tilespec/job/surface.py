"""Floors and walls: base, coverings, openings and everything else that is said about one surface."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction as F

from tilespec.diagnostics.model import Label
from tilespec.diagnostics.suggest import nearest
from tilespec.job import plan as plans
from tilespec.job.context import Context, Item, Parts
from tilespec.job.product import thicknesses
from tilespec.job.start import Ground, Sides, split, start
from tilespec.job.tiling import covering, turned
from tilespec.job.types import (
    Base,
    Covering,
    Fitting,
    MovementJoint,
    Niche,
    Opening,
    Penetration,
    Point,
    Product,
    Rect,
    Start,
    Surface,
    Tile,
    TrimRun,
    WallLine,
    Words,
    Zone,
)
from tilespec.quantity import Limit, Quantity, work
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.syntax.words import ATTRIBUTES, BOTH, STATEMENTS
from tilespec.vocabulary import ABSORBENCY, BASE_WORDS, BASES, EXISTING, FITTING_WORDS, GYPSUM, SCREEDS, SIDES, TRIM_PLACES

_EPSILON = F(1, 1000)
_UNEVEN = F(20, 1000)  # a wall whose sides differ by less is taken as level


@dataclass(slots=True)
class Tiles:
    """The tiles that a statement can name, and the default covering of its room, with what its statement says.

    The default has no start of its own: each surface reads it for itself.
    """

    known: Mapping[str, Tile]
    default: Covering | None = None
    said: tuple[Statement, tuple[Attribute, ...]] | None = None


@dataclass(slots=True)
class Draft:
    """A surface while its statement is read."""

    st: Statement
    parts: Parts
    room: str
    letter: str
    title: str
    width: Quantity
    height: Quantity
    datum: Quantity
    context: Context
    neighbours: tuple[str, str] = ("", "")
    sides: tuple[Quantity, Quantity] | None = None  # measured heights, left and right
    tiled_to: Quantity | None = None
    named: dict[str, tuple[str, Span]] = field(default_factory=dict)


def zero(q: Quantity) -> Quantity:
    return work("length - length", "m", source="edge of the surface", length=q)


# ---------------------------------------------------------------- places on a wall


def _across(d: Draft, said: tuple[Attribute, ...], side: Quantity | None) -> Quantity | None:
    """Distance of the left edge (or the point, when `side` is None) from the wall's left."""
    for a in said:
        text: str | None = None
        if a.kind == "from_side":
            text = " ".join(x.text.lower() for x in a.args[1:])
        elif a.kind == "from_wall":
            letter = a.args[1].text
            if letter == d.neighbours[0]:
                text = "left"
            elif letter == d.neighbours[1]:
                text = "right"
            else:
                d.context.unknown_wall(
                    d.st.span(a.args[1]),
                    f"Wall {letter} does not meet {d.title}.",
                    letter,
                    d.neighbours,
                    f"Beside it are wall {d.neighbours[0]} on the left and wall {d.neighbours[1]} on the right.",
                )
                return None
        if text not in ("left", "right"):
            continue
        q = d.context.number(d.st, a.args[0], "place")
        if q is None:
            return None
        if text == "left":
            return q
        if side is None:
            return work("wall_length - from_right", "m", source="measured from the right", wall_length=d.width, from_right=q)
        return work(
            "wall_length - from_right - side", "m", source="measured from the right", wall_length=d.width, from_right=q, side=side
        )
    return None


def _up(d: Draft, said: tuple[Attribute, ...], side: Quantity | None) -> Quantity | None:
    """Height of the lower edge (or the point) above the finished floor."""
    for a in said:
        if a.kind in ("up", "bottom"):
            return d.context.number(d.st, a.args[0], "height-up")
        if a.kind in ("above", "below"):
            q = d.context.number(d.st, a.args[0], "height-up")
            text = " ".join(x.text.lower() for x in a.args[1:])
            if q is None:
                return None
            if text in ("finished floor", "floor"):
                return q
            if text in ("datum", "datum line"):
                sign = "datum + distance" if a.kind == "above" else "datum - distance"
                return work(sign, "m", source="measured from the datum line", datum=d.datum, distance=q)
            span = d.st.span(a.args[1]).to(d.st.span(a.args[-1]))
            d.context.unknown(
                "unknown-choice", span, f"Heights are not measured from `{text}`.", text, ("datum", "finished floor")
            )
            return None
        if a.kind == "from_side":
            text = " ".join(x.text.lower() for x in a.args[1:])
            if text in ("left", "right"):
                continue
            q = d.context.number(d.st, a.args[0], "height-up")
            if q is None:
                return None
            if text in ("bottom", "floor", "finished floor"):
                return q
            if text in ("top", "ceiling"):
                if side is None:
                    return work("wall_height - from_top", "m", source="measured from the top", wall_height=d.height, from_top=q)
                return work(
                    "wall_height - from_top - side",
                    "m",
                    source="measured from the top",
                    wall_height=d.height,
                    from_top=q,
                    side=side,
                )
            span = d.st.span(a.args[1]).to(d.st.span(a.args[-1]))
            d.context.unknown("unknown-choice", span, f"Nothing is measured from `{text}`.", text, SIDES)
            return None
    return None


def _size(d: Draft, item: Item, slot: str) -> tuple[Quantity, Quantity] | None:
    """Width and height of an item, from `W x H` or `wide` and `high`. None: not said (or wrong, and reported)."""
    a = item.get("size")
    if a is not None:
        for word in a.args:
            if word.kind == "name":
                message = f"`{word.text}` cannot stand after this size."
                d.context.unknown("unknown-description", d.st.span(word), message, word.text, ())
        sides = d.context.size(d.st, tuple(x for x in a.args if x.kind == "quantity"), slot)
        return (sides[0], sides[1]) if sides[0] is not None and sides[1] is not None else None
    wide, high = item.get("wide") or item.get("long"), item.get("high") or item.get("height")
    if wide and high:
        w, h = d.context.number(d.st, wide.args[0], slot), d.context.number(d.st, high.args[0], slot)
        return (w, h) if w is not None and h is not None else None
    return None


def _rect(d: Draft, item: Item, slot: str, *, floor_default: bool = False, what: str = "it") -> Rect | None:
    """The rectangle an item takes on the wall; reported where it is not said or does not fit."""
    span = d.st.span(item.opener)
    size = _size(d, item, slot)
    if size is None:
        if not item.get("size"):
            d.context.report(
                "missing-detail",
                span,
                f"The size of {what} is not said.",
                help=f"Write its width and height, for example `{item.kind} 0.6 x 0.9`.",
            )
        return None
    said = item.said
    before = len(d.context.diagnostics)
    x, y = _across(d, said, size[0]), _up(d, said, size[1])
    if y is None and floor_default and not any(a.kind in ("up", "above", "below", "bottom") for a in said):
        y = zero(d.height)
    if x is None or y is None:
        if len(d.context.diagnostics) == before:
            lacks = "how far from the left" if x is None else "how high up"
            example = "0.6 from left" if x is None else "1.2 up"
            d.context.report(
                "missing-detail", span, f"It is not said {lacks} {what} is.", help=f"Add it, for example `{example}`."
            )
        return None
    r = Rect(x, y, size[0], size[1], span)
    return r if _fits(d, r, what, span) else None


def _fits(d: Draft, r: Rect, what: str, span: Span) -> bool:
    faults = []
    if r.x.value < -_EPSILON:
        faults.append(f"{_mm(-r.x.value)} mm to the left")
    if r.right > d.width.value + _EPSILON:
        faults.append(f"{_mm(r.right - d.width.value)} mm to the right")
    if r.y.value < -_EPSILON:
        faults.append(f"{_mm(-r.y.value)} mm below")
    top, slopes = _top(d, r)
    if r.top > top + (_UNEVEN if slopes else _EPSILON):
        faults.append(f"{_mm(F(round((r.top - top) * 1000), 1000))} mm above" + (" its sloping top" if slopes else ""))
    if r.width.value > d.width.value + _EPSILON:
        d.context.report(
            "outside-surface",
            span,
            f"{_capital(what)} is wider than {d.title}: {_mm(r.width.value)} mm on {_mm(d.width.value)} mm.",
            help="Check both widths.",
        )
        return False
    if faults:
        d.context.report(
            "outside-surface",
            span,
            f"{what.capitalize()} reaches outside {d.title}: " + ", ".join(faults) + ".",
            help=f"{_capital(d.title)} is {_mm(d.width.value)} mm wide and {_mm(d.height.value)} mm high"
            + (f" ({_mm(d.sides[0].value)} mm left, {_mm(d.sides[1].value)} mm right)" if slopes and d.sides else "")
            + ". Check size and place.",
        )
    return not faults


def _top(d: Draft, r: Rect) -> tuple[F, bool]:
    """The height of the wall where a rectangle stands, and whether it is what its measured sides give."""
    if d.sides is None or d.width.value == 0:
        return d.height.value, False
    left, right = d.sides[0].value, d.sides[1].value
    least = min(left + (right - left) * x / d.width.value for x in (max(r.x.value, F(0)), min(r.right, d.width.value)))
    return (least, True) if least + _UNEVEN < d.height.value else (d.height.value, False)


def _below_tiling(d: Draft, top: F, what: str, span: Span) -> bool:
    """Whether something that is tiled lies where the wall is tiled."""
    if d.tiled_to is None or top <= d.tiled_to.value + _EPSILON:
        return True
    d.context.report(
        "outside-surface",
        span,
        f"{_capital(what)} reaches {_mm(top - d.tiled_to.value)} mm above what is tiled of {d.title}.",
        help=f"It is tiled to {_mm(d.tiled_to.value)} mm: write `tiled to` higher, or put {what} lower.",
    )
    return False


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _mm(x: F) -> str:
    return f"{float(x * 1000):g}"


# ---------------------------------------------------------------- parts common to floors and walls


def base(d: Draft, floor: bool) -> Base:
    """What is tiled on. Not said: a question."""
    items = d.parts.items_of("base")
    if len(items) > 1:
        d.context.report(
            "said-twice",
            d.st.span(items[1].opener),
            "The base is said twice.",
            help="Keep the one that is tiled on.",
            secondary=(Label(d.st.span(items[0].opener), "said here first"),),
        )
    if not items:
        d.context.ask(
            "base",
            f"{d.room}/{d.letter or 'floor'}",
            f"What is {d.title} in {d.room} made of, and is it sound, flat and dry?",
            "survey",
            None,
            d.st.span(),
        )
        return Base("not-stated", None)
    item = items[0]
    names = item.opener.args
    span = d.st.span(names[0]).to(d.st.span(names[-1]))
    texts = [" ".join(n.text.lower().split()) for n in names]
    # `existing tiles` are a base of their own.
    extra = [t for t in texts if t in BASE_WORDS] if " ".join(texts) not in BASES else []
    text = " ".join(t for t in texts if t not in extra)
    kind = BASES.get(text)
    if kind is None:
        near = nearest(text, tuple(BASES))
        if near:
            d.context.report(
                "unknown-substrate",
                span,
                f"`{text}` is not a base that the rules know.",
                help=f"Did you mean `{near}`?",
                fixes=d.context.write(span, near),
            )
        else:
            listed = ", ".join(dict.fromkeys(next(w for w in BASES if BASES[w] == k) for k in BASES.values()))
            d.context.report(
                "unknown-substrate", span, f"`{text}` is not a base that the rules know.", help=f"It can be: {listed}."
            )
        return Base("not-stated", Words(text, span), span=span)
    for a in item.all("words"):
        extra.extend(w.text.lower() for w in d.context.described(d.st, a.args, BASE_WORDS, "a base"))

    def number(kind: str, slot: str) -> Quantity | None:
        a = item.get(kind)
        return d.context.number(d.st, a.args[0], slot) if a else None

    thickness = number("thickness", "base-thickness")
    joists, boards, spans = number("joists", "joist-centres"), number("boards", "board-thickness"), number("span", "joist-span")
    deflection = number("deflection", "deflection")
    laid = item.get("laid")
    day = d.context.day(d.st, laid.args[0]) if laid else None
    about = f"{d.room}/{d.letter or 'floor'}"
    skim = True if {"skim", "skimmed"} & set(extra) else False if "unskimmed" in extra else None
    if kind in SCREEDS:
        if thickness is None:
            d.context.ask("screed-thickness", about, f"How thick is the screed of {d.title} in {d.room}?", "survey", None, span)
        if day is None:
            d.context.ask("screed-age", about, f"When was the screed of {d.title} in {d.room} laid?", "survey", None, span)
    if kind == "gypsum-plasterboard" and skim is None:
        d.context.ask(
            "board-skim",
            about,
            f"Is the plasterboard of {d.title} in {d.room} skimmed? A skim carries less.",
            "survey",
            None,
            span,
        )
    if kind == "timber" and floor:
        if joists is None or boards is None or spans is None:
            d.context.ask(
                "timber-deck",
                about,
                f"What are the joists' distance and span and the thickness of the deck of {d.title} in {d.room}?",
                "designer",
                None,
                span,
            )
    carries_said = number("carries", "carries")
    key = "wall-load-gypsum-plasterboard-skimmed" if kind == "gypsum-plasterboard" and skim else f"wall-load-{kind}"
    load = d.context.practice.find(key) if not floor else None
    return Base(
        kind,
        Words(" ".join(" ".join(n.text for n in names).split()), span),
        thickness,
        day,
        skim,
        joists,
        boards,
        spans,
        ABSORBENCY[kind],
        kind in GYPSUM,
        carries_said or load,
        key if load is not None and carries_said is None else None,
        deflection,
        kind in EXISTING or "existing" in extra,
        span,
    )


def named_products(d: Draft) -> dict[str, tuple[str, Span]]:
    """Products named at the surface: kind to name ("none" refuses)."""
    found: dict[str, tuple[str, Span]] = {}
    for item in d.parts.items_of("product"):
        kind, name = item.opener.args[0].text, item.opener.args[1]
        if kind in ("heating", "trim"):
            continue
        found[kind] = (name.text, d.st.span(name))
    return found


def tile_of(d: Draft, item: Item, tiles: Tiles) -> Tile | None:
    """The tile that a `tile` item names or describes."""
    args = item.opener.args
    if args and args[0].kind == "quantity":
        sides = d.context.size(d.st, args, "tile-side", "tile-thickness")
        same = next(
            (
                t
                for t in tiles.known.values()
                if sides[0] is not None
                and sides[1] is not None
                and {t.width.value, t.height.value} == {sides[0].value, sides[1].value}
            ),
            None,
        )
        span = d.st.span(args[0]).to(d.st.span(args[-1]))
        if same:
            d.context.report(
                "unknown-tile",
                span,
                "On a surface a tile is called by its name.",
                help=f"Write `{same.name}`.",
                fixes=d.context.write(span, same.name),
            )
        else:
            d.context.report(
                "unknown-tile",
                span,
                "On a surface a tile is called by its name.",
                help="Declare it first: a line `tile NAME 600x300x9 porcelain` at the margin, then `tile NAME` here.",
            )
        return None
    name = args[0]
    found = tiles.known.get(name.text)
    if found is None and d.context.is_lost(name.text):
        return None
    if found is None:
        if tiles.known:
            d.context.unknown(
                "unknown-tile",
                d.st.span(name),
                f"There is no tile `{name.text}`.",
                name.text,
                tuple(tiles.known),
                "Declared are: " + ", ".join(tiles.known) + ".",
            )
        else:
            d.context.report(
                "unknown-tile",
                d.st.span(name),
                f"There is no tile `{name.text}`.",
                help=f"Declare it: `tile {name.text} 600x300x9 porcelain` at the margin.",
            )
        return None
    return found


def ground_of_wall(d: Draft, plan: plans.Plan, openings: tuple[Opening, ...]) -> Ground:
    """What a start on this wall can be at."""

    def point(place: tuple[Attribute, ...], sides: Sides | None) -> tuple[Quantity, Quantity] | None:
        x, y = _across(d, place, sides[0] if sides else None), _up(d, place, sides[1] if sides else None)
        return (x, y) if x is not None and y is not None else None

    return Ground(
        d.letter,
        d.title,
        plan,
        d.neighbours,
        point,
        lambda x, y: -_EPSILON <= x <= d.width.value + _EPSILON and -_EPSILON <= y <= d.height.value + _EPSILON,
        f"{_capital(d.title)} is {_mm(d.width.value)} mm wide and {_mm(d.height.value)} mm high.",
        openings,
        lost=_lost(d, ("window", "door", "opening"), [o.kind for o in openings]),
    )


def _lost(d: Draft, kinds: tuple[str, ...], read: list[str]) -> tuple[str, ...]:
    """Kinds of which more is said than could be read."""
    return tuple(k for k in kinds if d.st.broken or len(d.parts.items_of(k)) > read.count(k))


def ground_of_floor(
    d: Draft, plan: plans.Plan, holes: tuple[Penetration, ...], walls: tuple[Surface, ...], others: tuple[Ground, ...]
) -> Ground:
    """What a start on the floor can be at. Its doors are those of the walls; without one, an opening down to the floor.

    others: the grounds of the walls
    """
    drains = tuple(h for h in holes if h.kind in ("drain", "channel"))
    lost = _lost(d, ("drain", "channel"), [h.kind for h in drains])
    lost = (*lost, *(["drain"] if lost else []), *(k for g in others for k in g.lost))

    def point(place: tuple[Attribute, ...], sides: Sides | None) -> tuple[Quantity, Quantity] | None:
        span = d.st.span(place[0])
        if sides is None:
            return plans.point(d.st, place, plan, d.context, "the corner of a full tile", span)
        r = plans.rect(d.st, place, sides, plan, d.context, "the corner of a full tile", span)
        return (r.x, r.y) if r is not None else None

    def doors(*kinds: str) -> tuple[WallLine, ...]:
        found = (plan.wall(s.letter) for s in walls for o in s.openings if o.kind in kinds and o.rect.y.value <= _EPSILON)
        return tuple(line for line in found if line is not None)

    return Ground(
        "",
        "the floor",
        plan,
        ("", ""),
        point,
        lambda x, y: plans.inside(plan, x, y),
        "Check its distances from the walls.",
        (),
        drains,
        doors("door") or doors("opening"),
        lost,
    )


def coverings(d: Draft, tiles: Tiles, ground: Ground) -> tuple[Covering, ...]:
    """Field, bands, panels and border of a surface."""
    floor = ground.floor
    if tiles.default is not None and tiles.said is not None:
        st, said = tiles.said
        tiles = replace(tiles, default=replace(tiles.default, start=start(st, said, (), ground, d.context, own=False)))
    found: list[Covering] = []
    items = d.parts.items_of("tile")
    wrong = False
    for full in items:
        item, place = split(full)
        tile = tile_of(d, item, tiles)
        if tile is None:
            wrong = True
            continue
        role, region, border = "field", None, None
        if item.get("band"):
            role, region = "band", _band(d, item)
            if region is None:
                wrong = True
                continue
        elif item.get("panel"):
            role, region = "panel", _rect(d, item, "area-side", what="the panel")
            if region is None or not _below_tiling(d, region.top, "the panel", d.st.span(item.opener)):
                wrong = True
                continue
        elif item.get("border"):
            role, border = "border", _border(d, item, ground)
            if border is None:
                wrong = True
                continue
            if first := next((c for c in found if c.role == "border"), None):
                d.context.report(
                    "said-twice",
                    d.st.span(item.opener),
                    "Two borders are said for one surface.",
                    help="Keep one. On a wall a second stripe is a `band`.",
                    secondary=(Label(first.span, "the first"),) if first.span else (),
                )
                wrong = True
                continue
        elif any(c.role == "field" for c in found):
            d.context.report(
                "said-twice",
                d.st.span(item.opener),
                "Two tiles for one field.",
                help="Say where the second goes: `band 0.3 high, bottom 1.2 up` or `panel 0.6 x 0.9; 0.3 from left, 0.9 up`.",
                secondary=(Label(found[0].span, "the first"),) if found[0].span else (),
            )
            wrong = True
            continue
        about = f"{d.title} in {d.room}" if role == "field" else f"the {role} of {tile.name} on {d.title} in {d.room}"
        default = tiles.default if role == "field" else None
        c = covering(d.st, item, place, tile, role, region, default, tiles.known, ground, about, d.context)
        if c is not None:
            _tile_fits(d, c, c.span)
            found.append(replace(c, border=border))
    if not any(c.role == "field" for c in found) and not wrong:
        if tiles.default is not None:
            _tile_fits(d, tiles.default, d.st.span())
            found.insert(0, tiles.default)
        elif any(c.role == "panel" for c in found):
            pass  # a splashback: only the panel is tiled
        elif len(tiles.known) == 1:
            tile = next(iter(tiles.known.values()))
            from tilespec.job.tiling import usual_joint
            from tilespec.job.types import Pattern

            d.context.ask(
                "tile",
                f"{d.room}/{d.letter or 'floor'}",
                f"Which tile goes on {d.title} in {d.room}? ({tile.name}, the only one declared, is taken)",
                "client",
                None,
                d.st.span(),
            )
            found.insert(
                0,
                Covering(
                    tile,
                    usual_joint(tile, floor, d.context, f"{d.title} in {d.room}"),
                    Pattern("straight", given=False),
                    Start(),
                    None,
                    "field",
                    d.st.span(),
                ),
            )
        elif (not d.st.broken or _no_tile_unread(d)) and not d.context.any_lost:
            names = ", ".join(tiles.known)
            d.context.report(
                "no-tile",
                d.st.span(),
                f"It is not said which tile goes on {d.title}.",
                help=(
                    f"Add an indented line `tile NAME`; declared are {names}."
                    if names
                    else "Declare one: `tile wall-tile 600x300x9 porcelain`, then `tile wall-tile` here."
                ),
                sure=_no_tile_unread(d),
            )
    found.sort(key=lambda c: (c.role != "field", c.role != "border"))
    followed = [f for f in ground.followed if any(f[0] in c.start.follows for c in found)]
    ground.followed[:] = dict.fromkeys(followed)
    return tuple(found)


_WORD = re.compile(r"[^\W\d_][\w-]*")


def _no_tile_unread(d: Draft) -> bool:
    """Whether what could not be read of the statement says no tile: it begins with a word for something else."""
    pieces = [_WORD.findall(text) for text in d.st.unread]
    other = all(
        words and (words[0] in ATTRIBUTES or words[0] in BOTH or words[0] in STATEMENTS) and not nearest("tile", words)
        for words in pieces
    )
    # Doubted for one reason only: that part.
    return bool(pieces) and other and len(d.context.doubts((d.st,))) < 2


def _border(d: Draft, item: Item, ground: Ground) -> Quantity | None:
    """How wide the frame is that a border makes round the surface."""
    wide = item.get("wide")
    span = d.st.span(item.opener)
    if wide is None:
        d.context.report("missing-detail", span, "The width of the border is not said.", help="Write it as `border 0.15 wide`.")
        return None
    q = d.context.number(d.st, wide.args[0], "border-width")
    if q is None:
        return None
    room = min(d.width.value, d.height.value)
    if ground.floor and ground.plan is not None:
        room = plans.narrowest(ground.plan)
    if 2 * q.value >= room:
        d.context.report(
            "border-too-wide",
            d.st.span(wide),
            f"Two borders of {_mm(q.value)} mm leave no field: {d.title} is {_mm(room)} mm across where it is narrowest.",
            help=f"Write less than {_mm(room / 2)} mm.",
        )
        return None
    return q


def movement_joints(d: Draft, ground: Ground, heated: bool) -> tuple[MovementJoint, ...]:
    """Joints in the tiling itself, right across the surface."""
    found: list[MovementJoint] = []
    for item in d.parts.items_of("movement_joint"):
        span = d.st.span(item.opener)
        at = _line(d, item, ground, span)
        if at is None:
            continue
        wide = item.get("width")
        width = d.context.number(d.st, wide.args[0], "movement-joint") if wide else None
        if wide is not None and width is None:
            continue
        if width is None:
            key = "corner-joint-wall" if not ground.floor else "perimeter-joint-heated" if heated else "perimeter-joint-floor"
            about = f"{d.room}/{d.title.removeprefix('the ')}"
            question = f"How wide are the movement joints of {d.title} in {d.room}?"
            width = d.context.assume(key, "movement-joint", about, question, "designer", span)
        x, y = at
        deep = item.get("deep")
        depth = d.context.number(d.st, deep.args[0], "sealant-depth") if deep else None
        joint = MovementJoint(x, y, width, span, depth)
        if before := next((m for m in found if _same_place(m, joint)), None):
            d.context.report(
                "said-twice",
                span,
                "Two movement joints lie in one place.",
                help="Keep one of the two.",
                secondary=(Label(before.span, "said here first"),) if before.span else (),
            )
            continue
        found.append(joint)
    return tuple(found)


def structural_joints(d: Draft, ground: Ground) -> tuple[MovementJoint, ...]:
    """Joints of the base below the tiling, right across the surface."""
    found: list[MovementJoint] = []
    for item in d.parts.items_of("structural_joint"):
        span = d.st.span(item.opener)
        at = _line(d, item, ground, span, "structural joint")
        wide = item.get("width")
        if wide is None:
            d.context.report(
                "missing-detail", span, "The width of the structural joint is not said.", help="Add it, for example `width 10`."
            )
            continue
        width = d.context.number(d.st, wide.args[0], "movement-joint")
        if at is not None and width is not None:
            found.append(MovementJoint(*at, width, span))
    return tuple(found)


def _same_place(one: MovementJoint, other: MovementJoint) -> bool:
    apart = (one.width.value + other.width.value) / 2
    for a, b in ((one.x, other.x), (one.y, other.y)):
        if a is not None and b is not None and abs(a.value - b.value) < apart:
            return True
    return False


def _line(
    d: Draft, item: Item, ground: Ground, span: Span, what: str = "movement joint"
) -> tuple[Quantity | None, Quantity | None] | None:
    """Where a joint across the surface runs: at x or at y."""
    before = len(d.context.diagnostics)
    x: Quantity | None = None
    y: Quantity | None = None
    places = tuple(a for a in item.said if a.kind in ("from_side", "from_wall", "up", "above", "below", "bottom"))
    if len(places) == 1 and ground.floor:
        if places[0].kind == "from_wall" and ground.plan is not None:
            found = plans.offset(d.st, places[0], ground.plan, d.context)
            if found is not None:
                axis, line, normal, q = found
                at = plans.at_line(line, normal[axis], q, ground.plan, axis)
                x, y = (at, None) if axis == 0 else (None, at)
    elif len(places) == 1:
        x = _across(d, places, None)
        y = _up(d, places, None) if x is None and len(d.context.diagnostics) == before else None
    if x is None and y is None:
        if len(d.context.diagnostics) == before:
            example = f"{what} 1.2 from wall D" if ground.floor else f"{what} 1.2 from left"
            d.context.report(
                "missing-detail",
                span,
                f"A {what} is one line, with one place." if places else f"It is not said where the {what} runs.",
                help=f"Write `{example}`" + (f"; for a level one `{what} 1.2 up`." if not ground.floor else "."),
            )
        return None
    if ground.floor and ground.plan is not None:
        low_x, low_y, high_x, high_y = ground.plan.bounds()
    else:
        low_x, low_y, high_x, high_y = F(0), F(0), d.width.value, (d.tiled_to or d.height).value
    if x is not None and not low_x < x.value < high_x or y is not None and not low_y < y.value < high_y:
        d.context.report(
            "outside-surface",
            span,
            f"The {what} does not cross {d.title}.",
            help=(f"It is tiled to {_mm(d.tiled_to.value)} mm." if d.tiled_to is not None and y is not None else ground.extent)
            + " The joint in a corner or at an edge need not be said.",
        )
        return None
    return x, y


def _band(d: Draft, item: Item) -> Rect | None:
    high = item.get("high") or item.get("height")
    span = d.st.span(item.opener)
    if high is None:
        d.context.report(
            "missing-detail", span, "The height of the band is not said.", help="Write it as `band 0.305 high, bottom 1.2 up`."
        )
        return None
    h = d.context.number(d.st, high.args[0], "band-height")
    if h is None:
        return None
    y = _up(d, item.said, h)
    if y is None:
        d.context.report(
            "missing-detail",
            span,
            "It is not said how high up the band is.",
            help="Write it as `band 0.305 high, bottom 1.2 up`.",
        )
        return None
    r = Rect(zero(d.width), y, d.width, h, span)
    return r if _fits(d, r, "the band", span) and _below_tiling(d, r.top, "the band", span) else None


def _tile_fits(d: Draft, c: Covering, span: Span | None) -> None:
    longest, shortest = max(c.tile.width.value, c.tile.height.value), min(c.tile.width.value, c.tile.height.value)
    if longest > max(d.width.value, d.height.value) and shortest > min(d.width.value, d.height.value):
        d.context.report(
            "tile-larger-than-surface",
            span or d.st.span(),
            f"{f'Tile {c.tile.name}' if c.tile.named else 'The tile'} is larger than {d.title}.",
            help=(
                f"{_capital(d.title)} is {_mm(d.width.value)} x {_mm(d.height.value)} mm. Check the tile's size and"
                f" {'the wall' if d.letter else 'the floor'}'s."
            ),
        )


def trims(d: Draft, find: Callable[[Atom], Product | None]) -> tuple[TrimRun, ...]:
    """Trim runs: where they are and how long."""
    runs: list[TrimRun] = []
    for item in d.parts.items_of("product"):
        if item.opener.args[0].text != "trim":
            continue
        product = find(item.opener.args[1])
        if product is None:
            continue
        at = item.get("at")
        text = " ".join(x.text.lower() for x in at.args) if at else "openings"
        span = d.st.span(item.opener)
        long = item.get("long")
        length = d.context.number(d.st, long.args[0], "wall-side") if long else None
        if text not in TRIM_PLACES:
            d.context.unknown(
                "unknown-choice",
                d.st.span(at.args[0]).to(d.st.span(at.args[-1])) if at else span,
                f"No trim runs at `{text}`.",
                text,
                TRIM_PLACES,
            )
            continue
        if length is None:
            if text in ("left", "right", "external corner", "boxing"):
                length = d.height
            elif text in ("top", "bottom"):
                length = d.width
            else:
                rects = (
                    [_rect_of(d, i) for i in d.parts.items_of("window", "opening", "door")]
                    if text == "openings"
                    else [_rect_of(d, i) for i in d.parts.items_of("niche")]
                )
                sides = [r for r in rects if r is not None]
                if not sides:
                    d.context.report(
                        "missing-detail",
                        span,
                        f"There are no {text} on {d.title} for this trim.",
                        help="Say where it runs (`at left`, `at top`) or how long it is (`1.2 long`).",
                    )
                    continue
                total = None
                for w, h in sides:
                    edge = work("2 * (width + height)", "m", source="round an opening", width=w, height=h)
                    total = edge if total is None else work("so_far + edge", "m", source="all openings", so_far=total, edge=edge)
                assert total is not None
                length = total
        runs.append(TrimRun(text, length, product, span))
    return tuple(runs)


def _rect_of(d: Draft, item: Item) -> tuple[Quantity, Quantity] | None:
    quiet = Context(d.context.practice, d.context.sizes_in_mm)
    return _size(Draft(d.st, d.parts, d.room, d.letter, d.title, d.width, d.height, d.datum, quiet), item, "opening-side")


# ---------------------------------------------------------------- walls


def wall_items(
    d: Draft, tiles: Tiles
) -> tuple[
    tuple[Opening, ...], tuple[Niche, ...], tuple[Rect, ...], tuple[Penetration, ...], tuple[Fitting, ...], tuple[Zone, ...]
]:
    openings: list[Opening] = []
    niches: list[Niche] = []
    untiled: list[Rect] = []
    holes: list[Penetration] = []
    fittings: list[Fitting] = []
    zones: list[Zone] = []
    for item in d.parts.items:
        span = d.st.span(item.opener)
        if item.kind in ("window", "door", "opening"):
            r = _rect(d, item, "opening-side", floor_default=item.kind == "door", what=f"the {item.kind}")
            if r is None:
                continue
            reveal = item.get("reveal")
            step = item.get("threshold")
            openings.append(
                Opening(
                    item.kind,
                    r,
                    d.context.number(d.st, reveal.args[0], "reveal") if reveal else None,
                    d.context.number(d.st, step.args[0], "threshold") if step else None,
                    span,
                )
            )
        elif item.kind == "niche":
            r = _rect(d, item, "opening-side", what="the niche")
            deep = item.get("deep") or item.get("depth")
            depth = d.context.number(d.st, deep.args[0], "niche-depth") if deep else None
            if r is None or not _below_tiling(d, r.top, "the niche", span):
                continue
            if depth is None:
                if deep is None:
                    d.context.report(
                        "missing-detail", span, "The depth of the niche is not said.", help="Add it, for example `0.09 deep`."
                    )
                continue
            inner = item.get("tile")
            lining = tiles.known.get(inner.args[0].text) if inner and inner.args[0].kind == "name" else None
            begin = _niche_start(d, item)
            if inner and lining is None:
                d.context.unknown(
                    "unknown-tile",
                    d.st.span(inner.args[0]),
                    f"There is no tile `{inner.args[0].text}`.",
                    inner.args[0].text,
                    tuple(tiles.known),
                )
            niches.append(Niche(r, depth, lining, span, begin))
        elif item.kind == "untiled":
            r = _rect(d, item, "area-side", floor_default=True, what="the untiled area")
            if r is not None:
                untiled.append(r)
        elif item.kind in ("mirror", "fitting"):
            r = _rect(d, item, "area-side", what="the mirror" if item.kind == "mirror" else "the fitting")
            if r is not None:
                label = d.context.words(d.st, item.opener.args[0]) if item.opener.args else None
                said = [w for a in item.all("words") for w in a.args]
                words = d.context.described(d.st, tuple(said), FITTING_WORDS, "a fitting")
                fittings.append(Fitting(item.kind, label, r, span, any(w.text.lower() == "glued" for w in words)))
        elif item.kind in ("splash", "zone_shower", "zone_bath"):
            exposure = {"splash": "splash", "zone_shower": "shower", "zone_bath": "bath"}[item.kind]
            if item.get("size") or item.get("high"):
                r = _rect(d, item, "area-side", floor_default=True, what=f"the {exposure} area")
                if r is None:
                    continue
                zones.append(Zone(exposure, r, "said", span))
            else:
                zones.append(Zone(exposure, None, "said", span))
        elif item.kind in ("pipe", "valve", "outlet", "socket"):
            hole = wall_hole(d, item)
            if hole is not None:
                holes.append(hole)
    _overlaps(d, openings, niches)
    return tuple(openings), tuple(niches), tuple(untiled), tuple(holes), tuple(fittings), tuple(zones)


def _niche_start(d: Draft, item: Item) -> Start:
    """A niche can follow the field that it lies in, nothing else."""
    begin = start(d.st, item.said, (), None, d.context, own=True, field=False)
    if set(begin.follows) - {"field"}:
        d.context.report(
            "follow-impossible",
            d.st.span(item.get("joints_follow")),
            "The joints of a niche can only follow the field around it.",
            help="Write `joints follow field`.",
        )
        return Start()
    return begin


def wall_hole(d: Draft, item: Item) -> Penetration | None:
    span = d.st.span(item.opener)
    before = len(d.context.diagnostics)
    x, y = _across(d, item.said, None), _up(d, item.said, None)
    if x is None or y is None:
        if len(d.context.diagnostics) == before:
            d.context.report(
                "missing-detail",
                span,
                f"It is not said where the {item.kind} is.",
                help=f"Write it as `{item.kind} 0.45 from left, 1.1 up`.",
            )
        return None
    if not (0 <= x.value <= d.width.value and 0 <= y.value <= d.height.value):
        d.context.report(
            "outside-surface",
            span,
            f"The {item.kind} is not on {d.title}.",
            help=f"{_capital(d.title)} is {_mm(d.width.value)} mm wide and {_mm(d.height.value)} mm high.",
        )
        return None
    a = item.get("diameter")
    note = item.get("note")
    across = d.context.number(d.st, a.args[0], "diameter") if a else None
    if across is not None:
        over = max(across.value / 2 - min(x.value, d.width.value - x.value, d.height.value - y.value), F(0))
        if over > _EPSILON:
            d.context.report(
                "outside-surface",
                d.st.span(a),
                f"The {item.kind} reaches {_mm(over)} mm outside {d.title}.",
                help="Its place is that of its middle. Check it, and the diameter.",
            )
            return None
    return Penetration(
        item.kind,
        x,
        y,
        across,
        label=d.context.words(d.st, note.args[0]) if note else None,
        span=span,
        covers=thicknesses(d.st, covers, d.context, "cover") if (covers := item.get("covers")) else None,
    )


def _overlaps(d: Draft, openings: list[Opening], niches: list[Niche]) -> None:
    """Openings and niches that take the same place, told at the one that stands later in the text."""
    things = [(o.kind, o.rect, o.span) for o in openings] + [("niche", n.rect, n.span) for n in niches]
    things.sort(key=lambda t: t[2].start if t[2] else 0)
    for n, (other, a, first) in enumerate(things):
        for kind, b, span in things[n + 1 :]:
            if (
                min(a.right, b.right) - max(a.x.value, b.x.value) > _EPSILON
                and min(a.top, b.top) - max(a.y.value, b.y.value) > _EPSILON
            ):
                d.context.report(
                    "openings-overlap",
                    span or d.st.span(),
                    f"This {kind} overlaps the {other} said above it.",
                    help="Check the places: measured from the left, facing the wall from inside the room.",
                    secondary=(Label(first, f"the {other}"),) if first else (),
                )


def holes_in_openings(d: Draft, holes: tuple[Penetration, ...], openings: tuple[Opening, ...]) -> tuple[Penetration, ...]:
    """The holes that are in the wall; one in the middle of an opening is reported."""
    kept = []
    for hole in holes:
        o = next((o for o in openings if _holds(o.rect, hole)), None)
        if o is None:
            kept.append(hole)
            continue
        d.context.report(
            "openings-overlap",
            hole.span or d.st.span(),
            f"The {hole.kind} is in the {o.kind}, where there is no wall.",
            help="Check the places: measured from the left, facing the wall from inside the room.",
            secondary=(Label(o.span, f"the {o.kind}"),) if o.span else (),
        )
    return tuple(kept)


def _holds(r: Rect, hole: Penetration) -> bool:
    return r.x.value < hole.x.value < r.right and r.y.value < hole.y.value < r.top


# ---------------------------------------------------------------- floors


def floor_items(
    d: Draft, plan: plans.Plan
) -> tuple[tuple[Rect, ...], tuple[Penetration, ...], tuple[Fitting, ...], tuple[Zone, ...]]:
    untiled: list[Rect] = []
    holes: list[Penetration] = []
    fittings: list[Fitting] = []
    zones: list[Zone] = []
    for item in d.parts.items:
        span = d.st.span(item.opener)
        if item.kind in ("untiled", "fixture", "splash", "zone_shower", "zone_bath"):
            if item.kind in ("zone_shower", "zone_bath", "splash") and not item.get("size"):
                zones.append(Zone({"zone_bath": "bath", "zone_shower": "shower"}.get(item.kind, "splash"), None, "said", span))
                continue
            size = _size(d, item, "area-side")
            what = "the untiled area" if item.kind == "untiled" else "the fixture" if item.kind == "fixture" else "the area"
            if size is None:
                if not item.get("size"):
                    d.context.report(
                        "missing-detail",
                        span,
                        f"The size of {what} is not said.",
                        help="Write both sides, for example `0.6 x 0.5`.",
                    )
                continue
            r = plans.rect(d.st, item.said, size, plan, d.context, what, span)
            if r is None:
                continue
            if not plans.rect_inside(plan, r):
                d.context.report(
                    "outside-surface",
                    span,
                    f"{what.capitalize()} reaches outside the room.",
                    help="Check its sides (along wall A first) and its distances from the walls.",
                )
                continue
            if item.kind == "untiled":
                untiled.append(r)
            elif item.kind == "fixture":
                fittings.append(Fitting("fixture", d.context.words(d.st, item.opener.args[0]), r, span))
            else:
                zones.append(Zone("splash" if item.kind == "splash" else item.kind[5:], r, "said", span))
        elif item.kind in ("drain", "pipe"):
            at = plans.point(d.st, item.said, plan, d.context, f"the {item.kind}", span)
            if at is None:
                continue
            if not plans.inside(plan, at[0].value, at[1].value):
                d.context.report(
                    "outside-surface", span, f"The {item.kind} is outside the room.", help="Check its distances from the walls."
                )
                continue
            a = item.get("diameter")
            across = d.context.number(d.st, a.args[0], "diameter") if a else None
            if across is not None and a is not None and not plans.round_inside(plan, at[0].value, at[1].value, across.value / 2):
                d.context.report(
                    "outside-surface",
                    d.st.span(a),
                    f"The {item.kind} reaches outside the room.",
                    help="Its place is that of its middle. Check its distances from the walls, and the diameter.",
                )
                continue
            flange, flow = _drained(d, item)
            holes.append(Penetration(item.kind, at[0], at[1], across, span=span, flange=flange, flow=flow))
        elif item.kind == "channel":
            hole = _channel(d, item, plan)
            if hole is not None:
                holes.append(hole)
    return tuple(untiled), tuple(holes), tuple(fittings), tuple(zones)


def _drained(d: Draft, item: Item) -> tuple[Quantity | None, Quantity | None]:
    """A drain's flange and what it takes away."""
    flange, flow = item.get("flange"), item.get("flow")
    return (
        d.context.number(d.st, flange.args[0], "flange") if flange else None,
        d.context.number(d.st, flow.args[0], "flow") if flow else None,
    )


def _channel(d: Draft, item: Item, plan: plans.Plan) -> Penetration | None:
    """A linear drain along a wall; its place is its middle."""
    span = d.st.span(item.opener)
    along, long = item.get("along"), item.get("long")
    if along is None or long is None:
        d.context.report(
            "missing-detail",
            span,
            "A channel needs the wall it runs along and its length.",
            help="Write it as `channel along wall A, 0.8 long, 0.05 from wall A, 0.05 from wall D`.",
        )
        return None
    letter = along.args[0]
    wall = plan.wall(letter.text)
    if wall is None:
        d.context.unknown_wall(d.st.span(letter), f"This room has no wall {letter.text}.", letter.text, plan.letters)
        return None
    length = d.context.number(d.st, long.args[0], "channel-length")
    if length is None:
        return None
    axis = 0 if plans.direction(wall)[0] else 1
    coordinates: list[Quantity | None] = [None, None]
    for a in item.said:
        if a.kind != "from_wall":
            continue
        place = plans.offset(d.st, a, plan, d.context)
        if place is None:
            return None
        at, line, normal, q = place
        coordinate = plans.at_line(line, normal[at], q, plan, at)
        if at == axis:
            coordinate = work(
                "edge + length / 2" if normal[at] > 0 else "edge - length / 2",
                "m",
                source="middle of the channel",
                edge=coordinate,
                length=length,
            )
        if coordinates[at] is not None:
            plans.same_way(d.st, item.said, a, plan, "the channel", d.context)
            return None
        coordinates[at] = coordinate
    x, y = coordinates
    if x is None or y is None:
        d.context.report(
            "missing-detail",
            span,
            "It is not clear where the channel is.",
            help="Say its distance from two walls: `0.05 from wall A, 0.05 from wall D`.",
        )
        return None
    half = length.value / 2
    ends = [(x.value + s * half, y.value) if axis == 0 else (x.value, y.value + s * half) for s in (-1, 0, 1)]
    if not all(plans.inside(plan, *p) for p in ends):
        d.context.report(
            "outside-surface",
            span,
            f"The channel of {_mm(length.value)} mm reaches outside the room.",
            help="Check its length and its distances from the walls.",
        )
        return None
    flange, flow = _drained(d, item)
    return Penetration("channel", x, y, None, length, letter.text, None, span, flange=flange, flow=flow)


def rectangle_outline(width: F, height: F) -> tuple[Point, ...]:
    return ((F(0), F(0)), (width, F(0)), (width, height), (F(0), height))


__all__ = [
    "Draft",
    "Limit",
    "Surface",
    "Tiles",
    "WallLine",
    "base",
    "coverings",
    "floor_items",
    "ground_of_floor",
    "ground_of_wall",
    "holes_in_openings",
    "movement_joints",
    "named_products",
    "rectangle_outline",
    "structural_joints",
    "trims",
    "turned",
    "wall_hole",
    "wall_items",
    "zero",
]
