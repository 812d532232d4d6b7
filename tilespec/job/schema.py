"""Which attributes go with which statement, and what belongs to what within a line. A test holds it against the grammar."""

from __future__ import annotations

_PLACE = ("size", "from_side", "from_wall", "up", "above", "below", "high", "wide", "long", "bottom", "height", "at")
_WHERE = ("on_wall", "on_floor", "on_room", "on_room_wall", "on_room_floor", "in_room")

# An item of a line, and the attributes that say something about it.
ITEMS: dict[str, tuple[str, ...]] = {
    "base": ("words", "thickness", "laid", "joists", "boards", "span", "carries", "deflection", "note"),
    "tile": (
        "words", "joint", "joint_on", "tile_on", "full_tile", "start_from", "start_at", "joints_follow", "run", "modular", "band",
        "panel", "border", *_PLACE,
    ),
    "window": (*_PLACE, "reveal", "tile"),
    "door": (*_PLACE, "reveal", "threshold"),
    "opening": (*_PLACE, "reveal", "threshold"),
    "niche": (*_PLACE, "deep", "tile", "depth", "joints_follow"),
    "untiled": _PLACE,
    "splash": _PLACE,
    "zone_shower": _PLACE,
    "zone_bath": _PLACE,
    "pipe": (*_PLACE, "diameter", "note"),
    "valve": (*_PLACE, "on_wall", "diameter", "covers", "note"),
    "outlet": (*_PLACE, "on_wall", "diameter", "note"),
    "socket": (*_PLACE, "diameter", "note"),
    "mirror": _PLACE,
    "fitting": ("words", *_PLACE),
    "fixture": _PLACE,
    "fall": (),
    "movement_joint": ("from_side", "from_wall", "up", "above", "below", "bottom", "width", "deep", "note"),
    "structural_joint": ("from_side", "from_wall", "up", "above", "below", "bottom", "width", "note"),
    "drain": (*_PLACE, "diameter", "flange", "flow"),
    "channel": (*_PLACE, "along", "flange", "flow"),
    "sensor": ("at_wall", "at", "on_wall"),
    "shower_head": _PLACE,
    "product": ("at", "long", "for", "deep"),
    "wait": ("overrun",),
}

_PRODUCT_OWN = (
    "words",
    "class",
    "for",
    "colour",
    "pack",
    "consumption",
    "density",
    "water",
    "matures",
    "pot_life",
    "open_time",
    "coats",
    "film",
    "notch",
    "width",
    "movement",
    "output",
    "voltage",
    "resistance",
    "temperature",
    "wait",
    "overrun",
    "note",
    "carries",
    "packed",
    "keeps",
    "thick",
    "height",
)
_SURFACE_ITEMS = (
    "base", "tile", "untiled", "product", "pipe", "zone_shower", "zone_bath", "splash", "movement_joint", "structural_joint",
)

# A statement's own attributes, and the items it may hold.
STATEMENTS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "job": (
        (
            "ref",
            "revision",
            "date",
            "site",
            "client",
            "firm",
            "author",
            "practice",
            "begin",
            "hours",
            "crew",
            "cutting",
            "aids",
            "measured",
            "sizes",
            "built",
            "paper",
            "notice",
            "closed",
            "words",
            "note",
        ),
        (),
    ),
    "language": ((), ()),
    "conditions": (("air", "humidity", "surface"), ()),
    "use": ((), ()),
    "limit": (("because",), ()),
    "tile": (
        (
            "size",
            "words",
            "weight",
            "box",
            "barefoot",
            "slip",
            "dcof",
            "pendulum",
            "absorption",
            "chips",
            "work_size",
            "joint",
            "joint_on",
            "tile_on",
            "full_tile",
            "start_from",
            "joints_follow",
            "run",
            "modular",
            "colour",
            "note",
        ),
        (),
    ),
    "product": (_PRODUCT_OWN, ("wait",)),
    "room": (("height",), ()),
    "datum": (("above", "below"), ()),
    "floor": (
        ("size", "walk", "diagonals", "words", "build_up", "hall_floor", "finished_floor", "perimeter_joint", "rcd"),
        (*_SURFACE_ITEMS, "fall", "drain", "channel", "sensor", "fixture"),
    ),
    "wall": (
        ("size", "heights", "out_of_plumb", "tiled_to", "high", "long", "height"),
        (*_SURFACE_ITEMS, "window", "door", "opening", "niche", "valve", "outlet", "socket", "mirror", "fitting"),
    ),
    "shower": (
        ("in_corner", "on_wall", "along", "size", "words", "from_side", "from_wall", "flow"),
        ("shower_head", "valve", "outlet"),
    ),
    "bath": (
        ("in_corner", "on_wall", "along", "size", "words", "rim", "from_side", "from_wall"),
        ("zone_shower", "shower_head", "valve"),
    ),
    "basin": (("on_wall", "along", "size", "rim", "from_side", "from_wall", "words"), ()),
    "boxing": (("in_corner", "on_wall", "along", "size", "height", "high", "from_side", "from_wall", "words"), ()),
    "step": (("by", "after", "before", "takes", *_WHERE, "note"), ()),
    "deviation": (("because", *_WHERE), ()),
    "record": (
        ("by", "work_by", "on_date", "reading", "depth", "over", "samples", "lasted", "fell", "result", "note", *_WHERE), (),
    ),
    "delivery": (("on_date", "shade", "caliber", "measured_width", "measured_height", "warp", "note"), ()),
}

