"""The full shower room, and others made from it: the same as the example of the boathouse, built by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction as F

from tests.sequence.building import (
    ADHESIVE,
    BACKER,
    COLLAR,
    FIELD,
    GLUE,
    GROUT,
    HERE,
    LEVELLER,
    MAT,
    PEBBLE,
    PRIMER,
    QUICK_FILM,
    SEALANT,
    SEALER,
    TAPE,
    job,
    laid,
    q,
    rect,
    said,
    waits,
)
from tilespec.job.types import (
    Base,
    Conditions,
    Corner,
    Fall,
    Fitting,
    Heating,
    Job,
    Levels,
    MembraneArea,
    Opening,
    Penetration,
    Room,
    Shower,
    Surface,
    TradeStep,
    WallLine,
    Zone,
)

DECLARED_PRIMER = replace(PRIMER, waits=waits(membrane="4 h to 24 h"))
WET = (DECLARED_PRIMER, QUICK_FILM, TAPE, COLLAR, ADHESIVE, GROUT, SEALANT, BACKER)
DRY = (DECLARED_PRIMER, ADHESIVE, GROUT, SEALANT, BACKER)


def _wall(letter: str, width: str, base: str, wet: bool, **more: object) -> Surface:
    w, h = F(width), F("2.4")
    fields: dict[str, object] = dict(
        coverings=(laid(FIELD),),
        products=WET if wet else DRY,
        zones=(Zone("shower", None, "shower", HERE),) if wet else (),
        membrane_areas=(MembraneArea(None, "shower"),) if wet else (),
    )
    fields.update(more)
    return Surface(
        f"Shower room/wall {letter}",
        "Shower room",
        "wall",
        letter,
        f"wall {letter}",
        q(width, "m"),
        q("2.4", "m"),
        ((F(0), F(0)), (w, F(0)), (w, h), (F(0), h)),
        Base(base, said(base), gypsum="gypsum" in base, span=HERE),
        tiled_height=None,
        span=HERE,
        **fields,  # type: ignore[arg-type]
    )


def shower_room() -> Job:
    """One room: level shower in corner D A, heating mat, band of translucent pebbles, mirror, glazier's step, a declared film."""
    w, d = F("2.4"), F("1.8")
    points = {"A": (F(0), F(0)), "B": (w, F(0)), "C": (w, d), "D": (F(0), d)}
    floor = Surface(
        "Shower room/floor",
        "Shower room",
        "floor",
        "",
        "floor",
        q("2.4", "m"),
        q("1.8", "m"),
        tuple(points.values()),
        Base("cement-screed", said("cement screed"), q(65, "mm"), date(2025, 12, 8), span=HERE),
        (laid(FIELD),),
        None,
        penetrations=(Penetration("drain", q("0.45", "m"), q("0.45", "m"), q(100, "mm"), span=HERE),),
        zones=(Zone("wet floor", None, "drain", HERE),),
        membrane_areas=(MembraneArea(None, "floor"),),
        products=(*WET, LEVELLER),
        span=HERE,
    )
    walls = (
        _wall(
            "A",
            "2.4",
            "tile-backer-board",
            True,
            coverings=(laid(FIELD), laid(PEBBLE, "band", rect(0, "1.2", "2.4", "0.305"))),
            products=(*WET, SEALER),
            penetrations=(Penetration("valve", q("0.45", "m"), q("1.1", "m"), q(60, "mm"), span=HERE),),
        ),
        _wall(
            "B", "1.8", "gypsum-plasterboard", False, openings=(Opening("window", rect("0.6", "1.2", "0.6", "0.9"), None, HERE),)
        ),
        _wall("C", "2.4", "gypsum-plasterboard", False, openings=(Opening("door", rect("0.9", 0, "0.8", 2), None, HERE),)),
        _wall(
            "D",
            "1.8",
            "tile-backer-board",
            True,
            products=(*WET, GLUE),
            fittings=(Fitting("mirror", None, rect("0.15", "1.2", "0.6", "0.8"), HERE),),
        ),
    )
    room = Room(
        "Shower room",
        said("Shower room"),
        q("2.4", "m"),
        Levels(
            (("leveller", q(6, "mm")), ("membrane", q(1, "mm")), ("bed", q(4, "mm"))),
            q(76, "mm"),
            q(10, "mm"),
            q(1, "m"),
            q(-8, "mm"),
        ),
        tuple(
            WallLine(a, points[a], points["ABCD"[("ABCD".index(a) + 1) % 4]], q("2.4" if a in "AC" else "1.8", "m"), True)
            for a in "ABCD"
        ),
        tuple(Corner("DABC"[i], "ABCD"[i], points["ABCD"[i]], True) for i in range(4)),
        floor,
        walls,
        (),
        showers=(Shower(("D", "A"), rect(0, 0, "0.9", "0.9"), q("2.1", "m"), "A", False, True, HERE),),
        fall=Fall(q("1/60", "slope"), "four", HERE),
        heating=Heating("mat", MAT, "B", (), HERE),
        span=HERE,
    )
    step = TradeStep(said("Fit shower screen"), said("glazier"), said("sealing"), None, q(3, "h"), None, HERE)
    return job(
        0,
        rooms=(room,),
        steps=(step,),
        records=(),
        built=None,
        family="EN",
        begin=date(2026, 3, 9),
        occupied=None,
        questions=(),
        crew=(("tiler", q(1, "count")), ("helper", q(1, "count"))),
        conditions=Conditions(q(19, "C"), q(60, "%RH"), q(17, "C")),
    )


def dry_floor() -> Job:
    """A hall floor on concrete and nothing else."""
    j = shower_room()
    room = j.rooms[0]
    assert room.floor is not None
    floor = replace(
        room.floor,
        base=Base("concrete", said("concrete"), None, date(2024, 5, 6), span=HERE),
        penetrations=(),
        zones=(),
        membrane_areas=(),
        products=DRY,
    )
    bare = replace(
        room,
        floor=floor,
        wall_surfaces=(),
        not_stated=("A", "B", "C", "D"),
        showers=(),
        fall=None,
        heating=None,
        levels=replace(room.levels, build_up=(("bed", q(4, "mm")),), drain_grate=None),
    )
    return replace(j, rooms=(bare,), steps=())
