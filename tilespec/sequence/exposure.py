"""Silica dust of the job by way of cutting: how long one worker is in it on a day, and what the methods come to side by side.

Eight-hour value: E = sum(C × T) / 8, 29 CFR 1910.1000(d)(1)(i); time without exposure counts as nought, the divisor stays eight.
This compares methods. What nobody was seen to have measured gets no figure, and no value here says that a method is safe.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tilespec.job.types import Cutter, Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Quantity, counted, work
from tilespec.quantity.total import total
from tilespec.sequence.site import Site
from tilespec.sequence.types import Dust, Exposure, Operation

FORMULA = "29 CFR 1910.1000(d)(1)(i)"
DRY = ("dry-saw", "dry-grinder")
EXTRACTED = ("extraction-saw", "extraction-grinder")
WET = ("wet-saw", "wet-hand-saw")
# Which named tool takes the cuts that are not snapped, first come: straight ones, and notches and slants.
_STRAIGHT = ("wet-saw", "wet-hand-saw", "extraction-saw", "dry-saw", "extraction-grinder", "dry-grinder")
_SHAPED = ("extraction-grinder", "dry-grinder", "wet-hand-saw", "wet-saw", "extraction-saw", "dry-saw")
# Where no tool is named beside `snap`: what makes least dust.
_UNSAID = Cutter("wet-saw")
_LAYING = ("wall-tiles", "floor-tiles", "bottom-course")
CUTTING = (*_LAYING, "bath-front")


# ---------------------------------------------------------------- the formula

def weighted(parts: Sequence[tuple[str, Quantity, Quantity]], practice: Practice) -> Quantity:
    """The eight-hour value of (name, concentration, time): each for its time, over the eight hours."""
    named: dict[str, Quantity] = {}
    for name, concentration, time in parts:
        named[f"{name}_concentration"], named[f"{name}_time"] = concentration, time
    terms = " + ".join(f"{name}_concentration * {name}_time" for name, _, _ in parts)
    return work(
        f"({terms}) / shift", parts[0][1].shown.symbol, source=FORMULA, **named, shift=practice.limit("exposure-shift"),
    )


def reaching(limit: Quantity, time: Quantity, practice: Practice) -> Quantity:
    """The concentration that reaches an eight-hour limit in this time alone."""
    return work(
        "limit * shift / time", limit.shown.symbol, source=f"{FORMULA}, turned round",
        limit=limit, shift=practice.limit("exposure-shift"), time=time,
    )


# ---------------------------------------------------------------- how much dust a method makes

@dataclass(frozen=True, slots=True)
class Band:
    """Respirable crystalline silica while a method runs. high None: no upper figure was seen."""

    low: Quantity
    high: Quantity | None


_SHARES = (
    ("engineered", ("engineered",)), ("sandstone", ("sandstone",)), ("slate", ("slate",)),
    ("limestone", ("marble", "limestone", "travertine")), ("cement", ("cement", "terrazzo")),
)


def _material(tile: Tile) -> str:
    """The material whose range of silica stands for the tile."""
    for key, words in _SHARES:
        if set(words).intersection(tile.words):
            return key
    return "granite" if tile.stone or tile.body == "stone" else "tile"


def band(method: str, tiles: Sequence[Tile], practice: Practice) -> Band | None:
    """What was seen of a method, over all tiles that it cuts; None: no figure was seen."""
    if method in DRY:
        return Band(reaching(practice.limit("dust-dry-limit"), practice.limit("dust-dry-time"), practice), None)
    if method not in EXTRACTED or not tiles:
        return None
    materials = list(dict.fromkeys(_material(t) for t in tiles))
    low = min((practice.limit(f"silica-share-{m}-low") for m in materials), key=lambda q: q.value)
    high = max((practice.limit(f"silica-share-{m}-high") for m in materials), key=lambda q: q.value)
    source = "the dust taken to hold as much silica as the tile"
    return Band(
        work("dust * share", "mg/m3", source=source, dust=practice.limit("dust-extraction-low"), share=low),
        work("dust * share", "mg/m3", source=source, dust=practice.limit("dust-extraction-high"), share=high),
    )


# ---------------------------------------------------------------- OSHA Table 1

def table_one(tasks: Sequence[tuple[str, bool, Quantity]], practice: Practice) -> tuple[Quantity | None, ...]:
    """The respirator of each task (method, outdoors, hours) of one shift; None where the family has no row for it.

    If the tasks that are on the table add up to more than four hours, each takes the respirator for more than four.
    """
    listed = [t for t in tasks if _row(t[0], t[1], "short", practice) is not None]
    column = "long" if listed and sum(t[2].value for t in listed) > practice.limit("table-1-hours").value else "short"
    return tuple(_row(method, outdoors, column, practice) for method, outdoors, _ in tasks)


def _row(method: str, outdoors: bool, column: str, practice: Practice) -> Quantity | None:
    place = "outdoors" if outdoors else "indoors"
    return practice.find(f"table-1-{method}-{place}-{column}") or practice.find(f"table-1-{method}-{column}")


# ---------------------------------------------------------------- the work of a job

def exposure(operations: tuple[Operation, ...], site: Site) -> Exposure:
    """The dusty work of the job as it is planned, and all of its cuts by the other methods, for comparison."""
    p = site.practice
    days = _days(operations, site)
    sawing = site.takeoff.sawing
    tiles = tuple(w.tile for w in sawing)
    planned = [d for d in (*_cuts(site, days), *_others(operations, site, days)) if d is not None]
    planned = [_with_band(d, tiles, p) for d in planned]
    if p.find("table-1-hours") is not None:
        # Old finishes come off in shifts of their own, before any tile is cut: they stand last.
        laying, breaking = ([d for d in planned if (d.work == "break-out") is old] for old in (False, True))
        planned = [*_respirators(laying, p), *_respirators(breaking, p)]
    known = [d for d in planned if d.low is not None]
    return Exposure(
        tuple(planned), _instead(site, tiles, days), p.limit("silica-limit"), p.find("silica-action"),
        _sum([(d.work, d.low) for d in known if d.low is not None], p),
        _sum([(d.work, d.high) for d in known if d.high is not None], p) if all(d.high is not None for d in known) else None,
        p.find("table-1-hours"), any(w.by_area for w in sawing),
    )


def _respirators(shift: list[Dust], p: Practice) -> list[Dust]:
    found = table_one([(d.method, d.outdoors, d.a_day) for d in shift], p)
    return [replace(d, respirator=factor) for d, factor in zip(shift, found, strict=True)]


def _sum(terms: list[tuple[str, Quantity]], p: Practice) -> Quantity | None:
    return total(terms, p.limit("silica-limit").shown.symbol, of="exposure", source=FORMULA) if terms else None


def _days(operations: tuple[Operation, ...], site: Site) -> Quantity:
    """Days over which the cutting is spread: as few as the laying can take, so that a day is rather too full."""
    laying = [(op.id, op.labour) for op in operations if op.kind in _LAYING and op.labour is not None]
    if not laying:
        return counted(1, "day of laying")
    return work(
        "max(1, floor(laying / (persons * shift)))", "count", source="everybody laying, in whole days",
        laying=total(laying, "h", of="laying", source="labour of all laying"), persons=site.persons(),
        shift=site.limit("exposure-shift"),
    )


def _dust(work_: str, cutter: Cutter, whole: Quantity | None, days: Quantity, site: Site) -> Dust | None:
    if whole is None or not whole.value:
        return None
    a_day = work(
        "min(time / days, shift)", "h", source="one worker does all of it", time=whole, days=days,
        shift=site.limit("exposure-shift"),
    )
    # Tenths of an hour say nothing about a few minutes.
    return Dust(work_, cutter.method, cutter.outdoors, whole, a_day if a_day.hours >= 2 else a_day.shown_in(UNITS["min"]))


def _cuts(site: Site, days: Quantity) -> list[Dust | None]:
    sawing, cutting = site.takeoff.sawing, site.job.cutting
    snap = next((c for c in cutting if c.method == "snap"), None)
    straight, shaped = _tool(cutting, _STRAIGHT), _tool(cutting, _SHAPED)
    snapped = [(w.name, w.snap) for w in sawing if w.snap is not None] if snap else []
    sawn = [(w.name, w.saw, w.time, w.length) for w in sawing if w.saw is not None]
    if not snap:
        sawn += [(w.name, w.snap, w.time, w.length) for w in sawing if w.snap is not None]
    notched = [(w.name, w.shaped, w.time, w.length) for w in sawing if w.shaped is not None]
    holes = [(w.name, w.holes) for w in sawing if w.holes is not None]
    found = []
    if snapped:
        time = work("length / rate", "h", source="length of the cuts over the pace of the cutter",
                    length=total(snapped, "m", of="cuts to snap"), rate=site.limit("snap-rate"))
        found.append(_dust("snapped-cuts", snap or _UNSAID, time, days, site))
    found.append(_dust("sawn-cuts", straight, _sawing(sawn), days, site))
    found.append(_dust("shaped-cuts", shaped, _sawing(notched), days, site))
    if holes:
        time = work("holes * time", "h", source="planning time",
                    holes=total(holes, "count", of="holes"), time=site.limit("time-hole"))
        found.append(_dust("holes", Cutter("wet-core"), time, days, site))
    return found


def _tool(cutting: tuple[Cutter, ...], order: tuple[str, ...]) -> Cutter:
    return next((c for method in order for c in cutting if c.method == method), _UNSAID)


def _sawing(cuts: list[tuple[str, Quantity, Quantity, Quantity]]) -> Quantity | None:
    """Time of some of the cuts, by their part of the time that all of them take at the saw."""
    terms = [
        (name, work("all_cuts * part / length", "h", source="part of the cuts", all_cuts=time, part=part, length=length))
        for name, part, time, length in cuts
    ]
    return total(terms, "h", of="sawing") if terms else None


def _others(operations: tuple[Operation, ...], site: Site, days: Quantity) -> list[Dust | None]:
    mixes = [(m.product.name, m.mixes) for m in site.takeoff.mixes if m.mixes is not None]
    mixing = None
    if mixes:
        mixing = work("mixes * time", "h", source="planning time",
                      mixes=total(mixes, "count", of="mixes"), time=site.limit("time-tip"))
    breaking = [(op.id, op.labour) for op in operations if op.kind == "strip-out" and op.labour is not None]
    strip_out = None
    if breaking:
        strip_out = work("labour / persons", "h", source="shared by the crew",
                         labour=total(breaking, "h", of="strip-out"), persons=site.persons())
    return [
        _dust("mixing", Cutter("mixing"), mixing, days, site),
        _dust("break-out", Cutter("break-out"), strip_out, counted(1, "day of breaking out, at least"), site),
    ]


def _with_band(d: Dust, tiles: tuple[Tile, ...], p: Practice) -> Dust:
    seen = band(d.method, tiles, p)
    if seen is None:
        return d
    shown = p.limit("silica-limit").shown
    low, high = (weighted([("method", c, d.a_day)], p).shown_in(shown) if c is not None else None for c in (seen.low, seen.high))
    return replace(d, low=low, high=high)


def _instead(site: Site, tiles: tuple[Tile, ...], days: Quantity) -> tuple[Dust, ...]:
    """All cuts of the job by the methods that have figures, planned or not, for the same time as at a wet saw."""
    if not tiles:
        return ()
    time = total([(w.name, w.time) for w in site.takeoff.sawing], "h", of="cuts")
    found = [_dust("all-cuts", Cutter(method), time, days, site) for method in ("extraction-grinder", "dry-grinder")]
    return tuple(_with_band(d, tiles, site.practice) for d in found if d is not None)


# ---------------------------------------------------------------- at the steps

def attach(operations: tuple[Operation, ...], site: Site) -> tuple[Operation, ...]:
    """The steps at which tile is cut, with how."""
    methods = {c.method for c in site.job.cutting}
    powered = methods - {"snap"} or {_UNSAID.method}
    facts = tuple(
        fact for fact, here in (
            ("cut-snap", "snap" in methods), ("cut-wet", bool(powered.intersection(WET))),
            ("cut-extraction", bool(powered.intersection(EXTRACTED))),
        ) if here
    )
    return tuple(replace(op, facts=(*op.facts, *facts)) if op.kind in CUTTING else op for op in operations)
