"""Rooms built by hand for the drawings: a scenario of our own."""

from __future__ import annotations

from dataclasses import replace
from datetime import time
from fractions import Fraction
from typing import Any

from tilespec.job.types import (
    Base,
    Basin,
    Bath,
    Boxing,
    Conditions,
    Corner,
    Covering,
    Fall,
    Fitting,
    Heating,
    Hours,
    Job,
    Levels,
    MembraneArea,
    Niche,
    Opening,
    Pattern,
    Penetration,
    Product,
    Rect,
    Room,
    Shower,
    Start,
    Surface,
    Tile,
    TrimRun,
    WallLine,
    Words,
    Zone,
)
from tilespec.quantity import UNITS, Default, Quantity, given, work
from tilespec.source import Span

SPAN = Span("boathouse.tilespec", 0, 1)


def m(value: str | int) -> Quantity:
    return given(value, "m", SPAN)


def mm(value: str | int) -> Quantity:
    return given(value, "mm", SPAN)


def inch(value: str | int) -> Quantity:
    return given(value, "in", SPAN)


def guess(value: str, unit: str = "m") -> Quantity:
    u = UNITS[unit]
    return Quantity(Fraction(value) * u.factor, u.kind, u, Default("How long?", "common practice"))


def words(text: str) -> Words:
    return Words(text, SPAN)


def rect(x: str, y: str, width: str, height: str) -> Rect:
    return Rect(m(x), m(y), m(width), m(height))


def tile(name: str, width: int | str, height: int | str, thickness: int | str = 9, mosaic: bool = False) -> Tile:
    w, h = mm(width), mm(height)
    orientation = "square" if w.value == h.value else "landscape" if w.value > h.value else "upright"
    return Tile(
        name,
        True,
        w,
        h,
        mm(thickness),
        "porcelain",
        mosaic,
        True,
        False,
        False,
        False,
        orientation,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
        None,
    )


FLOOR_TILE = tile("floor-tile", 300, 300)
WALL_TILE = tile("wall-tile", 600, 300)
PEBBLE = tile("pebble", 305, 305, 8, mosaic=True)


def laid(
    t: Tile,
    pattern: str = "straight",
    across: str = "found",
    up: str = "found",
    joint: int | str = 3,
    stepped: bool = False,
    region: Rect | None = None,
    role: str = "field",
    run: Quantity | None = None,
) -> Covering:
    return Covering(t, mm(joint), Pattern(pattern, stepped, run), Start(across, up), region, role)


def product(kind: str, name: str) -> Product:
    return Product(name, kind, (), True)


def outline(width: Quantity, height: Quantity) -> tuple[tuple[Fraction, Fraction], ...]:
    nought = Fraction(0)
    return (nought, nought), (width.value, nought), (width.value, height.value), (nought, height.value)


def wall(letter: str, width: str, height: str = "2.4", title: str = "", **more: object) -> Surface:
    w, h = m(width), m(height)
    coverings = more.pop("coverings", (laid(WALL_TILE, "third", up="full tile at datum", across="tile on centre", stepped=True),))
    return Surface(  # type: ignore[arg-type]
        f"Shower room/wall {letter}",
        "Shower room",
        "wall",
        letter,
        title or f"wall {letter}",
        w,
        h,
        more.pop("outline", outline(w, h)),
        Base("tile-backer-board", None),
        coverings,
        more.pop("tiled_height", None),
        **more,
    )


def floor(width: str, depth: str, points: tuple[tuple[Fraction, Fraction], ...] | None = None, **more: object) -> Surface:
    w, h = m(width), m(depth)
    coverings = more.pop("coverings", (laid(FLOOR_TILE, across="joint on centre"),))
    return Surface(  # type: ignore[arg-type]
        "Shower room/floor",
        "Shower room",
        "floor",
        "",
        "floor",
        w,
        h,
        points or outline(w, h),
        Base("cement-screed", None),
        coverings,
        None,
        **more,
    )


