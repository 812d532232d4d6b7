"""How everything is written: an example of each statement and of all that is said in one, and the words that can stand there.

For the help of a message on a half-written line: the example is that of the very thing the line is in. A test reads each of them
and holds the list against the grammar.
"""

from __future__ import annotations

from collections.abc import Iterable

from tilespec.syntax.words import PRODUCTS
from tilespec.vocabulary import (
    AIDS,
    BASES,
    CENTRE,
    COLOURS,
    CREW,
    CUTTERS,
    FLOOR_BASES,
    FROM,
    LAYERS,
    MIDDLES,
    PAPERS,
    RECORDS,
    SLIP,
    STARTS,
    WAITS,
    WALL_BASES,
)

STATEMENTS = {
    "basin": "basin on wall A, 0.6 x 0.45; 1.0 from left",
    "bath": "bath in corner A B, 1.7 x 0.75",
    "boxing": "boxing in corner E F, 0.25 x 0.2",
    "conditions": "conditions air 19 C; humidity 60 %; surface 17 C",
    "datum": "datum 1.0 above finished floor",
    "delivery": "delivery white 2026-03-02; shade B4",
    "deviation": 'deviation low-window-cut on wall B because "agreed with the client"',
    "floor": "floor 2.4 x 1.8",
    "job": 'job "Shower room, new tiling"',
    "language": "language 1",
    "limit": 'limit joint-min-floor 3 mm because "our standard"',
    "product": "adhesive flex class C2TE S1",
    "record": 'record membrane on floor 2026-03-11 by "name"',
    "room": 'room "Bathroom" height 2.4',
    "shower": "shower in corner D A, 0.9 x 0.9",
    "step": 'step "Fit shower screen" by glazier; after sealing',
    "tile": "tile white 600x300x9 porcelain",
    "use": 'use "house-stock.tilespec"',
    "wall": "wall A",
}

