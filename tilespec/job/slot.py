"""Slots: what each number of the language measures, the unit it is read in, and what it can sensibly be.

The bounds are no rules of the trade: they catch slips of unit (metres for millimetres), and the message names the likely one.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction as F

from tilespec.quantity.unit import UNITS, Kind, Unit


@dataclass(frozen=True, slots=True)
class Slot:
    """words   what the number is, for messages: "the width of a room"
    unit    read in this unit where none is written
    low, high   plausible range in base units
    room    a room size: read in millimetres where the job says `sizes in mm`
    """

    words: str
    unit: Unit
    low: F
    high: F
    room: bool = False

    @property
    def kind(self) -> Kind:
        return self.unit.kind


def _slot(words: str, unit: str, low: F | int | str, high: F | int | str, room: bool = False) -> Slot:
    u = UNITS[unit]
    return Slot(words, u, F(low) * u.factor + u.offset, F(high) * u.factor + u.offset, room)


SLOTS: dict[str, Slot] = {
    "room-side": _slot("a side of a room", "m", "0.2", 60, True),
    "room-height": _slot("the height of a room", "m", "1.5", 12, True),
    "wall-side": _slot("a side of a wall", "m", "0.1", 60, True),
    "wall-height": _slot("the height of a wall", "m", "0.1", 12, True),
    "diagonal": _slot("a diagonal", "m", "0.3", 85, True),
    "place": _slot("a place on a surface", "m", -60, 60, True),
    "height-up": _slot("a height", "m", -3, 12, True),
    "opening-side": _slot("a side of an opening", "m", "0.05", 12, True),
    "area-side": _slot("a side of an area", "m", "0.02", 60, True),
    "reveal": _slot("the depth of a reveal", "m", "0.01", "1.5", True),
    "niche-depth": _slot("the depth of a niche", "m", "0.02", "0.6", True),
    "shower-side": _slot("a side of a shower", "m", "0.5", 6, True),
    "bath-side": _slot("a side of a bath", "m", "0.4", "2.5", True),
    "basin-side": _slot("a side of a basin", "m", "0.15", 3, True),
    "boxing-side": _slot("a side of a boxing", "m", "0.03", 3, True),
    "head-height": _slot("the height of a shower head", "m", "0.5", 4, True),
    "rim": _slot("the height of a rim", "m", "0.1", "1.3", True),
    "datum": _slot("the height of the datum line", "m", "0.1", 3, True),
    "band-height": _slot("the height of a band", "m", "0.01", 3, True),
    "border-width": _slot("the width of a border", "m", "0.01", 3, True),
    "channel-length": _slot("the length of a channel", "m", "0.2", 6, True),
    "tile-side": _slot("a side of a tile", "mm", 8, 3300),
    "tile-thickness": _slot("the thickness of a tile", "mm", 3, 60),
    "joint": _slot("a joint", "mm", "0.5", 25),
    "movement-joint": _slot("the width of a movement joint", "mm", 2, 50),
    "chip": _slot("a side of a chip", "mm", 4, 150),
    "level": _slot("a difference of level", "mm", -400, 400),
    "floor-level": _slot("the height of the finished floor", "mm", 1, 500),
    "layer": _slot("the thickness of a layer", "mm", "0.1", 400),
    "base-thickness": _slot("the thickness of a base", "mm", 2, 600),
    "joist-centres": _slot("the distance of joists", "mm", 200, 1200),
    "board-thickness": _slot("the thickness of a deck", "mm", 6, 60),
    "joist-span": _slot("the span of joists", "m", "0.5", 9, True),
    "diameter": _slot("the diameter of a pipe", "mm", 5, 250),
    "plumb": _slot("how far out of plumb", "mm", -120, 120),
    "run": _slot("the run of a bond", "mm", 1, 3000),
    "weight": _slot("the weight of a tile", "kg/m2", 3, 120),
    "carries": _slot("what a base carries", "kg/m2", 5, 400),
    "box": _slot("the number of tiles in a box", "count", 1, 2000),
    "crew": _slot("the number of people", "count", 1, 60),
    "coats": _slot("the number of coats", "count", 1, 5),
    "dcof": _slot("a wet DCOF", "", "0.1", "1.2"),
    "pendulum": _slot("a pendulum value", "", 1, 100),
    "absorption": _slot("the water absorption of a tile", "%", 0, 30),
    "air": _slot("the temperature of the air", "C", -30, 50),
    "surface": _slot("the temperature of the surface", "C", -30, 60),
    "humidity": _slot("the humidity of the air", "%RH", 5, 100),
    "built": _slot("the year a building was built", "year", 1000, 2100),
    "version": _slot("the version of the language", "", 1, 1),
    "notice": _slot("the notice before a hold point", "h", 1, 240),
    "takes": _slot("how long a step takes", "h", F(1, 12), 400),
    "time": _slot("a time", "h", F(1, 120), 24 * 400),
    "minutes": _slot("a time", "min", F(1, 2), 60 * 48),
    "fall": _slot("a fall", "slope", F(1, 500), F(1, 8)),
    "depth": _slot("the depth of a reading", "mm", 1, 300),
    "moisture": _slot("a moisture reading", "CM%", 0, 20),
    "pack": _slot("the size of a pack", "kg", "0.05", 1500),
    "consumption": _slot("what a coat takes", "kg/m2", "0.02", 12),
    "density": _slot("the weight of dry powder for each litre of bed", "kg/L", "0.3", "2.5"),
    "water": _slot("the mixing water", "L/kg", "0.05", "1.2"),
    "film": _slot("the thickness of a dry film", "mm", "0.1", 6),
    "notch": _slot("the notch of a trowel", "mm", 2, 30),
    "product-width": _slot("the width of a product", "mm", "0.5", 2500),
    "movement": _slot("the movement a sealant takes", "%", 5, 100),
    "output": _slot("the output of a heating", "W/m2", 30, 300),
    "voltage": _slot("a voltage", "V", 6, 415),
    "deflection": _slot("the deflection of a floor", "mm", "0.05", 60),
    "threshold": _slot("the height of a threshold", "mm", 0, 300),
    "cover": _slot("what a valve is built in behind", "mm", 0, 150),
    "flange": _slot("the width of a flange", "mm", 5, 400),
    "flow": _slot("a flow of water", "L/min", 1, 200),
    "rcd": _slot("the current at which a residual current device trips", "mA", 3, 500),
    "keeps": _slot("how long a pack keeps", "d", 1, 1500),
    "tile-range": _slot("the thickness of tiles that clips are made for", "mm", 2, 60),
    "trim-height": _slot("the height of a trim", "mm", 2, 60),
    "sealant-depth": _slot("the depth of sealant", "mm", 1, 50),
    "warp": _slot("how far a tile is bowed", "mm", 0, 10),
    "over": _slot("the length of a straightedge", "m", "0.1", 15),
    "samples": _slot("the number of samples", "count", 1, 1000),
    "lasted": _slot("how long a test lasted", "h", F(1, 12), 400),
    "fell": _slot("how far the water fell", "mm", 0, 200),
    "contact": _slot("the contact of adhesive and tile", "%", 0, 100),
    "strength": _slot("the strength of a base", "N/mm2", "0.01", 60),
    "gap": _slot("a gap or a step", "mm", 0, 60),
    "resistance": _slot("the resistance of a heating", "ohm", "0.1", 20000),
    "insulation": _slot("an insulation resistance", "Mohm", 0, 100000),
    "water-depth": _slot("the depth of water", "mm", 1, 500),
    "product-temperature": _slot("a working temperature", "C", -20, 60),
}