def walk(*legs: tuple[str, str, bool], stated: str = "") -> tuple[tuple[WallLine, ...], tuple[Corner, ...]]:
    """Walls from (letter, length, internal corner after it)."""
    x = y = Fraction(0)
    dx, dy = 1, 0
    walls, corners = [], []
    for letter, length, internal in legs:
        q = m(length)
        start = (x, y)
        x, y = x + dx * q.value, y + dy * q.value
        walls.append(WallLine(letter, start, (x, y), q, not stated or letter in stated))
        dx, dy = (-dy, dx) if internal else (dy, -dx)
    assert (x, y) == (0, 0), (x, y)
    for i, (_, _, _) in enumerate(legs):
        corners.append(Corner(legs[i - 1][0], legs[i][0], walls[i].start, legs[i - 1][2]))
    return tuple(walls), tuple(corners)


def levels(datum: str = "1.0", hall: str | None = "10") -> Levels:
    return Levels((("tile", mm(9)), ("bed", mm(4))), mm(13), mm(hall) if hall else None, m(datum), mm("-12"))


def room(
    walls: tuple[tuple[WallLine, ...], tuple[Corner, ...]],
    surfaces: tuple[Surface, ...] = (),
    floor_: Surface | None = None,
    height: str = "2.4",
    **more: object,
) -> Room:
    return Room(
        "Shower room", words("Shower room"), m(height), more.pop("levels", levels()), *walls, floor_, surfaces, (), **more
    )  # type: ignore[arg-type]


def box_walls(width: str = "2.4", depth: str = "1.8") -> tuple[tuple[WallLine, ...], tuple[Corner, ...]]:
    return walk(("A", width, True), ("B", depth, True), ("C", width, True), ("D", depth, True))


def around(s: Surface, **more: Any) -> Room:
    """A room with one wall described."""
    wide = str(s.width.value)
    return room(box_walls("2.4", wide) if s.letter in ("B", "D") else box_walls(wide), (s,), **more)


def job(*rooms: Room, family: str = "EN", paper: str = "A4") -> Job:
    return Job(
        words("Guest shower room"),
        words("BH-07"),
        words("B"),
        None,
        words("The Boathouse, Mill Lane"),
        None,
        None,
        None,
        family,
        True,
        None,
        Hours((0, 1, 2, 3, 4), time(7, 30), time(16, 0), True),
        (),
        (),
        None,
        None,
        "bare wall",
        paper,
        given(24, "h", SPAN),
        Conditions(given(19, "C", SPAN), given(60, "%RH", SPAN), given(17, "C", SPAN)),
        rooms,
        (),
        (),
        (),
        (),
        (),
        ("boathouse.tilespec",),
    )


# ---------------------------------------------------------------- the rooms


