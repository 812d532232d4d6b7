"""Random but sound jobs, built by hand from a seed: the language is tested elsewhere."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from fractions import Fraction as F
from random import Random

from tilespec.job.types import (
    PLANNED,
    Base,
    Basin,
    Bath,
    Conditions,
    Corner,
    Covering,
    Cutter,
    Fall,
    Fitting,
    Heating,
    Hours,
    Job,
    Levels,
    MembraneArea,
    MovementJoint,
    Niche,
    Opening,
    Pattern,
    Penetration,
    Product,
    Question,
    Record,
    Rect,
    Room,
    Shower,
    Start,
    Surface,
    Tile,
    TradeStep,
    TrimRun,
    WaitData,
    WallLine,
    Words,
    Zone,
)
from tilespec.practice.lookup import practice
from tilespec.quantity import UNITS, Given, Quantity
from tilespec.sequence import Sequence, sequence
from tilespec.source import Span
from tilespec.takeoff import measure

HERE = Span("test", 0, 1)


def q(number: object, shown: str) -> Quantity:
    u = UNITS[shown]
    return Quantity(F(str(number)) * u.factor + u.offset, u.kind, u, Given(HERE))


def said(text: str) -> Words:
    return Words(text, HERE)


def rect(x: object, y: object, width: object, height: object) -> Rect:
    return Rect(q(x, "m"), q(y, "m"), q(width, "m"), q(height, "m"), HERE)


def waits(**minimum: str) -> tuple[WaitData, ...]:
    """`waits(grouting="4 h", membrane="4 h to 24 h")`."""
    found = []
    for before, text in minimum.items():
        low, _, high = text.partition(" to ")
        found.append(WaitData(before, q(*low.split()), q(*high.split()) if high else None))
    return tuple(found)


def product(kind: str, name: str, cls: str = "", flags: str = "", **more: object) -> Product:
    return Product(name, kind, tuple(cls.split()), False, tuple(flags.split()), span=HERE, **more)  # type: ignore[arg-type]


ADHESIVE = product(
    "adhesive",
    "white-bed",
    "C2 TE S1",
    "cement white",
    pack=q(25, "kg"),
    density=q("1.3", "kg/L"),
    water=q("0.26", "L/kg"),
    pot_life=q(45, "min"),
    open_time=q(30, "min"),
)
FAST = product(
    "adhesive",
    "quick-bed",
    "C2 FT S1",
    "cement",
    pack=q(25, "kg"),
    density=q("1.3", "kg/L"),
    water=q("0.26", "L/kg"),
    pot_life=q(30, "min"),
)
PASTE = product("adhesive", "wall-paste", "D2 TE", "dispersion", pack=q(15, "kg"), density=q("1.6", "kg/L"))
GROUT = product(
    "grout",
    "fine-grout",
    "CG2 WA",
    "cement",
    pack=q(5, "kg"),
    density=q("1.6", "kg/L"),
    water=q("0.24", "L/kg"),
    pot_life=q(60, "min"),
)
RESIN_GROUT = product("grout", "resin-grout", "RG", "epoxy", pack=q(5, "kg"), density=q("1.7", "kg/L"))
PRIMER = product("primer", "base-primer", pack=q(5, "kg"), consumption=q("0.15", "kg/m2"))
FILM = product("membrane", "film", "DM", "dispersion", pack=q(14, "kg"), coats=q(2, "count"), consumption=q("0.7", "kg/m2"))
QUICK_FILM = replace(FILM, name="quick-film", film=q("0.5", "mm"), waits=waits(coats="1.5 h", tiling="4 h"))
SLURRY = product(
    "membrane", "slurry", "CM O1", "cement", pack=q(20, "kg"), consumption=q("1.7", "kg/m2"), water=q("0.25", "L/kg")
)
LACQUER = product(
    "membrane", "lacquer", "RM", "polyurethane", pack=q(10, "kg"), coats=q(3, "count"), consumption=q("0.7", "kg/m2")
)
TAPE = product("tape", "corner-tape", pack=q(10, "m"))
COLLAR = product("collar", "pipe-collar", pack=q(1, "count"))
ACETOXY = product("sealant", "vinegar-sealant", "S1 25LM", "acetoxy", pack=q(310, "mL"))
EPOXY_SEALER = product("sealer", "resin-sealer", "", "epoxy", pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
HARD_SEALER = product("sealer", "hard-sealer", "", "polyurethane", pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
STRONG_PROOFER = product("impregnator", "strong-proofer", "", "solvent", pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
EPOXY_PROOFER = product("impregnator", "resin-proofer", "", "epoxy", pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
HARD_PROOFER = product("impregnator", "hard-proofer", "", "polyurethane", pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
THICK_FILM = product(
    "membrane", "thick-film", "DM", "dispersion", pack=q(14, "kg"), coats=q(3, "count"), consumption=q("0.5", "kg/m2")
)
ANGLE = product("trim", "angle", pack=q("2.5", "m"))
SEALANT = product("sealant", "corner-sealant", "XS1 25LM", "neutral", pack=q(310, "mL"))
BACKER = product("backer", "string", pack=q(50, "m"), width=q(8, "mm"))
LEVELLER = product("leveller", "flow", "", "cement", pack=q(25, "kg"), density=q("1.6", "kg/L"), water=q("0.2", "L/kg"))
SEALER = product("sealer", "stone-sealer", "", "solvent", pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
IMPREGNATOR = product("impregnator", "proofer", pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
GLUE = product("mirror-adhesive", "mirror-glue", "", "neutral", pack=q(310, "mL"))
MAT = product("heating", "mat", output=q(150, "W/m2"), voltage=q(230, "V"))


def tile(name: str, width: object, height: object, body: str = "porcelain", thickness: object = 9, **more: object) -> Tile:
    fields: dict[str, object] = dict(
        name=name,
        named=True,
        width=q(width, "mm"),
        height=q(height, "mm"),
        thickness=q(thickness, "mm"),
        body=body,
        mosaic=False,
        rectified=True,
        translucent=False,
        stone=body == "stone",
        porous=body == "stone",
        orientation="as written",
        weight=q(20, "kg/m2"),
        box=q(6, "count"),
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
        span=HERE,
    )
    fields.update(more)
    return Tile(**fields)  # type: ignore[arg-type]


FIELD = tile("field", 300, 300)
PLANK = tile("plank", 1200, 200)
WHITE = tile("white", 200, 200, "ceramic", 7)
MARBLE = tile("marble", 400, 400, "stone", 10)
PEBBLE = tile(
    "pebble",
    305,
    305,
    "stone",
    8,
    mosaic=True,
    translucent=True,
    chip_width=q(25, "mm"),
    chip_height=q(25, "mm"),
    chip_joint=q(2, "mm"),
)
TILES = (FIELD, PLANK, WHITE, MARBLE)


def laid(t: Tile, role: str = "field", region: Rect | None = None, pattern: str = "straight") -> Covering:
    return Covering(t, q(2 if role == "panel" else 3, "mm"), Pattern(pattern), Start(), region, role, HERE)


WALL_BASES = (
    "gypsum-plasterboard",
    "tile-backer-board",
    "cement-render",
    "gypsum-plaster",
    "cement-board",
    "gypsum-fibreboard",
    "not-stated",
)
OLD_WALLS = ("old-tiles", "painted")
FLOOR_BASES = ("cement-screed", "calcium-sulfate-screed", "concrete", "timber", "plywood", "cement-screed", "not-stated")
_GYPSUM = ("gypsum-plasterboard", "gypsum-plaster", "gypsum-fibreboard", "calcium-sulfate-screed")
BEGIN = date(2026, 3, 9)


def base(kind: str, rng: Random) -> Base:
    laid_on = None
    if kind in ("cement-screed", "calcium-sulfate-screed", "concrete") and rng.random() < 0.8:
        laid_on = BEGIN - timedelta(days=rng.choice((-10, 5, 30, 91, 400)))
    return Base(
        kind,
        said(kind),
        q(rng.choice((35, 50, 65)), "mm"),
        laid_on,
        absorbency=rng.choice(("normal", "high", "dense")),
        gypsum=kind in _GYPSUM,
        existing=kind in ("old-tiles", "painted"),
        span=HERE,
    )


def room(rng: Random, name: str) -> Room:
    """A room of four walls, dry or wet, with or without each thing that may be in one."""
    wet = rng.random() < 0.75
    has_floor = rng.random() < 0.85
    w, d, h = F(rng.randrange(16, 35), 10), F(rng.randrange(12, 30), 10), F(rng.randrange(22, 27), 10)
    size = {"A": w, "B": d, "C": w, "D": d}
    points = {"A": (F(0), F(0)), "B": (w, F(0)), "C": (w, d), "D": (F(0), d)}
    letters = "ABCD"
    lines = tuple(WallLine(a, points[a], points[letters[(i + 1) % 4]], q(size[a], "m"), True) for i, a in enumerate(letters))
    corners = tuple(Corner(letters[i - 1], a, points[a], True) for i, a in enumerate(letters))
    membrane = rng.choice((FILM, QUICK_FILM, SLURRY, LACQUER, THICK_FILM)) if wet else None
    adhesive, grout = rng.choice((ADHESIVE, FAST)), rng.choice((GROUT, GROUT, RESIN_GROUT))
    shared = [grout, rng.choice((SEALANT, SEALANT, ACETOXY)), BACKER]
    if rng.random() < 0.1:
        shared.append(RESIN_GROUT if grout is GROUT else GROUT)
    if membrane:
        shared += [membrane, TAPE, COLLAR]
    if rng.random() < 0.25:
        shared.append(rng.choice((IMPREGNATOR, STRONG_PROOFER, EPOXY_PROOFER, HARD_PROOFER)))
    tray = wet and rng.random() < 0.4
    shower = wet and rng.random() < 0.7
    bath = wet and rng.random() < 0.4
    level = shower and not tray and has_floor
    walls = []
    for a in letters:
        if rng.random() < (0.15 if wet else 0.4):
            continue
        walls.append(_wall(rng, name, a, size[a], h, membrane if a in "AD" else None, shared, adhesive, shower and a in "AD"))
    floor = _floor(rng, name, w, d, membrane, shared, adhesive, level) if has_floor else None
    if floor is None and not walls:
        floor = _floor(rng, name, w, d, membrane, shared, adhesive, level)
    heating = None
    if floor is not None and rng.random() < 0.5:
        kind = rng.choice(("mat", "cable", "pipes"))
        if kind == "pipes":
            floor = replace(floor, base=base(rng.choice(("cement-screed", "calcium-sulfate-screed")), rng))
        heating = Heating(
            kind, MAT, rng.choice((None, "A", "B")), (rect(0, 0, "0.4", "0.4"),) if rng.random() < 0.5 else (), HERE
        )
    build_up: list[tuple[str, Quantity]] = [("bed", q(4, "mm"))]
    if floor is not None and rng.random() < 0.4:
        build_up.insert(0, ("leveller", q(6, "mm")))
    if floor is not None and (build_up[0][0] == "leveller" or (heating and heating.kind == "cable")):
        floor = replace(floor, products=(*floor.products, LEVELLER))
    corner = rect(0, 0, "0.9", "0.9")
    return Room(
        name,
        said(name),
        q(h, "m"),
        Levels(tuple(build_up), q(30, "mm"), None, q(1, "m"), q(-10, "mm") if level else None),
        lines,
        corners,
        floor,
        tuple(walls),
        tuple(a for a in letters if a not in {s.letter for s in walls}),
        showers=(Shower(("D", "A"), corner, q("2.1", "m"), None, tray, rng.random() < 0.5, HERE),) if shower else (),
        baths=(Bath(("A", "B"), rect(0, 0, "0.7", "1.7"), q(560, "mm"), False, HERE),) if bath else (),
        basins=(Basin("D", q("0.3", "m"), q("0.6", "m"), q("0.85", "m"), HERE),) if rng.random() < 0.4 else (),
        fall=Fall(q("1/60", "slope"), rng.choice(("one", "two", "four")), HERE) if level else None,
        heating=heating,
        span=HERE,
    )


def _products(
    rng: Random, shared: list[Product], adhesive: Product, tiles: tuple[Tile, ...], membrane: Product | None
) -> tuple[Product, ...]:
    found = [p for p in shared if membrane is not None or p.kind not in ("membrane", "tape", "collar")]
    found.append(adhesive)
    if rng.random() < 0.85:
        found.append(PRIMER)
    if any(t.porous for t in tiles):
        found.append(rng.choice((SEALER, EPOXY_SEALER, HARD_SEALER)))
    return tuple(found)


def _adhesives(rng: Random, products: tuple[Product, ...]) -> tuple[Product, ...]:
    """Now and then a second adhesive, for one of the tiles."""
    return (*products, replace(FAST, name="band-bed")) if rng.random() < 0.1 else products


def _wall(
    rng: Random,
    name: str,
    letter: str,
    width: F,
    height: F,
    membrane: Product | None,
    shared: list[Product],
    adhesive: Product,
    wet: bool,
) -> Surface:
    t = rng.choice(TILES)
    coverings = [laid(t, pattern=rng.choice(("straight", "half", "diagonal")))]
    if rng.random() < 0.2:
        coverings.append(laid(PEBBLE, "band", rect(0, "1.2", width, "0.305")))
    panel = not wet and rng.random() < 0.15
    if panel:
        coverings = [laid(t, "panel", rect("0.2", "0.9", "0.6", "0.6"))]
    tiles = tuple(c.tile for c in coverings)
    if not wet and not membrane and rng.random() < 0.2:
        adhesive = PASTE
    fittings = []
    if rng.random() < 0.2:
        fittings.append(Fitting("mirror", None, rect("0.2", "1.2", "0.6", "0.8"), HERE))
    if rng.random() < 0.2:
        fittings.append(Fitting("fitting", said("rail"), rect("0.2", "0.9", "0.6", "0.1"), HERE, glued=letter == "B"))
    holes = []
    if wet and rng.random() < 0.8:
        holes.append(Penetration("valve", q("0.45", "m"), q("1.1", "m"), q(60, "mm"), span=HERE))
    if rng.random() < 0.2:
        holes.append(Penetration(rng.choice(("pipe", "socket")), q("0.9", "m"), q("0.5", "m"), q(30, "mm"), span=HERE))
    products = _adhesives(rng, _products(rng, shared, adhesive, tiles, membrane))
    if any(f.kind == "mirror" for f in fittings):
        products = (*products, GLUE)
    return Surface(
        f"{name}/wall {letter}",
        name,
        "wall",
        letter,
        f"wall {letter}",
        q(width, "m"),
        q(height, "m"),
        ((F(0), F(0)), (width, F(0)), (width, height), (F(0), height)),
        base(rng.choice(OLD_WALLS if rng.random() < 0.1 else WALL_BASES), rng),
        tuple(coverings),
        None,
        openings=(Opening("window", rect("0.3", "1.2", "0.5", "0.6"), None, HERE),)
        if rng.random() < 0.2
        else (Opening("door", rect("0.3", 0, "0.8", 2), None, HERE),)
        if letter == "C"
        else (),
        niches=(Niche(rect("0.5", "1.2", "0.3", "0.3"), q(90, "mm"), None, HERE),) if rng.random() < 0.1 else (),
        untiled=(rect("0.1", 0, "0.2", "0.2"),) if rng.random() < 0.15 else (),
        penetrations=tuple(holes),
        fittings=tuple(fittings),
        zones=(Zone("shower", None, "shower", HERE),) if wet else (),
        membrane_areas=(MembraneArea(None, "shower"),) if membrane else (),
        products=products,
        trims=(TrimRun("right", q(height, "m"), ANGLE, HERE),) if rng.random() < 0.1 else (),
        span=HERE,
    )


def _floor(
    rng: Random, name: str, w: F, d: F, membrane: Product | None, shared: list[Product], adhesive: Product, level: bool
) -> Surface:
    t = rng.choice((*TILES, PEBBLE))
    coverings = [laid(t, pattern=rng.choice(("straight", "third", "herringbone")))]
    if rng.random() < 0.2:
        coverings.append(laid(MARBLE, "panel", rect("0.3", "0.3", "0.4", "0.4")))
    with_membrane = membrane if level or (membrane and rng.random() < 0.6) else None
    drain = Penetration("drain", q("0.45", "m"), q("0.45", "m"), q(100, "mm"), span=HERE)
    channel = Penetration("channel", q("0.45", "m"), q("0.1", "m"), None, q("0.8", "m"), "A", span=HERE)
    holes = (rng.choice((drain, channel)),) if level else ()
    if rng.random() < 0.15:
        holes += (Penetration("pipe", q("1.2", "m"), q("0.3", "m"), q(30, "mm"), span=HERE),)
    fixtures = (
        (Fitting("fixture", said(rng.choice(("WC", "cupboard"))), rect(0, 0, "0.4", "0.6"), HERE),) if rng.random() < 0.3 else ()
    )
    return Surface(
        f"{name}/floor",
        name,
        "floor",
        "",
        "floor",
        q(w, "m"),
        q(d, "m"),
        ((F(0), F(0)), (w, F(0)), (w, d), (F(0), d)),
        base("old-tiles" if rng.random() < 0.1 else rng.choice(FLOOR_BASES), rng),
        tuple(coverings),
        None,
        penetrations=holes,
        fittings=fixtures,
        zones=(Zone("wet floor", None, "drain", HERE),) if level else (),
        membrane_areas=(MembraneArea(None, "floor"),) if with_membrane else (),
        untiled=(rect("0.1", "0.1", "0.2", "0.2"),) if rng.random() < 0.1 else (),
        trims=(TrimRun("left", q("0.8", "m"), ANGLE, HERE),) if rng.random() < 0.1 else (),
        products=_adhesives(rng, _products(rng, shared, adhesive, tuple(c.tile for c in coverings), with_membrane)),
        movement_joints=(MovementJoint(q("1", "m"), None, q(8, "mm"), HERE),) if w > 2 else (),
        span=HERE,
    )


STEPS = (
    ("after", "sealing"),
    ("before", "grouting"),
    ("after", "tiling"),
    ("before", "membrane"),
    ("after", "first fix"),
    ("after", "survey"),
)


def job(seed: int, **more: object) -> Job:
    """A random job; `more` replaces fields."""
    rng = Random(seed)
    rooms = tuple(room(rng, n) for n in ("Shower room", "Toilet", "Bathroom")[: rng.choice((1, 1, 2, 3))])
    steps = []
    for n in range(rng.choice((0, 0, 1, 2))):
        way, stage = rng.choice(STEPS)
        where = rng.choice((None, rooms[0].name))
        steps.append(
            TradeStep(
                said(f"Other work {'ab'[n]}"),
                said("glazier"),
                said(stage) if way == "after" else None,
                said(stage) if way == "before" else None,
                q(2, "h"),
                where,
                HERE,
            )
        )
    fields: dict[str, object] = dict(
        title=said("generated"),
        reference=None,
        revision=None,
        date=BEGIN,
        site=None,
        client=None,
        firm=None,
        author=None,
        family=rng.choice(("EN", "DE", "UK", "US", "AU")),
        family_given=True,
        begin=rng.choice((BEGIN, None)),
        hours=Hours((0, 1, 2, 3, 4), time(7, 30), time(16), True),
        crew=rng.choice(((("tiler", q(1, "count")),), (("tiler", q(1, "count")), ("helper", q(1, "count"))))),
        closed=(),
        built=rng.choice((None, None, q(1968, "year"), q(2021, "year"), q(2026, "year"))),
        occupied=rng.choice((None, True, False)),
        measured_to="bare wall",
        paper="A4",
        notice=q(24, "h"),
        conditions=Conditions(q(19, "C"), q(60, "%RH"), q(rng.choice((9, 13, 17, 21, 24)), "C")),
        rooms=rooms,
        steps=tuple(steps),
        deviations=(),
        records=_records(rng, rooms),
        firm_limits=(),
        questions=(Question("tile-thickness", "field", "survey", "?"),) if rng.random() < 0.3 else (),
        files=("test",),
        cutting=rng.choice((PLANNED, (Cutter("extraction-grinder", True),), (Cutter("snap"), Cutter("wet-hand-saw")))),
    )
    fields.update(more)
    return Job(**fields)  # type: ignore[arg-type]


def _records(rng: Random, rooms: tuple[Room, ...]) -> tuple[Record, ...]:
    found = []
    for r in rooms:
        if r.floor is not None and rng.random() < 0.3:
            reading = rng.choice((q("1.6", "CM%"), q("2.4", "CM%"), q(70, "%RH")))
            found.append(record("substrate-moisture", r.floor.id, reading=reading))
        if rng.random() < 0.2:
            found.append(
                record(rng.choice(("membrane", "substrate", "pressure-test")), r.name, result=rng.choice((None, "pass", "fail")))
            )
    return tuple(found)


def run(j: Job) -> Sequence:
    """The sequence of a job with the practice of its family."""
    limits = practice(j.family)
    return sequence(j, limits, measure(j, limits))


def record(kind: str, place: str, **more: object) -> Record:
    fields: dict[str, object] = dict(
        kind=said(kind),
        place=place,
        on=date(2026, 3, 6),
        by=said("J. Rook"),
        reading=None,
        depth=None,
        result=None,
        span=HERE,
    )
    fields.update(more)
    return Record(**fields)  # type: ignore[arg-type]