# By the words of the language that it begins with. What begins with a number has its word first.
ATTRIBUTES = {
    "above": "0.2 above datum",
    "absorption": "absorption 0.5 %",
    "after": "after sealing",
    "aids": "aids suction lifters",
    "air": "air 19 C",
    "along": "along wall A",
    "along wall": "along wall A",
    "at": "at left",
    "at wall": "at wall B",
    "author": 'author "name"',
    "band": "band 0.305 high, bottom 1.2 up",
    "barefoot": "barefoot class B",
    "base": "base cement screed",
    "because": 'because "agreed with the client"',
    "before": "before membrane",
    "begin": "begin 2026-03-09",
    "below": "0.2 below datum",
    "boards": "boards 22 mm",
    "border": "border 0.15 wide",
    "bottom": "bottom 1.2 up",
    "box": "box of 11",
    "build-up": "build-up leveller 6, membrane 1, bed 4",
    "built": "built 1968",
    "by": "by glazier",
    "caliber": "caliber 7",
    "carries": "carries 32 kg/m2",
    "channel": "channel along wall A, 0.8 long, 0.05 from wall A, 0.05 from wall D",
    "chips": "chips 23x23",
    "class": "class C2TE S1",
    "client": 'client "name"',
    "closed": "closed 2026-04-03, 2026-04-06",
    "coats": "coats 2",
    "colour": "colour grey",
    "consumption": "consumption 1.2 kg/m2",
    "covers": "covers 60 to 85 mm",
    "crew": "crew tiler 1, helper 1",
    "cutting": "cutting wet saw, score and snap",
    "date": "date 2026-03-02",
    "dcof": "dcof 0.42",
    "deep": "0.09 deep",
    "deflection": "deflection 2 mm",
    "density": "density 1.4 kg/L",
    "depth": "depth 40 mm",
    "diagonals": "diagonals 3.01, 2.99",
    "diameter": "diameter 110 mm",
    "door": "door 0.8 x 2.0; 0.2 from left",
    "drain": "drain 0.45 from wall D, 0.45 from wall A",
    "fall": "fall 1:60 four planes",
    "fall per": "fall 1/4 in per ft",
    "fell": "fell 0 mm",
    "film": "film 0.5 mm",
    "finished floor": "finished floor 20 above structural floor",
    "firm": 'firm "name"',
    "fitting": 'fitting "radiator" 0.6 x 1.2; 0.3 from left, 0.4 up',
    "fixture": 'fixture "WC" 0.4 x 0.6; 0.3 from wall D, 0 from wall A',
    "flange": "flange 50 mm",
    "flow": "flow 12 L/min",
    "for": "for floor",
    "for tile": "for tile white",
    "from": "0.45 from left",
    "from wall": "0.45 from wall D",
    "full tile": "full tile at floor",
    "full tile at": "full tile at floor",
    "hall floor": "hall floor +10",
    "head": "head at 2.1",
    "height": "height 2.4",
    "heights": "heights left 2.41, right 2.39",
    "high": "0.305 high",
    "hours": "hours mon-fri 07:30-16:00",
    "humidity": "humidity 60 %",
    "in": 'in "Bathroom"',
    "in corner": "in corner D A",
    "joint": "joint 3",
    "joint on": "joint on centre",
    "joints follow": "joints follow floor",
    "joists": "joists 400 mm",
    "keeps": "keeps 365 d",
    "laid": "laid 2026-01-12",
    "lasted": "lasted 24 h",
    "long": "0.8 long",
    "matures": "matures 5 min",
    "measured height": "measured height 296 to 298 mm",
    "measured width": "measured width 596 to 598 mm",
    "mirror": "mirror 0.6 x 0.8; 0.3 from left, 1.2 up",
    "modular": "modular with small",
    "movement": "movement 25 %",
    "movement joint": "movement joint 1.2 from left",
    "niche": "niche 0.3 x 0.6; 0.9 from left, 1.1 up; 0.09 deep",
    "notch": "notch 8 mm",
    "note": 'note "as agreed on site"',
    "notice": "notice 24 h",
    "on": "on wall A",
    "on floor": "on floor",
    "on wall": "on wall A",
    "on room": 'on "Bathroom"',
    "on room floor": 'on "Bathroom" floor',
    "on room wall": 'on "Bathroom" wall A',
    "open time": "open time 30 min",
    "opening": "opening 0.9 x 2.1; 0.6 from left, 0 up",
    "out": "out of plumb 8 mm",
    "outlet": "outlet 0.45 from left, 1.9 up",
    "output": "output 150 W/m2",
    "over": "over 2 m",
    "overrun": 'overrun "sand it and prime again"',
    "pack": "pack of 25 kg",
    "packed": "packed 2026-01-20",
    "panel": "panel 0.6 x 0.9; 0.3 from left, 0.9 up",
    "paper": "paper A4",
    "pendulum": "pendulum 40",
    "perimeter joint": "perimeter joint 8 mm",
    "pipe": "pipe 0.45 from left, 0.5 up",
    "pot life": "pot life 180 min",
    "practice": "practice EN",
    "rcd": "rcd 30 mA",
    "reading": "reading 1.6 CM%",
    "ref": "ref BH-07",
    "resistance": "resistance 120 ohm",
    "result": "result pass",
    "reveal": "reveal 0.12",
    "revision": "revision B",
    "rim": "rim 0.56",
    "rooms": "rooms measured to bare wall",
    "run": "run 150 mm",
    "samples": "samples 3",
    "sensor": "sensor at wall B",
    "shade": "shade B4",
    "bath zone": "bath zone 1.7 x 2.1; 0.2 from left, 0 up",
    "shower zone": "shower zone 0.9 x 2.1; 0.2 from left, 0 up",
    "site": 'site "address"',
    "sizes": "sizes in mm",
    "slip": "slip class R10",
    "socket": "socket 0.45 from left, 1.1 up",
    "span": "span 2.4",
    "splash": "splash area 0.9 x 1.5; 0.2 from left, 0.8 up",
    "start at": "start at 0.6 from left, 1.2 up",
    "start from": "start from left",
    "structural joint": "structural joint 1.2 from left, width 10",
    "surface": "surface 17 C",
    "takes": "takes 2 h",
    "temperature": "temperature 5 to 30 C",
    "thick": "thick 3 to 12 mm",
    "thickness": "thickness 65 mm",
    "threshold": "threshold 15 mm",
    "tile": "tile white",
    "tile on": "tile on centre",
    "tiled to": "tiled to 2.1",
    "untiled": "untiled 0.6 x 0.9; 0.6 from left, 0 up",
    "up": "1.2 up",
    "valve": "valve 0.45 from left, 1.1 up",
    "voltage": "voltage 230 V",
    "wait": "wait 4 h before grouting",
    "walk": "walk A 2.4, B 1.8, C 2.4, D 1.8",
    "warp": "warp 0.5 mm",
    "water": "water 0.26 L/kg",
    "weight": "weight 20 kg/m2",
    "wide": "0.15 wide",
    "width": "width 10 mm",
    "window": "window 0.6 x 0.9; 0.6 from left, 1.2 up",
    "work by": 'work by "name"',
    "work size": "work size 597x297",
    **{word: f"{word} none" for word in PRODUCTS if word != "heating"},
    "heating": "heating mat",
    "trim": "trim edge; at left",
}
# Where it is written in another way below this statement.
_BELOW = {
    ("floor", "at"): "at wall B",
    ("floor", "from"): "0.45 from wall D",
    ("floor", "movement joint"): "movement joint 1.2 from wall D",
    ("floor", "on"): "joint on centre",
    **{(statement, "in"): "in corner D A" for statement in ("shower", "bath", "boxing")},
    ("floor", "pipe"): "pipe 0.45 from wall D, 0.45 from wall A",
    ("floor", "splash"): "splash area 0.9 x 1.5; 0.2 from wall D, 0 from wall A",
    ("floor", "start at"): "start at 0.6 from wall D, 0.3 from wall A",
    ("floor", "structural joint"): "structural joint 1.2 from wall D, width 10",
    ("floor", "untiled"): "untiled 0.6 x 0.5; 0.2 from wall D, 0 from wall A",
    ("shower", "outlet"): "outlet on wall A, 0.45 from left, 1.9 up",
    ("shower", "valve"): "valve on wall A, 0.45 from left, 1.1 up",
    ("bath", "valve"): "valve on wall A, 0.45 from left, 0.8 up",
    ("record", "on"): 'on "Bathroom" floor',
    ("datum", "above"): "1.0 above finished floor",
    ("grout", "class"): "class CG2WA",
    ("membrane", "class"): "class DM O1",
    ("sealant", "class"): "class XS1 25LM",
    ("deviation", "on"): "on wall B",
    ("wall", "on"): "joint on centre",
}
# A word for each base.
_BASES = {key: word for word, key in reversed(BASES.items())}
_BASES = {key: _BASES[key] for key in dict.fromkeys(BASES.values())}
_MIDDLES = tuple(word for word in MIDDLES if word not in CENTRE[1:])
# The words that can stand behind these.
_LISTED: dict[str, Iterable[str]] = {
    "aids": AIDS,
    "at": ("left", "right", "top", "bottom", "openings", "niche", "external corner", "boxing", "wall A"),
    "barefoot class": ("A", "B", "C"),
    "base": _BASES.values(),
    "build-up": LAYERS,
    "colour": COLOURS,
    "crew": CREW,
    "cutting": CUTTERS,
    "for": ("floor", "walls", "tile NAME"),
    "from": FROM,
    "full tile at": (*STARTS, "wall A"),
    "heating": ("mat", "cable", "pipes", "none", "the name of one that is declared"),
    "joint on": _MIDDLES,
    "joints follow": ("floor", "field", "wall A"),
    "paper": PAPERS,
    "practice": ("EN", "DE", "UK", "US", "AU"),
    "record": RECORDS,
    "result": ("pass", "fail"),
    "rooms measured to": ("bare wall", "tile face"),
    "sizes in": ("mm", "m"),
    "slip class": SLIP,
    "start from": (*FROM, "wall A"),
    "tile on": _MIDDLES,
    "wait before": WAITS,
    "wait between": ("coats",),
    **{word: ("the name of one that is declared", "none") for word in PRODUCTS if word not in ("heating", "trim")},
}
STAGES = ("priming", "membrane", "tiling", "grouting", "sealing")
_LISTED_BELOW: dict[tuple[str, str], Iterable[str]] = {
    ("step", "after"): (*STAGES, "or another stage of the work"),
    ("step", "before"): (*STAGES, "or another stage of the work"),
    ("floor", "at"): (),
    ("datum", "above"): ("finished floor",),
    ("floor", "base"): tuple(word for key, word in _BASES.items() if key in FLOOR_BASES),
    ("wall", "base"): tuple(_BASES[key] for key in WALL_BASES),
    ("floor", "from"): (),
}


