"""Tiles, and how they are laid: declarations, coverings, patterns and starts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tilespec.job.context import Context, Item
from tilespec.job.parts import take_apart
from tilespec.job.start import Ground, merged, start
from tilespec.job.types import Covering, Pattern, Rect, Tile
from tilespec.quantity import Default, Quantity
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Attribute, Statement
from tilespec.vocabulary import BODIES, BOND_HELP, BOND_WORDS, BONDS, COLOURS, LIME_STONES, OFFSETS, POROUS, SLIP, TILE_WORDS


def _described(
    st: Statement, attributes: tuple[Attribute, ...], context: Context, known: tuple[str, ...], what: str, listed: str = ""
) -> list[Atom]:
    return [
        w for a in attributes
        for w in context.described(st, tuple(x for x in a.args if x.kind == "name"), known, what, listed)
    ]


def declare(st: Statement, context: Context) -> Tile | None:
    """Read a `tile` statement that carries a size."""
    parts = take_apart(st, context)
    name = st.args[0].text if st.args and st.args[0].kind == "name" and len(st.args) == 1 else "tile"
    named = name != "tile" or bool(st.args and st.args[0].kind == "name" and len(st.args) == 1)
    called = f"tile {name}" if named else "the tile"
    size = parts.get("size")
    atoms = size.args if size else st.args
    if not any(a.kind == "quantity" for a in atoms):
        return None
    sides = context.size(st, tuple(atoms), "tile-side", "tile-thickness")
    if sides[0] is None or sides[1] is None or (len(sides) > 2 and sides[2] is None):
        return None
    described = _described(
        st,
        (Attribute("size", tuple(a for a in atoms if a.kind == "name"), 0, 0), *parts.all("words")),
        context,
        TILE_WORDS,
        "a tile",
    )
    words = tuple(w.text.lower() for w in described)
    width, height = sides[0], sides[1]
    orientation = "square" if width.value == height.value else "as written"
    for w in words:
        if w in ("landscape", "upright") and orientation != "square":
            orientation = w
    swapped = orientation == "landscape" and width.value < height.value or orientation == "upright" and width.value > height.value
    if swapped:
        width, height = height, width
    if orientation == "as written":
        context.ask(
            "tile-orientation",
            name,
            f"Is {called} laid landscape or upright? (taken as written, width first)",
            "client",
            None,
            st.span(),
        )
    body = next((BODIES[w] for w in words if w in BODIES), "not stated")
    if "natural" in words and body == "not stated":
        body = "stone"
    mosaic = "mosaic" in words
    if body == "not stated":
        context.ask(
            "tile-body", name, f"What is {called} made of (porcelain, ceramic, stone, glass)?", "data sheet", None, st.span()
        )
    thickness = sides[2] if len(sides) > 2 else None
    if thickness is None:
        key = (
            "tile-thickness-mosaic" if mosaic else "tile-thickness-large" if max(width.mm, height.mm) > 600 else "tile-thickness"
        )
        thickness = context.assume(key, "tile-thickness", name, f"How thick is {called}?", "data sheet", st.span())
    fields: dict[str, Quantity | None] = {}
    for kind, slot in (
        ("weight", "weight"),
        ("box", "box"),
        ("dcof", "dcof"),
        ("pendulum", "pendulum"),
        ("absorption", "absorption"),
    ):
        a = parts.get(kind)
        fields[kind] = context.number(st, a.args[0], slot) if a else None
    if not mosaic and fields["box"] is None:
        which = f"tiles of {name}" if named else "tiles"
        context.ask("tile-box", name, f"How many {which} are in a box?", "data sheet", None, st.span())
    if fields["weight"] is None:
        context.ask("tile-weight", name, f"What does {called} weigh for each square metre?", "data sheet", None, st.span())
    chip = parts.get("chips")
    chips = context.size(st, chip.args, "chip") if chip else (None, None)
    work = parts.get("work_size")
    works = context.size(st, work.args, "tile-side") if work else (None, None)
    if swapped:
        # Said in the order of the size.
        chips, works = chips[::-1], works[::-1]
    chip_joint = None
    if mosaic and chip is None:
        cw = context.assume(
            "mosaic-chip", "mosaic-chip", name, f"How large are the chips of mosaic {name}?", "data sheet", st.span()
        )
        chips = (cw, cw)
    if mosaic:
        # At a tile without a name `joint` says how it is laid; a named one says there what its own joints are.
        own = parts.get("joint") if named else None
        question = f"How wide are the joints between the chips of mosaic {name}?"
        chip_joint = (context.number(st, own.args[0], "joint") if own else None) or context.assume(
            "mosaic-joint", "mosaic-joint", name, question, "data sheet", st.span()
        )
    barefoot = parts.get("barefoot")
    letter = None
    if barefoot:
        letter = barefoot.args[0].text.upper()
        if letter not in ("A", "B", "C"):
            context.unknown(
                "unknown-choice", st.span(barefoot.args[0]), f"There is no barefoot class `{letter}`.", letter, ("A", "B", "C")
            )
            letter = None
    slip = parts.get("slip")
    rating = None
    if slip:
        rating = slip.args[0].text.upper()
        if rating not in SLIP:
            context.unknown(
                "unknown-choice",
                st.span(slip.args[0]),
                f"There is no slip class `{slip.args[0].text}`.",
                rating,
                SLIP,
            )
            rating = None
    if (colour := parts.get("colour")) and colour.args[0].text.lower() not in COLOURS:
        context.unknown(
            "unknown-choice",
            st.span(colour.args[0]),
            f"`{colour.args[0].text}` is no colour that the rules know.",
            colour.args[0].text,
            COLOURS,
        )
    extra = (colour.args[0].text.lower(),) if colour and colour.args[0].text.lower() in COLOURS else ()
    stone = body == "stone" and "engineered" not in words
    return Tile(
        name=name,
        named=named,
        width=width,
        height=height,
        thickness=thickness,
        body=body,
        mosaic=mosaic,
        rectified="rectified" in words,
        translucent="translucent" in words,
        stone=stone,
        porous=any(w in POROUS for w in words) or "natural" in words,
        orientation=orientation,
        weight=fields["weight"],
        box=fields["box"],
        chip_width=chips[0],
        chip_height=chips[1],
        chip_joint=chip_joint,
        work_width=works[0],
        work_height=works[1],
        absorption=fields["absorption"],
        barefoot=letter,
        slip=rating,
        dcof=fields["dcof"],
        pendulum=fields["pendulum"],
        words=(*words, *extra),
        span=st.span(),
    )


def lime_stone(tile: Tile) -> bool:
    return any(w in LIME_STONES for w in tile.words)


def turned(tile: Tile, orientation: str) -> Tile:
    """The tile laid another way round on one surface."""
    w, h = tile.width, tile.height
    if (orientation == "landscape" and w.value < h.value) or (orientation == "upright" and w.value > h.value):
        return replace(
            tile, width=h, height=w, orientation=orientation, work_width=tile.work_height, work_height=tile.work_width,
            chip_width=tile.chip_height, chip_height=tile.chip_width,
        )
    return replace(tile, orientation=orientation)


@dataclass(frozen=True, slots=True)
class Laying:
    """How a tile is laid, as said beside it. orientation None: as the tile is declared."""

    pattern: Pattern | None
    orientation: str | None


def laying(st: Statement, said: tuple[Attribute, ...], known: Mapping[str, Tile], context: Context) -> Laying:
    """Pattern and orientation from what is said beside a tile. `known`: the tiles that can be named."""
    words = _described(st, tuple(a for a in said if a.kind == "words"), context, BOND_WORDS, "how tiles are laid", BOND_HELP)
    texts = [w.text.lower() for w in words]
    orientation = next((t for t in texts if t in ("landscape", "upright")), None)
    run = next((a for a in said if a.kind == "run"), None)
    with_ = next((a for a in said if a.kind == "modular"), None)
    second = _second(st, with_, known, context) if with_ else None
    length = context.number(st, run.args[0], "run") if run else None
    if run is not None and length is None or with_ is not None and second is None:
        return Laying(None, orientation)  # reported
    about = [w for w in words if w.text.lower() not in ("landscape", "upright")]
    spans = [*(st.span(w) for w in about), *(st.span(a) for a in (run, with_) if a is not None)]
    if not spans:
        return Laying(None, orientation)
    spans.sort(key=lambda s: s.start)
    span = spans[0].to(spans[-1])
    names = list(dict.fromkeys(BONDS[t] for t in texts if t in BONDS))
    if "stack" in names and "offset" in texts:
        names[names.index("stack")] = "half"
    names += ["run"] * (run is not None) + ["modular"] * (with_ is not None)
    diagonal = "diagonal" in names
    kinds = [n for n in names if n != "diagonal"]
    plain = [n for n in kinds if n not in ("straight", "stack")]
    # `straight herringbone` runs along the walls; a straight grid on the diagonal is the diagonal.
    along = len(plain) == 1 and plain[0] == "herringbone" and kinds != plain
    name = plain[0] if plain else "diagonal" if diagonal else kinds[0] if kinds else ""
    listed = [t for t in texts if t in BONDS and (along or BONDS[t] != "diagonal")]
    listed += ["run"] * (run is not None) + ["modular"] * (with_ is not None)
    if len(plain) > 1 or plain and kinds != plain and not along or along and diagonal:
        context.report(
            "said-twice", span, "Two bonds are said for one tile: " + " and ".join(f"`{t}`" for t in listed) + ".",
            help="Keep one." if not along else "Write `straight herringbone` (along the walls) or `diagonal herringbone`.",
        )
        return Laying(None, orientation)
    if not name:
        if len(words) < sum(len(a.args) for a in said if a.kind == "words"):
            return Laying(None, orientation)  # a word that is not known may be the bond
        context.report(
            "missing-detail", span, f"`{' '.join(w.text for w in about)}` does not say which bond.",
            help="Name it, for example `half bond`, `third bond stepped`, `vertical half bond` or `double herringbone`.",
        )
        return Laying(None, orientation)
    vertical, double = "vertical" in texts, "double" in texts
    if vertical and name not in (*OFFSETS, "straight", "stack"):
        context.report(
            "unknown-description", span, f"Only an offset bond stands: `vertical` says nothing about {_bond(name)}.",
            help="Take `vertical` out" + ("; along the walls it is `straight herringbone`." if name == "herringbone" else "."),
        )
    if double and name != "herringbone":
        context.report(
            "unknown-description", span, f"Only a herringbone is double: `double` says nothing about {_bond(name)}.",
            help="Take `double` out, or write `double herringbone`.",
        )
    pattern = Pattern(
        name, "stepped" in texts, length, True, span,
        upright=vertical and name in OFFSETS,
        double=double and name == "herringbone",
        turned=diagonal or name == "herringbone" and not along,
        second=second,
    )
    return Laying(pattern, orientation)


def _bond(name: str) -> str:
    words = {"basket": "basket weave", "modular": "two sizes", "run": "a run"}
    return words.get(name, f"the {name} bond" if name in OFFSETS else name)


def _second(st: Statement, a: Attribute, known: Mapping[str, Tile], context: Context) -> Tile | None:
    """The other tile of a pattern of two sizes."""
    name = a.args[0]
    found = known.get(name.text)
    if found is None and not context.is_lost(name.text):
        context.unknown(
            "unknown-tile", st.span(name), f"There is no tile `{name.text}`.", name.text, tuple(known),
            "Declared are: " + ", ".join(known) + "." if known else f"Declare it: `tile {name.text} 100x100x9` at the margin.",
        )
    return found


def usual_joint(tile: Tile, floor: bool, context: Context, about: str) -> Quantity:
    """The joint where the spec gives none: the usual width by size, never under the practice's minimum. Marked and asked."""
    edge = tile.long_side.mm
    key = "joint-usual-100" if edge <= 100 else "joint-usual-200" if edge <= 200 else "joint-usual"
    least = context.practice.find("joint-min-floor" if floor else "joint-min-wall")
    usual = context.practice.limit(key)
    if least is not None and least.value > usual.value:
        key = "joint-min-floor" if floor else "joint-min-wall"
    return context.assume(key, "joint", about, f"How wide are the joints on {about}?", "client", tile.span)


