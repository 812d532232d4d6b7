"""Which attributes go with which statement, and what belongs to what within a line. A test holds it against the grammar."""

from __future__ import annotations

_PLACE = ("size", "from_side", "from_wall", "up", "above", "below", "high", "wide", "long", "bottom", "height", "at")
_WHERE = ("on_wall", "on_floor", "on_room", "on_room_wall", "on_room_floor", "in_room")

# An item of a line, and the attributes that say something about it.
ITEMS: dict[str, tuple[str, ...]] = {
    "base": ("words", "thickness", "laid", "joists", "boards", "span", "carries", "note"),
    "tile": ("words", "joint", "joint_on", "tile_on", "full_tile", "start_from", "run", "band", "panel", *_PLACE),
    "window": (*_PLACE, "reveal", "tile"),
    "door": (*_PLACE, "reveal"),
    "opening": (*_PLACE, "reveal"),
    "niche": (*_PLACE, "deep", "tile", "depth"),
    "untiled": _PLACE,
    "splash": _PLACE,
    "zone_shower": _PLACE,
    "zone_bath": _PLACE,
    "pipe": (*_PLACE, "diameter", "note"),
    "valve": (*_PLACE, "on_wall", "diameter", "note"),
    "outlet": (*_PLACE, "diameter", "note"),
    "socket": (*_PLACE, "diameter", "note"),
    "mirror": _PLACE,
    "fitting": _PLACE,
    "fixture": _PLACE,
    "fall": (),
    "drain": (*_PLACE, "diameter"),
    "channel": (*_PLACE, "along"),
    "sensor": ("at_wall", "at", "on_wall"),
    "shower_head": _PLACE,
    "product": ("at", "long", "for", "deep"),
    "wait": ("overrun",),
}

_PRODUCT_OWN = (
    "words", "class", "for", "colour", "pack", "consumption", "density", "water", "matures", "pot_life", "open_time", "coats", "film",
    "notch", "width", "movement", "output", "voltage", "temperature", "wait", "overrun", "note", "carries",
)
_SURFACE_ITEMS = ("base", "tile", "untiled", "product", "pipe", "zone_shower", "zone_bath", "splash")

# A statement's own attributes, and the items it may hold.
STATEMENTS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "job": (("ref", "revision", "date", "site", "client", "firm", "author", "practice", "begin", "hours", "crew", "measured", "sizes",
             "built", "paper", "notice", "closed", "words", "note"), ()),
    "language": ((), ()),
    "conditions": (("air", "humidity", "surface"), ()),
    "use": ((), ()),
    "limit": (("because",), ()),
    "tile": (("size", "words", "weight", "box", "barefoot", "slip", "dcof", "pendulum", "absorption", "chips", "work_size", "joint",
              "joint_on", "tile_on", "full_tile", "start_from", "run", "colour", "note"), ()),
    "product": (_PRODUCT_OWN, ("wait",)),
    "room": (("height", "words"), ()),
    "datum": (("above", "below"), ()),
    "floor": (("size", "walk", "diagonals", "words", "build_up", "hall_floor", "finished_floor"),
              (*_SURFACE_ITEMS, "fall", "drain", "channel", "sensor", "fixture")),
    "wall": (("size", "words", "heights", "out_of_plumb", "tiled_to", "high", "long", "height"),
             (*_SURFACE_ITEMS, "window", "door", "opening", "niche", "valve", "outlet", "socket", "mirror", "fitting")),
    "shower": (("in_corner", "on_wall", "along", "size", "words", "from_side", "from_wall"), ("shower_head", "valve", "outlet")),
    "bath": (("in_corner", "on_wall", "along", "size", "words", "rim", "from_side", "from_wall"), ("zone_shower", "shower_head", "valve")),
    "basin": (("on_wall", "along", "size", "rim", "from_side", "from_wall", "words"), ()),
    "boxing": (("in_corner", "on_wall", "along", "size", "height", "high", "from_side", "from_wall", "words"), ()),
    "step": (("by", "after", "before", "takes", *_WHERE, "note"), ()),
    "deviation": (("because", *_WHERE), ()),
    "record": (("by", "on_date", "reading", "depth", "result", "note", *_WHERE), ()),
}

# Where something of this kind belongs, for the message about a misplaced one.
HOME = {
    "weight": "a tile", "box": "a tile", "barefoot": "a tile", "chips": "a mosaic tile", "window": "a wall", "door": "a wall", "niche": "a wall",
    "mirror": "a wall", "drain": "the floor", "channel": "the floor", "fall": "the floor", "build_up": "the floor", "pack": "a product",
    "rim": "a bath or basin", "shower_head": "a shower", "heights": "a wall", "crew": "the job", "practice": "the job", "reading": "a record",
    "joint": "a tile", "words": "", "class": "a product", "thickness": "a base", "laid": "a base", "high": "a band, an opening or an area",
    "deep": "a niche", "up": "something on a wall", "from_side": "something on a surface", "from_wall": "something on the floor",
    "takes": "a step", "because": "a deviation or a limit", "wait": "a product", "size": "a surface, a tile or an opening",
}