def example(words: tuple[str, ...], statement: str, head: bool) -> str:
    """How it is written, by the words of the language with which it begins; "" where nothing begins so.

    head: they are the first of a statement
    """
    first = words[0] if words else ""
    if head and first in PRODUCTS:
        return f"{first} NAME" if first != "adhesive" else STATEMENTS["product"]
    if head and first in STATEMENTS:
        return STATEMENTS[first]
    for n in range(len(words), 0, -1):
        key = " ".join(words[:n])
        found = _BELOW.get((statement, key), ATTRIBUTES.get(key, ""))
        if found:
            return found
    return ""


def listed(words: tuple[str, ...], statement: str) -> tuple[str, ...]:
    """What can stand behind these words; () where it cannot be listed."""
    key = " ".join(words)
    return tuple(dict.fromkeys(_LISTED_BELOW.get((statement, key), _LISTED.get(key, ()))))


# ---------------------------------------------------------------- numbers that do not say yet what they are

# What has a place, and how that begins.
_THINGS = {
    "zone_shower": "shower zone", "zone_bath": "bath zone", "splash": "splash", "movement_joint": "movement joint",
    "structural_joint": "structural joint", "start_at": "start at",
    **{kind: kind for kind in (
        "window", "door", "opening", "niche", "untiled", "pipe", "valve", "outlet", "socket", "mirror", "fitting", "fixture",
        "drain", "channel", "band", "panel", "border",
    )},
}
_SIZED = (
    "window", "door", "opening", "niche", "untiled", "mirror", "fitting", "fixture", "splash", "zone_shower", "zone_bath",
    "panel",
)
_NUMBERED = ("basin", "bath", "boxing", "conditions", "datum", "floor", "limit", "shower", "tile")