def covering(
    st: Statement,
    item: Item,
    place: tuple[Attribute, ...],
    tile: Tile,
    role: str,
    region: Rect | None,
    default: Covering | None,
    known: Mapping[str, Tile],
    ground: Ground,
    about: str,
    context: Context,
) -> Covering | None:
    """One covering of a surface, from a `tile` item on its line. `place`: what stands behind its `start at`."""
    how = laying(st, item.said, known, context)
    if how.orientation:
        tile = turned(tile, how.orientation)
    pattern = how.pattern
    if pattern is None and default is not None and (default.pattern.name != "modular" or default.tile.name == tile.name):
        pattern = default.pattern
    pattern = pattern or Pattern("straight", given=False)
    sides = None if pattern.turned else (tile.work_width or tile.width, tile.work_height or tile.height)
    begin = start(st, item.said, place, ground, context, own=True, field=role == "field", sides=sides)
    if default is not None:
        begin = merged(begin, default.start)
    a = item.get("joint")
    joint = context.number(st, a.args[0], "joint") if a else None
    if a and joint is None:
        return None
    if joint is None and default is not None and not isinstance(default.joint.why, Default):
        joint = default.joint
    if joint is None and tile.mosaic and tile.chip_joint is not None:
        joint = tile.chip_joint  # between sheets as within them, so that no sheet shows
    if joint is None:
        joint = usual_joint(tile, ground.floor, context, about)
    if joint.value >= min(tile.width.value, tile.height.value):
        context.report(
            "joint-wider-than-tile",
            st.span(a) if a else st.span(item.opener),
            "The joint is as wide as the tile or wider.",
            help="Joints are said in millimetres: `joint 3`.",
        )
        return None
    fits(tile, joint, pattern, pattern.span or st.span(item.opener), context)
    return Covering(tile, joint, pattern, begin, region, role, st.span(item.opener))