# Items of which a statement holds one; of every other it may hold several. What a surface is tiled with, and on, is judged there.
ONE = ("fall", "sensor", "shower_head")

# Attributes of which one thing can have only one, because they say the same in other ways: by the statement or the item.
_SIZES = (("size", "wide"), ("size", "long"), ("size", "high"), ("size", "height"), ("wide", "long"), ("high", "height"))
_STANDING = (("in_corner", "on_wall", "along"),)
_PLACED = (("on_wall", "on_room_wall", "on_floor", "on_room_floor"), ("in_room", "on_room", "on_room_wall", "on_room_floor"))
SAME: dict[str, tuple[tuple[str, ...], ...]] = {
    "floor": (("size", "walk"),),
    "wall": (("size", "high", "height"), ("size", "long")),
    "shower": _STANDING,
    "bath": _STANDING,
    "basin": (("on_wall", "along"),),
    "boxing": (*_STANDING, ("height", "high")),
    "step": _PLACED,
    "deviation": _PLACED,
    "record": _PLACED,
    "sensor": (("at_wall", "at", "on_wall"),),
    "niche": (*_SIZES, ("deep", "depth")),
    **{kind: _SIZES for kind, said in ITEMS.items() if "size" in said and kind not in ("niche", "tile")},
    "tile": (("band", "panel", "border"),),
}

# Texts that only the writer knows: who, why, under what name. An editor offers no such text, and one of dots is refused.
OWN_WORDS = ("ref", "revision", "site", "client", "firm", "author", "note", "by", "work_by", "because", "shade", "caliber")

# Where something of this kind belongs, for the message about a misplaced one.
HOME = {
    "weight": "a tile",
    "box": "a tile",
    "barefoot": "a tile",
    "chips": "a mosaic tile",
    "window": "a wall",
    "door": "a wall",
    "niche": "a wall",
    "mirror": "a wall",
    "drain": "the floor",
    "channel": "the floor",
    "fall": "the floor",
    "build_up": "the floor",
    "pack": "a product",
    "rim": "a bath or basin",
    "shower_head": "a shower",
    "heights": "a wall",
    "crew": "the job",
    "cutting": "the job",
    "aids": "the job",
    "practice": "the job",
    "reading": "a record",
    "joint": "a tile",
    "modular": "a tile",
    "joints_follow": "a tile or a niche",
    "start_at": "a tile on a floor or wall",
    "border": "a tile on a floor or wall",
    "movement_joint": "a floor or a wall",
    "structural_joint": "a floor or a wall",
    "perimeter_joint": "the floor",
    "rcd": "the floor",
    "threshold": "a door or an opening",
    "covers": "a valve",
    "flange": "a drain or a channel",
    "flow": "a drain, a channel or a shower",
    "deflection": "a base",
    "packed": "a product",
    "keeps": "a product",
    "thick": "clips",
    "shade": "a delivery",
    "caliber": "a delivery",
    "measured_width": "a delivery",
    "measured_height": "a delivery",
    "warp": "a delivery",
    "over": "a record",
    "samples": "a record",
    "lasted": "a record",
    "fell": "a record",
    "work_by": "a record",
    "words": "",
    "class": "a product",
    "thickness": "a base",
    "laid": "a base",
    "high": "a band, an opening or an area",
    "deep": "a niche",
    "up": "something on a wall",
    "from_side": "something on a surface",
    "from_wall": "something on the floor",
    "takes": "a step",
    "because": "a deviation or a limit",
    "wait": "a product",
    "size": "a surface, a tile or an opening",
}

# Things as messages call them.
_NAMES = {"zone_shower": "a shower zone", "zone_bath": "a bath zone", "splash": "a splash area", "shower_head": "a shower head"}


def belonging(kind: str) -> str:
    """Where something of this kind belongs, in words; "" where that is too much to list."""
    if kind in HOME:
        return HOME[kind]
    found = [statement for statement, (own, items) in STATEMENTS.items() if kind in own or kind in items]
    found = found or [item for item, said in ITEMS.items() if kind in said]
    names = [_NAMES.get(x) or (f"the {x}" if x in ("floor", "job", "conditions") else f"a {x.replace('_', ' ')}") for x in found]
    if not names or len(names) > 4:
        return ""
    return ", ".join(names[:-1]) + (" or " if names[:-1] else "") + names[-1]
