"""Tiles, and how they are laid: declarations, coverings, patterns and starts."""

from __future__ import annotations

from dataclasses import replace

from tilespec.job.context import Context, Item
from tilespec.job.parts import take_apart
from tilespec.job.types import Covering, Pattern, Rect, Start, Tile
from tilespec.job.vocabulary import BODIES, BOND_HELP, BOND_WORDS, BONDS, CENTRE, COLOURS, LIME_STONES, POROUS, STARTS, TILE_WORDS
from tilespec.quantity import Default, Quantity
from tilespec.syntax.nodes import Atom, Attribute, Statement


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
    if orientation == "landscape" and width.value < height.value or orientation == "upright" and width.value > height.value:
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
    chip_joint = None
    if mosaic and chip is None:
        cw = context.assume(
            "mosaic-chip", "mosaic-chip", name, f"How large are the chips of mosaic {name}?", "data sheet", st.span()
        )
        chips = (cw, cw)
    if mosaic:
        chip_joint = context.assume(
            "mosaic-joint",
            "mosaic-joint",
            name,
            f"How wide are the joints between the chips of mosaic {name}?",
            "data sheet",
            st.span(),
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
        if rating not in ("R9", "R10", "R11", "R12", "R13", "P0", "P1", "P2", "P3", "P4", "P5"):
            context.unknown(
                "unknown-choice",
                st.span(slip.args[0]),
                f"There is no slip class `{slip.args[0].text}`.",
                rating,
                ("R9", "R10", "R11", "R12", "R13", "P1", "P2", "P3", "P4", "P5"),
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
        w, h = h, w
    return replace(tile, width=w, height=h, orientation=orientation)


def laying(
    st: Statement, said: tuple[Attribute, ...], context: Context, default: Covering | None
) -> tuple[Pattern, Start, str | None]:
    """Pattern, start and orientation from what is said beside a tile; from the default covering where nothing is."""
    words = _described(st, tuple(a for a in said if a.kind == "words"), context, BOND_WORDS, "how tiles are laid", BOND_HELP)
    texts = [w.text.lower() for w in words]
    pattern = default.pattern if default else Pattern("straight", given=False)
    name = next((BONDS[t] for t in texts if t in BONDS), None)
    run = next((a for a in said if a.kind == "run"), None)
    length = context.number(st, run.args[0], "run") if run else None
    span = st.span(words[0]).to(st.span(words[-1])) if words else None
    if length is not None:
        pattern = Pattern("run", "stepped" in texts, length, True, span)
    elif name is not None:
        if name == "stack" and "offset" in texts:
            name = "half"
        pattern = Pattern(name, "stepped" in texts, None, True, span)
    across = default.start.across if default else "found"
    up = default.start.up if default else "found"
    where = None
    for a in said:
        if a.kind in ("joint_on", "tile_on"):
            word = a.args[0]
            if word.text.lower() not in CENTRE:
                context.unknown(
                    "unknown-choice", st.span(word), f"A set-out does not start on `{word.text}`.", word.text, ("centre",)
                )
                continue
            across = ("joint" if a.kind == "joint_on" else "tile") + " on centre"
            where = st.span(a)
        elif a.kind == "full_tile":
            text = " ".join(x.text.lower() for x in a.args)
            place = st.span(a.args[0]).to(st.span(a.args[-1]))
            if text not in STARTS:
                context.unknown("unknown-choice", place, f"A set-out does not start at `{text}`.", text, STARTS)
                continue
            text = {"finished floor": "floor", "ceiling": "top"}.get(text, text)
            where = st.span(a)
            if text in ("left", "right", "door", "drain", "window"):
                across = "full tile at " + text if text in ("door", "drain", "window") else "from " + text
            else:
                up = "full tile at " + text
        elif a.kind == "start_from":
            word = a.args[0]
            if word.text.lower() not in ("left", "right", "top", "floor"):
                context.unknown(
                    "unknown-choice",
                    st.span(word),
                    f"A set-out does not start from `{word.text}`.",
                    word.text,
                    ("left", "right", "top", "floor"),
                )
                continue
            where = st.span(a)
            if word.text.lower() in ("left", "right"):
                across = "from " + word.text.lower()
            else:
                up = "from top" if word.text.lower() == "top" else "full tile at floor"
    orientation = next((t for t in texts if t in ("landscape", "upright")), None)
    return pattern, Start(across, up, where), orientation


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
    tile: Tile,
    role: str,
    region: Rect | None,
    default: Covering | None,
    floor: bool,
    about: str,
    context: Context,
) -> Covering | None:
    """One covering of a surface, from a `tile` item on its line."""
    pattern, start, orientation = laying(st, item.said, context, default)
    if orientation:
        tile = turned(tile, orientation)
    a = item.get("joint")
    joint = context.number(st, a.args[0], "joint") if a else None
    if a and joint is None:
        return None
    if joint is None and default is not None and not isinstance(default.joint.why, Default):
        joint = default.joint
    if joint is None and tile.mosaic and tile.chip_joint is not None:
        joint = tile.chip_joint  # between sheets as within them, so that no sheet shows
    if joint is None:
        joint = usual_joint(tile, floor, context, about)
    smallest = min(tile.width.value, tile.height.value)
    if joint.value >= smallest:
        span = st.span(a) if a else st.span(item.opener)
        context.report(
            "joint-wider-than-tile",
            span,
            "The joint is as wide as the tile or wider.",
            help="Joints are said in millimetres: `joint 3`.",
        )
        return None
    # Herringbone takes tiles of any length: each row starts one width further on.
    if pattern.name == "basket" and not tile.mosaic:
        _check_modulus(st, item, tile, joint, pattern, context)
    return Covering(tile, joint, pattern, start, region, role, st.span(item.opener))


def _check_modulus(st: Statement, item: Item, tile: Tile, joint: Quantity, pattern: Pattern, context: Context) -> None:
    long = max(tile.width.value, tile.height.value) + joint.value
    short = min(tile.width.value, tile.height.value) + joint.value
    if (long / short).denominator != 1 or long == short:
        times = round(long / short) or 2
        fit = (max(times, 2) * short - joint.value) * 1000
        context.report(
            "basket-size",
            pattern.span or st.span(item.opener),
            "Basket weave needs a tile whose length and joint are a whole number of times its width and joint.",
            help=f"With this width and joint the length would be {float(fit):g} mm; change the joint, the tile or the pattern.",
        )