def fits(tile: Tile, joint: Quantity, pattern: Pattern, span: Span, context: Context) -> None:
    """Whether a pattern can be made of a tile with its joint.

    A herringbone of single tiles closes with any length, as each row starts one width further on; so do two sizes of squares.
    """
    long, short = max(tile.width.value, tile.height.value), min(tile.width.value, tile.height.value)
    called = f"tile {tile.name}" if tile.named else "the tile"

    def impossible(message: str, help: str) -> None:
        context.report("pattern-impossible", span, message, help=help)

    if pattern.name not in ("basket", "herringbone", "modular"):
        return
    words = {"basket": "Basket weave", "herringbone": "Herringbone", "modular": "A pattern of two sizes"}[pattern.name]
    if tile.mosaic or pattern.second is not None and pattern.second.mosaic:
        impossible(
            f"{words} is not laid of mosaic sheets.",
            "Sheets are laid straight, so that none shows; the pattern of the chips is in the sheet. Take the bond out.",
        )
    elif pattern.name == "basket":
        _check_modulus(tile, joint, span, context)
    elif pattern.name == "herringbone" and long == short:
        impossible(
            f"Herringbone needs a tile that is longer than wide: {called} is square.",
            "Square tiles would lie in a plain grid: write `diagonal`, `straight` or `half bond`.",
        )
    elif pattern.double and long + joint.value <= 2 * (short + joint.value):
        help = "Write `herringbone`" + (", or `basket weave`." if long + joint.value == 2 * (short + joint.value) else ".")
        impossible(f"Double herringbone needs a tile longer than two widths: two of {called} make no long pair.", help)
    elif pattern.name == "modular" and pattern.second is not None:
        other = pattern.second
        odd = next((t for t in (tile, other) if t.width.value != t.height.value), None)
        if odd is not None:
            impossible(
                f"The pattern of two sizes is made of squares: tile {odd.name} is {float(odd.width.mm):g} x"
                f" {float(odd.height.mm):g} mm.",
                "Each large square has one small square beside it. Name two square tiles.",
            )
        elif other.width.value == tile.width.value:
            impossible(
                f"The pattern of two sizes needs two sizes: both tiles are {float(tile.width.mm):g} mm wide.",
                "Name a smaller square tile after `modular with`.",
            )
        elif other.width.value > tile.width.value:
            impossible(
                f"The small tile of the pattern is larger than the other: {other.name} is {float(other.width.mm):g} mm,"
                f" {tile.name} {float(tile.width.mm):g} mm.",
                f"Name the large one first: `tile {other.name}; modular with {tile.name}`.",
            )


def _check_modulus(tile: Tile, joint: Quantity, span: Span, context: Context) -> None:
    long = max(tile.width.value, tile.height.value) + joint.value
    short = min(tile.width.value, tile.height.value) + joint.value
    if (long / short).denominator != 1 or long == short:
        times = round(long / short) or 2
        fit = (max(times, 2) * short - joint.value) * 1000
        context.report(
            "basket-size",
            span,
            "Basket weave needs a tile whose length and joint are a whole number of times its width and joint.",
            help=f"With this width and joint the length would be {float(fit):g} mm; change the joint, the tile or the pattern.",
        )
