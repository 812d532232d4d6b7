"""Small jobs built by hand for the take-off's tests: the language is tested elsewhere."""

from __future__ import annotations

from dataclasses import replace
from datetime import time
from fractions import Fraction as F

from tilespec.job.types import (
    Base,
    Conditions,
    Corner,
    Covering,
    Hours,
    Job,
    Levels,
    MembraneArea,
    Pattern,
    Product,
    Rect,
    Room,
    Start,
    Surface,
    Tile,
    WallLine,
    Zone,
)
from tilespec.practice.lookup import FirmValue, Practice, practice
from tilespec.quantity import UNITS, Given, Quantity
from tilespec.source import Span

HERE = Span("test", 0, 1)


def q(number: object, shown: str) -> Quantity:
    u = UNITS[shown]
    return Quantity(F(str(number)) * u.factor + u.offset, u.kind, u, Given(HERE))


def m(number: object) -> Quantity:
    return q(number, "m")


def mm(number: object) -> Quantity:
    return q(number, "mm")


def rect(x: object, y: object, width: object, height: object) -> Rect:
    return Rect(m(x), m(y), m(width), m(height), HERE)


def tile(name: str = "t", width: object = 300, height: object = 300, thickness: object = 9, **more: object) -> Tile:
    fields: dict[str, object] = dict(
        name=name,
        named=True,
        width=mm(width),
        height=mm(height),
        thickness=mm(thickness),
        body="porcelain",
        mosaic=False,
        rectified=True,
        translucent=False,
        stone=False,
        porous=False,
        orientation="as written",
        weight=q(20, "kg/m2"),
        box=q(10, "count"),
        chip_width=None,
        chip_height=None,
        chip_joint=None,
        work_width=None,
        work_height=None,
        absorption=None,
        barefoot=None,
        slip=None,
        dcof=None,
        pendulum=None,
    )
    fields.update(more)
    return Tile(**fields)  # type: ignore[arg-type]


def mosaic(name: str = "pebble", chip: object = 48, joint: object = 2, **more: object) -> Tile:
    return tile(name, 300, 300, 5, mosaic=True, chip_width=mm(chip), chip_height=mm(chip), chip_joint=mm(joint), **more)


def laid(t: Tile, joint: object = 3, pattern: str = "straight", region: Rect | None = None, role: str = "field") -> Covering:
    return Covering(t, mm(joint), Pattern(pattern), Start(), region, role)


ADHESIVE = Product(
    "mortar",
    "adhesive",
    ("C2", "TE", "S1"),
    False,
    ("cement",),
    pack=q(25, "kg"),
    density=q("1.3", "kg/L"),
    water=q("0.26", "L/kg"),
    pot_life=q(45, "min"),
    maturing=q(3, "min"),
)
GROUT = Product(
    "grout",
    "grout",
    ("CG2", "WA"),
    False,
    ("cement",),
    pack=q(5, "kg"),
    density=q("1.6", "kg/L"),
    water=q("0.24", "L/kg"),
    pot_life=q(60, "min"),
)
MEMBRANE = Product(
    "film", "membrane", ("DM",), False, ("dispersion",), pack=q(14, "kg"), coats=q(2, "count"), consumption=q("0.7", "kg/m2")
)
TAPE = Product("tape", "tape", (), False, pack=m(10))
COLLAR = Product("collar", "collar", (), False, pack=q(10, "count"))
PRIMER = Product("primer", "primer", (), False, pack=q(5, "kg"), consumption=q("0.15", "kg/m2"))
SEALANT = Product("sealant", "sealant", ("XS1", "25LM"), False, pack=q(310, "mL"))
BACKER = Product("string", "backer", (), False, pack=m(50))
LEVELLER = Product(
    "flow", "leveller", (), False, ("cement",), pack=q(25, "kg"), density=q("1.6", "kg/L"), water=q("0.24", "L/kg")
)
MIRROR = Product("mirror glue", "mirror-adhesive", (), False, pack=q(310, "mL"))
MAT = Product("mat", "heating", (), False, output=q(150, "W/m2"), voltage=q(230, "V"))
ALL = (PRIMER, MEMBRANE, TAPE, COLLAR, ADHESIVE, GROUT, SEALANT, BACKER)
DRY = (ADHESIVE, GROUT, SEALANT, BACKER)


