"""A job as things with facts: the form in which two jobs are held against each other.

Types of the stages are read field by field, so that a new field is compared without being named here. What is derived from
other fields, or only says how something was written, is left out by name.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields, is_dataclass
from datetime import date, time
from enum import Enum
from fractions import Fraction

from tilespec.compare.types import Fact, Value
from tilespec.job import types as job
from tilespec.quantity import Quantity
from tilespec.sequence import types as steps
from tilespec.takeoff import types as takeoff


@dataclass(frozen=True, slots=True)
class Thing:
    """label: how people call it; several beside each other may share one."""

    label: str
    facts: tuple[Fact, ...] = ()
    things: tuple[Thing, ...] = ()


_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

# Fields that say nothing of their own: names that label the thing, what follows from others, how it was written.
_LEFT_OUT: dict[type, frozenset[str]] = {
    job.Tile: frozenset({"name", "named", "words"}),
    job.Product: frozenset({"name", "kind"}),
    job.Base: frozenset({"words", "absorbency", "gypsum", "carries", "weight_limit_key"}),
    job.Pattern: frozenset({"given"}),
    job.Opening: frozenset({"kind"}),
    job.Penetration: frozenset({"kind", "label"}),
    job.Fitting: frozenset({"kind", "label"}),
    job.Zone: frozenset({"exposure", "cause"}),
    job.MembraneArea: frozenset({"reason", "basis"}),
    job.Covering: frozenset({"role"}),
    job.TrimRun: frozenset({"place"}),
    job.WaitData: frozenset({"before"}),
    job.Surface: frozenset({"id", "room", "kind", "letter", "title", "outline", "base", "coverings", "products"}),
    job.Room: frozenset({"name", "words", "walls", "corners", "floor", "wall_surfaces"}),
    job.Heating: frozenset({"kind"}),
    job.Hours: frozenset({"given"}),
    job.Deviation: frozenset({"rule", "place"}),
    job.Record: frozenset({"kind", "place", "on"}),
    job.Delivery: frozenset({"tile"}),
    job.Note: frozenset({"about"}),
    job.FirmLimit: frozenset({"key"}),
    job.Question: frozenset({"topic", "about", "limits"}),
    job.Job: frozenset({
        "family_given", "rooms", "steps", "deviations", "records", "questions", "files", "declared",
    }),
    takeoff.Line: frozenset({
        "kind", "name", "item", "parts", "role", "packs", "whole", "left", "pack_weight", "piece_weight",
    }),
    takeoff.Missing: frozenset({"kind", "name"}),
    takeoff.Mix: frozenset({"product", "spread_rate"}),
    takeoff.Notch: frozenset({"place", "tile"}),
    takeoff.HeatingMeasure: frozenset({"room"}),
    steps.Operation: frozenset({"id", "kind", "stage", "room", "after", "point", "title", "facts", "values", "hazards", "loads"}),
    steps.Test: frozenset({"what", "places", "values"}),
}

# Where the name of a field is not what a tiler would say.
_SAID: dict[tuple[type, str], str] = {
    (job.Rect, "x"): "from left",
    (job.Rect, "y"): "up",
    (job.Penetration, "x"): "from left",
    (job.Penetration, "y"): "up",
    (job.Basin, "x"): "from left",
    (job.Tile, "work_width"): "measured width",
    (job.Tile, "work_height"): "measured height",
    (job.Tile, "dcof"): "friction (DCOF)",
    (job.Product, "cls"): "class",
    (job.Product, "for_"): "for",
    (job.Product, "flags"): "is",
    (job.Product, "packed"): "packed on",
    (job.Product, "temperature_min"): "temperature from",
    (job.Product, "temperature_max"): "temperature to",
    (job.Start, "across"): "start across",
    (job.Start, "up"): "start up",
    (job.Start, "x"): "start from left",
    (job.Start, "y"): "start at height",
    (job.Start, "follows"): "joints run on from",
    (job.Pattern, "name"): "pattern",
    (job.Pattern, "second"): "second tile",
    (job.Base, "kind"): "base",
    (job.Base, "laid"): "laid on",
    (job.Covering, "border"): "width of border",
    (job.Levels, "total"): "build-up together",
    (job.Levels, "hall"): "hall floor",
    (job.Levels, "datum"): "datum",
    (job.Levels, "drain_grate"): "grate of drain",
    (job.Fall, "slope"): "fall",
    (job.Fall, "planes"): "planes of fall",
    (job.Heating, "product"): "heating",
    (job.Heating, "sensor_wall"): "sensor at wall",
    (job.Room, "rcd"): "RCD trips at",
    (job.Room, "not_stated"): "walls not described",
    (job.Hours, "days"): "working days",
    (job.Hours, "start"): "work begins at",
    (job.Hours, "end"): "work ends at",
    (job.Job, "family"): "practice",
    (job.Job, "begin"): "begins on",
    (job.Job, "closed"): "closed on",
    (job.Job, "date"): "dated",
    (job.Job, "built"): "building from",
    (job.Job, "measured_to"): "rooms measured to",
    (job.Job, "notice"): "notice before a hold point",
    (job.Conditions, "air"): "air temperature",
    (job.Conditions, "surface"): "surface temperature",
    (takeoff.HeatingMeasure, "resistance_low"): "least resistance",
    (takeoff.HeatingMeasure, "resistance_high"): "greatest resistance",
    (takeoff.Line, "net"): "the work takes",
    (takeoff.Line, "gross"): "with allowance",
    (takeoff.Line, "cut"): "tiles cut up",
    (steps.Test, "upper"): "upper limit",
    (steps.Test, "compare"): "to be",
}

# The same on a floor: what is measured up on a wall is measured from wall A there, and nothing on it is high.
_ON_PLAN: dict[tuple[type, str], str] = {
    (job.Rect, "y"): "from wall A",
    (job.Rect, "height"): "depth",
    (job.Penetration, "y"): "from wall A",
    (job.Surface, "height"): "depth",
}

# Fields that hold a wording key.
_KEYS = frozenset({(job.Base, "kind"), (job.Cutter, "method")})

# Two values of one field, by what each is.
_PAIRS: dict[tuple[type, str], tuple[str, str]] = {
    (job.Surface, "measured_heights"): ("height measured left", "height measured right"),
    (job.Room, "diagonals"): ("one diagonal", "other diagonal"),
    (job.Penetration, "covers"): ("least cover", "most cover"),
    (job.Product, "thick"): ("thinnest tile", "thickest tile"),
    (job.Delivery, "width"): ("least width", "greatest width"),
    (job.Delivery, "height"): ("least height", "greatest height"),
}


def plain(key: str) -> str:
    """A wording key as words."""
    return key.replace("-", " ").replace("_", " ")


def thing(label: str, *parts: object, facts: Iterable[Fact] = (), things: Iterable[Thing] = (), plan: bool = False) -> Thing:
    """A thing with what `parts`, frozen data of a stage, say of it. `plan`: it lies on a floor."""
    own, inner = list(facts), list(things)
    for part in parts:
        _read(part, own, inner, plan)
    return Thing(label, tuple(own), tuple(inner))


def place(surface: job.Surface) -> str:
    return surface.title.partition(",")[0]


def _read(part: object, own: list[Fact], inner: list[Thing], plan: bool) -> None:
    """Facts that are said of the part itself; parts in it that stand alone become things."""
    assert is_dataclass(part) and not isinstance(part, type)
    of = type(part)
    left_out = _LEFT_OUT.get(of, frozenset())
    for f in fields(part):
        if not f.compare or f.name in left_out:
            continue
        value: object = getattr(part, f.name)
        if value is None or value is False or value == () or value == "":
            continue
        if of is job.Start and value == "found":    # nobody said it: the set-out tells where it starts
            continue
        what = (_ON_PLAN.get((of, f.name)) if plan else None) or _SAID.get((of, f.name), plain(f.name))
        if isinstance(value, tuple):
            _several(value, what, _PAIRS.get((of, f.name)), own, inner, plan)
        elif (one := _value(value)) is not None:
            own.append(Fact(what, plain(one) if isinstance(one, str) and (of, f.name) in _KEYS else one))
        else:
            _read(value, own, inner, plan)


def _several(
    values: tuple[object, ...], what: str, pair: tuple[str, str] | None, own: list[Fact], inner: list[Thing], plan: bool,
) -> None:
    if pair is not None:
        for name, value in zip(pair, values, strict=True):
            assert isinstance(value, Quantity)
            own.append(Fact(name, value))
    elif all(isinstance(v, tuple) for v in values):
        # (name, value): crew, build-up, values of a step.
        for v in values:
            assert isinstance(v, tuple) and isinstance(v[1], Quantity)
            own.append(Fact(f"{what}: {v[0]}" if what != "values" else str(v[0]), v[1]))
    elif all(is_dataclass(v) and not isinstance(v, Quantity | job.Words | job.Product | job.Tile) for v in values):
        inner += [thing(label(v, what), v, plan=plan) for v in values]
    else:
        own.append(Fact(what, ", ".join(_word(v) for v in values)))


def _value(value: object) -> Value | None:
    """As one fact, or None where it is something with facts of its own."""
    match value:
        case True:
            return "yes"
        case Quantity() | date():
            return value
        case time():
            return f"{value:%H:%M}"
        case str() | int() | job.Words() | Enum() | job.Tile() | job.Product():
            return _word(value)
    return None


def _word(value: object) -> str:
    match value:
        case str():
            return value
        case int():
            return _DAYS[value]     # the only numbers without a unit
        case job.Tile() | job.Product():
            return value.name
        case Enum():
            return str(value.value)
        case date():
            return value.isoformat()
    return str(value)


def label(part: object, field: str) -> str:
    """How a part of something is called beside its likes."""
    match part:
        case job.Penetration() | job.Fitting() if part.label:
            return f"{part.kind} {part.label}"
        case job.Opening() | job.Penetration() | job.Fitting():
            return part.kind
        case job.Zone():
            return f"wet area ({part.exposure})"
        case job.MembraneArea():
            return f"membrane ({plain(part.reason)})"
        case job.TrimRun():
            return f"trim ({part.place})"
        case job.WaitData():
            return f"wait before {part.before}"
        case job.Shower() | job.Bath() | job.Boxing():
            return type(part).__name__.lower()
        case job.Basin():
            return f"basin on wall {part.wall}"
        case job.Delivery():
            return f"delivery of {part.tile.name}"
        case job.Note():
            return f"note at {part.about}"
        case job.FirmLimit():
            return f"limit {part.key}"
        case job.Cutter():
            return "way of cutting"
        case steps.Test():
            return plain(part.what)
    return {"untiled": "untiled area", "keep out": "left without heating", "niches": "niche"}.get(field, field.removesuffix("s"))


def outline(points: Sequence[job.Point]) -> str | None:
    """Corners of a surface that is no upright rectangle, in millimetres."""
    xs, ys = {x for x, _ in points}, {y for _, y in points}
    if len(points) == 4 and len(xs) == len(ys) == 2:
        return None
    return " – ".join(f"{_mm(x)}, {_mm(y)}" for x, y in points)


def _mm(length: Fraction) -> str:
    text = f"{float(length * 1000):.1f}"
    return text.removesuffix(".0")
