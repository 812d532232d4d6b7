"""Which slot a number of a statement is read in. A test holds it against what the job reads."""

from __future__ import annotations

from dataclasses import replace

from tilespec.job.records import READ_IN
from tilespec.job.schema import ITEMS, STATEMENTS
from tilespec.job.slot import SLOTS, Slot
from tilespec.quantity.unit import UNITS
from tilespec.syntax.nodes import Atom, Attribute, Statement

_BY_KIND = {
    "above": "datum", "absorption": "absorption", "air": "air", "boards": "board-thickness", "bottom": "height-up", "box": "box",
    "build_up": "layer", "built": "built", "carries": "carries", "chips": "chip", "coats": "coats", "consumption": "consumption",
    "covers": "cover", "crew": "crew", "dcof": "dcof", "deep": "niche-depth", "deflection": "deflection", "density": "density",
    "depth": "depth", "diagonals": "diagonal", "diameter": "diameter", "fall": "fall", "fell": "fell", "film": "film",
    "finished_floor": "floor-level", "flange": "flange", "flow": "flow", "from_side": "place", "from_wall": "place",
    "hall_floor": "level", "height": "wall-height", "heights": "wall-height", "high": "band-height", "humidity": "humidity",
    "joint": "joint", "joists": "joist-centres", "keeps": "keeps", "lasted": "lasted", "long": "channel-length",
    "matures": "minutes", "measured_height": "tile-side", "measured_width": "tile-side", "movement": "movement", "notch": "notch",
    "notice": "notice", "open_time": "minutes", "out_of_plumb": "plumb", "output": "output", "over": "over", "pack": "pack",
    "pendulum": "pendulum", "perimeter_joint": "movement-joint", "pot_life": "minutes", "rcd": "rcd", "reveal": "reveal",
    "rim": "rim", "run": "run", "samples": "samples", "shower_head": "head-height", "span": "joist-span", "surface": "surface",
    "takes": "takes", "temperature": "product-temperature", "thick": "tile-range", "thickness": "base-thickness",
    "threshold": "threshold", "tiled_to": "wall-height", "up": "height-up", "voltage": "voltage", "wait": "time",
    "walk": "room-side", "warp": "warp", "water": "water", "weight": "weight", "width": "product-width",
    "work_size": "tile-side",
}
_SIZES = {
    "floor": "room-side", "wall": "wall-side", "tile": "tile-side", "shower": "shower-side", "bath": "bath-side",
    "basin": "basin-side", "boxing": "boxing-side",
}
# Of an item of a line, where it differs.
_OF_ITEM = {
    ("size", "window"): "opening-side", ("size", "door"): "opening-side", ("size", "opening"): "opening-side",
    ("size", "niche"): "opening-side", ("width", "movement_joint"): "movement-joint",
    ("width", "structural_joint"): "movement-joint", ("deep", "movement_joint"): "sealant-depth",
    ("wide", "tile"): "border-width",
}


def key_of(st: Statement, attribute: Attribute | None, atom: Atom) -> str | None:
    """The key of the slot, or None where a number can be several things."""
    if attribute is None:
        return key(st.kind, "", st.kind)
    sides = [a for a in attribute.args if a.kind == "quantity"]
    nth = next((n for n, side in enumerate(sides) if side is atom), 0)
    return key(st.kind, item_of(st, attribute), attribute.kind, nth, st.args[0].text if st.args else "")


def key(statement: str, item: str, kind: str, nth: int = 0, name: str = "") -> str | None:
    """The same by kinds: of a statement, of the item that an attribute says something about, and of the attribute.

    nth   which number of the attribute; name: what the statement is called, a record by its kind
    """
    if kind == statement:
        return {"tile": "tile-side", "language": "version"}.get(kind)
    if (kind, item) in _OF_ITEM:
        return _OF_ITEM[kind, item]
    if kind == "size":
        if item:
            return "area-side"
        if statement == "tile" and nth == 2:
            return "tile-thickness"
        return _SIZES.get(statement)
    if kind == "height":
        return {"room": "room-height", "product": "trim-height"}.get(statement, "wall-height")
    if kind == "reading" and name:
        return READ_IN.get(name, "moisture" if name == "substrate-moisture" else None)
    if kind == "above" and statement != "datum":
        return "height-up"
    if kind in ("high", "wide") and item != "tile":
        return "area-side" if item else "wall-height"
    return _BY_KIND.get(kind)


def slot_of(st: Statement, attribute: Attribute | None, atom: Atom, sizes_in_mm: bool) -> Slot | None:
    return slot(key_of(st, attribute, atom), sizes_in_mm)


def slot(key: str | None, sizes_in_mm: bool) -> Slot | None:
    if key is None:
        return None
    found = SLOTS[key]
    return replace(found, unit=UNITS["mm"]) if found.room and sizes_in_mm else found


def item_of(st: Statement, attribute: Attribute) -> str:
    """The thing of its own (an opening, a drain ...) that an attribute says something about; "" for the statement itself."""
    if st.kind not in STATEMENTS:
        return ""
    for line in st.lines:
        opener = ""
        for a in line.attributes:
            if opener and a.kind in ITEMS.get(opener, ()):
                if a is attribute:
                    return opener
                continue
            opener = a.kind if a.kind in STATEMENTS[st.kind][1] else ""
            if a is attribute:
                return ""
    return ""