def shower_room() -> Room:
    """The guest shower room of the boathouse: a wall of each sort."""
    a = wall(
        "A",
        "2.4",
        title="wall A, shower",
        coverings=(
            laid(WALL_TILE, "third", up="full tile at datum", across="tile on centre", stepped=True),
            laid(PEBBLE, region=rect("0", "1.2", "2.4", "0.305"), role="band"),
        ),
        penetrations=(
            Penetration("valve", m("0.45"), m("1.1"), mm(120), label=words("thermostat")),
            Penetration("shower head", m("0.45"), m("2.1"), mm(22)),
        ),
        niches=(Niche(rect("1.05", "1.55", "0.3", "0.3"), mm(90), PEBBLE),),
        zones=(Zone("shower", rect("0", "0", "0.9", "2.3"), "shower in corner D A"),),
        membrane_areas=(
            MembraneArea(rect("0", "0", "1.2", "2.3"), "shower"),
            MembraneArea(rect("0", "0", "2.4", "0.15"), "upstand"),
        ),
        trims=(TrimRun("niche", mm(1200), product("trim", "edge")),),
    )
    b = wall(
        "B",
        "1.8",
        title="wall B, window",
        openings=(Opening("window", rect("0.6", "1.2", "0.6", "0.9"), mm(120)),),
        membrane_areas=(MembraneArea(rect("0", "0", "1.8", "0.15"), "upstand"),),
        coverings=(laid(WALL_TILE),),
    )
    c = wall(
        "C",
        "2.4",
        title="wall C, door",
        openings=(Opening("door", rect("0.9", "0", "0.8", "2.0")),),
        coverings=(laid(WALL_TILE),),
        membrane_areas=(MembraneArea(rect("0", "0", "2.4", "0.15"), "upstand"),),
        measured_heights=(m("2.4"), m("2.412")),
        outline=(
            (Fraction(0), Fraction(0)),
            (Fraction("2.4"), Fraction(0)),
            (Fraction("2.4"), Fraction("2.412")),
            (Fraction(0), Fraction("2.4")),
        ),
    )
    d = wall(
        "D",
        "1.8",
        title="wall D, shower, mirror",
        tiled_height=m("2.1"),
        coverings=(laid(WALL_TILE, "half", "joint on centre", "full tile at datum"),),
        fittings=(Fitting("mirror", None, rect("0.15", "1.2", "0.6", "0.8")),),
        zones=(
            Zone("splash", rect("0.1", "0.6", "0.7", "1.2"), "said"),
            Zone("shower", rect("0.9", "0", "0.9", "2.1"), "shower in corner D A"),
        ),
        membrane_areas=(
            MembraneArea(rect("0.6", "0", "1.2", "2.1"), "shower"),
            MembraneArea(rect("0.1", "0.6", "0.7", "1.2"), "splash"),
            MembraneArea(rect("0", "0", "1.8", "0.15"), "upstand"),
        ),
    )
    f = floor(
        "2.4",
        "1.8",
        penetrations=(
            Penetration("drain", m("0.45"), m("0.45"), mm(110)),
            Penetration("pipe", m("1.9"), m("0.2"), mm(110), label=words("WC")),
        ),
        fittings=(Fitting("fixture", words("WC"), rect("1.7", "0", "0.4", "0.6")),),
        zones=(Zone("shower", rect("0", "0", "0.9", "0.9"), "shower"),),
        membrane_areas=(MembraneArea(None, "floor"),),
    )
    heating = Heating(
        "mat", product("heating", "generic mat"), "B", (rect("0", "0", "0.9", "0.9"), rect("1.7", "0", "0.4", "0.6"))
    )
    return room(
        box_walls(),
        (a, b, c, d),
        f,
        showers=(Shower(("D", "A"), rect("0", "0", "0.9", "0.9"), m("2.1"), "A", False, True),),
        fall=Fall(given(Fraction(1, 60), "slope", SPAN), "four"),
        heating=heating,
        diagonals=(m("3.0"), m("3.003")),
    )


def l_room() -> Room:
    """A bathroom around a corner: bath, basin, boxing, long channel, a wall that ends at an external corner."""
    walls = walk(
        ("A", "3.2", True), ("B", "1.4", True), ("C", "1.3", False), ("D", "1.2", True), ("E", "1.9", True), ("F", "2.6", True)
    )
    points = tuple(w.start for w in walls[0])
    f = floor(
        "3.2",
        "2.6",
        points,
        coverings=(laid(tile("oak-look plank", 1200, 200, 10), "third", "full tile at door"),),
        penetrations=(Penetration("channel", m("1.2"), m("2.45"), None, m("0.8"), "E"),),
        untiled=(rect("1.5", "0", "1.7", "0.75"),),
        membrane_areas=(MembraneArea(None, "floor"),),
        zones=(Zone("wet floor", None, "bath and shower"),),
        fittings=(Fitting("fixture", words("vanity unit with drawers"), rect("0", "1.0", "0.48", "0.8")),),
    )
    a = wall(
        "A",
        "3.2",
        title="wall A, bath",
        coverings=(laid(WALL_TILE, "half", "from left", "full tile at floor"),),
        zones=(Zone("bath", rect("1.5", "0", "1.7", "1.2"), "bath"),),
        membrane_areas=(MembraneArea(rect("1.3", "0", "1.9", "1.2"), "bath"),),
    )
    c = wall("C", "1.3", title="wall C", coverings=(laid(WALL_TILE),))
    e = wall("E", "1.9", title="wall E, door", openings=(Opening("door", rect("0.2", "0", "0.75", "2.0")),))
    ff = wall("F", "2.6", title="wall F, basin", coverings=(laid(WALL_TILE, up="full tile at top"),))
    return room(
        walls,
        (a, c, e, ff),
        f,
        baths=(Bath(("A", "B"), rect("1.5", "0", "1.7", "0.75"), m("0.56"), False),),
        basins=(Basin("F", m("0.9"), m("0.6"), m("0.85")),),
        boxings=(Boxing(rect("0", "0", "0.2", "0.15"), m("2.4"), ("F", "A")),),
        fall=Fall(given(Fraction(1, 80), "slope", SPAN), "one"),
    )