def surface(
    id: str,
    width: object,
    height: object,
    *coverings: Covering,
    kind: str = "wall",
    products: tuple[Product, ...] = DRY,
    room: str = "room",
    **more: object,
) -> Surface:
    w, h = m(width), m(height)
    outline = ((F(0), F(0)), (w.value, F(0)), (w.value, h.value), (F(0), h.value))
    fields: dict[str, object] = dict(
        id=f"{room}/{'floor' if kind == 'floor' else 'wall ' + id}",
        room=room,
        kind=kind,
        letter="" if kind == "floor" else id,
        title=id,
        width=w,
        height=h,
        outline=outline,
        base=Base("cement-screed" if kind == "floor" else "cement-render", None),
        coverings=coverings,
        tiled_height=None,
        products=products,
    )
    fields.update(more)
    return Surface(**fields)  # type: ignore[arg-type]


def box_room(
    width: object,
    depth: object,
    height: object = "2.4",
    floor: Surface | None = None,
    walls: tuple[Surface, ...] = (),
    name: str = "room",
    **more: object,
) -> Room:
    w, d = m(width), m(depth)
    z = F(0)
    points = ((z, z), (w.value, z), (w.value, d.value), (z, d.value))
    sides = (w, d, w, d)
    stated = {s.letter for s in walls}
    lines = tuple(WallLine("ABCD"[i], points[i], points[(i + 1) % 4], sides[i], "ABCD"[i] in stated) for i in range(4))
    corners = tuple(Corner("ABCD"[i - 1], "ABCD"[i], points[i], True) for i in range(4))
    fields: dict[str, object] = dict(
        name=name,
        words=None,
        height=m(height),
        levels=Levels((), None, None, m(1), None),
        walls=lines,
        corners=corners,
        floor=floor,
        wall_surfaces=walls,
        not_stated=tuple(c for c in "ABCD" if c not in stated),
    )
    fields.update(more)
    return Room(**fields)  # type: ignore[arg-type]


def job(*rooms: Room, **more: object) -> Job:
    fields: dict[str, object] = dict(
        title=None,
        reference=None,
        revision=None,
        date=None,
        site=None,
        client=None,
        firm=None,
        author=None,
        family="EN",
        family_given=True,
        begin=None,
        hours=Hours((0, 1, 2, 3, 4), time(7, 30), time(16, 0), True),
        crew=(("tiler", q(1, "count")), ("helper", q(1, "count"))),
        closed=(),
        built=None,
        occupied=None,
        measured_to="bare wall",
        paper="A4",
        notice=q(24, "h"),
        conditions=Conditions(q(20, "C"), q(60, "%RH"), q(17, "C")),
        rooms=rooms,
        steps=(),
        deviations=(),
        records=(),
        firm_limits=(),
        questions=(),
        files=(),
    )
    fields.update(more)
    return Job(**fields)  # type: ignore[arg-type]


def wall_job(s: Surface, **more: object) -> Job:
    """One wall A in a room as wide as it."""
    width, height = s.width.value, s.height.value
    return job(box_room(width, 2, height, None, (s,), **more))


def floor_job(s: Surface, **more: object) -> Job:
    return job(box_room(s.width.value, s.height.value, "2.4", s, **more))


def en(*firm: tuple[str, Quantity], family: str = "EN") -> Practice:
    return practice(family, tuple(FirmValue(k, v) for k, v in firm))


__all__ = [
    "ADHESIVE",
    "ALL",
    "BACKER",
    "COLLAR",
    "DRY",
    "GROUT",
    "HERE",
    "LEVELLER",
    "MAT",
    "MEMBRANE",
    "MIRROR",
    "MembraneArea",
    "PRIMER",
    "SEALANT",
    "TAPE",
    "Zone",
    "box_room",
    "en",
    "floor_job",
    "job",
    "laid",
    "m",
    "mm",
    "mosaic",
    "q",
    "rect",
    "replace",
    "surface",
    "tile",
    "wall_job",
]