def with_number(number: str, statement: str, before: tuple[str, ...], here: tuple[str, ...]) -> str:
    """How a number goes on that stops a line short, or stands there alone; "" where nothing can be said. Without a number: how
    the thing is written that the piece is about.

    before  kinds of what is said on its line in pieces before it
    here    and in its own piece
    """
    thing = next((kind for kind in reversed(here) if kind in _THINGS), "")
    if thing:
        return example(tuple(_THINGS[thing].split()), statement, False)
    if not number:
        return ""
    thing = next((kind for kind in reversed(before) if kind in _THINGS), "")
    if thing:
        return _next(number, thing, statement, (*before, *here))
    if statement == "wall" and not before:
        return "wall A 2.4 x 2.4"
    return STATEMENTS[statement] if statement in _NUMBERED and not before else ""


def _next(number: str, thing: str, statement: str, said: tuple[str, ...]) -> str:
    """What a thing lacks first of size and place, with this number."""
    said = said[len(said) - 1 - said[::-1].index(thing) :]
    if thing in _SIZED and not {"size", "wide", "high"} & set(said):
        return f"{number} x 0.9"
    if statement == "floor":
        return f"{number} from wall {'A' if 'from_wall' in said else 'D'}"
    if not {"from_side", "from_wall"} & set(said):
        return f"{number} from left"
    if thing == "niche" and {"up", "above", "below", "bottom"} & set(said):
        return f"{number} deep"
    return f"{number} up"
