"""Electric heating and what was read of it, for the rules. The tests themselves are a licensed electrician's.
"""

from __future__ import annotations

from tilespec.checks.rule import Context
from tilespec.job.types import Heating, Record, Room
from tilespec.takeoff.types import HeatingMeasure
from tilespec.vocabulary import ELECTRIC

RESISTANCE = ("heating-before", "heating-cover", "heating-after")
INSULATION = ("insulation-before", "insulation-cover", "insulation-after")


_WHEN = {"before": "before it was laid", "cover": "before it was covered", "after": "after tiling"}


def test_of(record: Record) -> str:
    """Which of the three tests a record is of, in words."""
    return f"at the test {_WHEN[record.kind.text.rpartition('-')[2]]}"


def electric(room: Room) -> Heating | None:
    """The electric heating of a tiled floor."""
    return room.heating if room.heating is not None and room.floor is not None and room.heating.kind in ELECTRIC else None


def extra_low(heating: Heating, context: Context) -> bool:
    """Said to run at extra-low voltage."""
    voltage = heating.product.voltage
    return voltage is not None and voltage.value <= context.practice.limit("extra-low-voltage").value


def of_floor(context: Context, room: Room, *kinds: str) -> tuple[Record, ...]:
    """Records of these kinds of a room's floor, the oldest first. A record of the room counts for its floor."""
    places = (room.name, room.floor.id) if room.floor is not None else (room.name,)
    found = [r for r in context.job.records if r.kind.text in kinds and r.place in places]
    return tuple(sorted(found, key=lambda r: r.on))


def last_of_each(context: Context, room: Room, kinds: tuple[str, ...]) -> tuple[Record, ...]:
    """The newest record of each kind with a reading: a test that is made again replaces the one before."""
    newest = {r.kind.text: r for r in of_floor(context, room, *kinds) if r.reading is not None}
    return tuple(newest[k] for k in kinds if k in newest)


def measure(context: Context, room: Room) -> HeatingMeasure | None:
    """What the heating should read; None where that is only guessed: no label, and no size or voltage to reckon it from."""
    heating = electric(room)
    if heating is None or heating.product.generic or context.takeoff is None:
        return None
    found = next((m for m in context.takeoff.heating if m.room == room.name), None)
    p = heating.product
    reckoned = found is not None and found.laid_area is not None and p.voltage is not None
    return found if p.resistance is not None or reckoned else None


def outside(found: HeatingMeasure, record: Record, mats: int) -> bool:
    """A reading off the band, of all mats together and of one by itself."""
    low, high, q = found.resistance_low, found.resistance_high, record.reading
    if low is None or high is None or q is None:
        return False
    return not any(low.value * n <= q.value <= high.value * n for n in {1, mats})


def mats(found: HeatingMeasure, heating: Heating) -> int:
    pack = heating.product.pack
    return max(1, round(found.laid_area.value / pack.value)) if found.laid_area is not None and pack is not None else 1