def eight_pipes() -> Surface:
    pipes = tuple(
        Penetration(
            "pipe", m(str(Fraction(60 + 5 * i, 100))), m("0.55" if i % 2 else "0.6"), mm(22), label=words(f"supply {chr(97 + i)}")
        )
        for i in range(8)
    )
    return wall("A", "2.4", penetrations=pipes)


def crowded() -> Surface:
    return wall(
        "B",
        "2.6",
        title="wall B, window",
        openings=(Opening("window", rect("0.9", "1.1", "0.7", "1.0")),),
        niches=(Niche(rect("0.3", "1.3", "0.3", "0.6"), mm(100)), Niche(rect("1.9", "0.3", "0.12", "0.12"), mm(60))),
        fittings=(
            Fitting(
                "mirror",
                words("mirror with a light, in the client's store until the last day"),
                rect("1.75", "1.0", "0.7", "1.1"),
            ),
            Fitting("fitting", words("towel rail"), rect("0.1", "0.5", "0.5", "0.03")),
            Fitting("fitting", words("grab rail"), rect("0.2", "0.8", "0.6", "0.05")),
        ),
        penetrations=(
            Penetration("outlet", m("1.3"), m("0.5"), mm(50)),
            Penetration("valve", m("1.2"), m("0.6"), mm(20)),
            Penetration("valve", m("1.4"), m("0.6"), mm(20)),
            Penetration("socket", m("2.2"), m("1.05"), mm(68)),
        ),
        untiled=(rect("0", "0", "0.6", "0.4"),),
        zones=(Zone("splash", rect("0.8", "0.3", "1.0", "0.9"), "said"),),
        membrane_areas=(MembraneArea(rect("0.8", "0.3", "1.0", "0.9"), "splash"),),
    )


HOSTILE = '<script>alert("x")</script> & ]]> \u0000\u0007 \'--> # **bold** ' + "very long name " * 20


def hostile() -> tuple[Surface, Room]:
    t = replace(WALL_TILE, name=HOSTILE)
    s = replace(
        wall("A", "2.4", title=HOSTILE, coverings=(laid(t), laid(t, region=rect("0.5", "0.5", "0.5", "0.3"), role="panel"))),
        penetrations=(Penetration("pipe", m("0.5"), m("0.5"), mm(20), label=words(HOSTILE)),),
        fittings=(Fitting("mirror", words(HOSTILE), rect("1", "1", "0.5", "0.5")),),
        id=HOSTILE,
    )
    f = replace(
        floor("2.4", "1.8", coverings=(laid(replace(FLOOR_TILE, name=HOSTILE)),)),
        fittings=(Fitting("fixture", words(HOSTILE), rect("1", "1", "0.5", "0.5")),),
    )
    return s, replace(room(box_walls(), (s,), f), name=HOSTILE)


def in_inches() -> tuple[Surface, Room]:
    """A wall of 7 ft 10 1/2 in by 8 ft, said in inches."""
    w, h = inch("94.5"), inch(96)
    s = replace(
        wall(
            "A",
            "2.4",
            title="wall A, shower",
            coverings=(laid(tile("subway", "152.4", "76.2", 8), "half", "tile on centre", "full tile at datum", "1.5875"),),
        ),
        width=w,
        height=h,
        outline=outline(w, h),
        penetrations=(
            Penetration("valve", inch(18), inch(42), inch("5.5")),
            Penetration("shower head", inch(18), inch(80), inch(1)),
            Penetration("valve", inch(22), inch(42), inch(1)),
        ),
        niches=(Niche(Rect(inch(40), inch(48), inch("14.25"), inch("14.25")), inch("3.5")),),
        zones=(Zone("shower", Rect(work("a - a", "in", source="test", a=w), inch(0), inch(36), inch(84)), "shower"),),
        membrane_areas=(MembraneArea(Rect(inch(0), inch(0), inch(48), inch(84)), "shower"),),
    )
    return s, room(box_walls(), (s,), levels=Levels((), None, None, inch(40), None))
