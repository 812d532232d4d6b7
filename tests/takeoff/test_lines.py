"""Leveller, trims, mirrors, sealers; and what holds for every line: whole packs, reasons, scaling, order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.takeoff.building import (
    ALL,
    DRY,
    HERE,
    LEVELLER,
    MAT,
    MIRROR,
    MembraneArea,
    box_room,
    en,
    floor_job,
    job,
    laid,
    m,
    mm,
    q,
    rect,
    replace,
    surface,
    tile,
    wall_job,
)
from tilespec.job.types import Fitting, Heating, Job, Levels, Niche, Opening, Penetration, Product, TrimRun
from tilespec.quantity import Counted, Quantity, Worked
from tilespec.takeoff import measure
from tilespec.takeoff.types import TakeOff


def test_leveller_from_the_build_up() -> None:
    """4.32 m² × 6 mm × 1.6 kg/m² and mm = 41.472 kg; 10 % more is 45.6 kg: two bags of 25 kg."""
    s = surface("floor", "2.4", "1.8", laid(tile()), kind="floor", products=(LEVELLER, *DRY))
    levels = Levels((("leveller", mm(6)), ("membrane", mm(1)), ("bed", mm(4))), None, None, m(1), None)
    line = measure(floor_job(s, levels=levels), en()).lines_of("leveller")[0]
    assert line.net.value == F("41.472") and line.packs is not None and line.packs.value == 2
    assert not measure(floor_job(s), en()).lines_of("leveller")


def test_trims_in_whole_lengths() -> None:
    """2.4 m and 2 × 1.2 m: 4.8 m, with 10 % for mitres 5.28 m: three lengths of 2.5 m."""
    trim = Product("edge", "trim", (), False, pack=m("2.5"))
    s = surface(
        "A", "2.4", "2.4", laid(tile()), trims=(TrimRun("top", m("2.4"), trim), TrimRun("external corner", m("2.4"), trim))
    )
    line = measure(wall_job(s), en()).lines_of("trim")[0]
    assert (line.net.value, line.gross.value) == (F("4.8"), F("5.28"))
    assert line.packs is not None and line.packs.value == 3
    assert [p.role for p in line.parts] == ["top", "external-corner"]


@pytest.mark.parametrize(
    ("width", "height", "beads"), [("0.6", "0.8", 5), ("0.3", "0.8", 3), ("0.15", "0.8", 2), ("1.2", "0.8", 9)]
)
def test_mirror_beads(width: str, height: str, beads: int) -> None:
    """Common practice, no source: vertical beads at most 150 mm apart, 50 mm from the edge, 8 × 8 mm."""
    s = surface(
        "A",
        "2.4",
        "2.4",
        laid(tile()),
        products=(*DRY, MIRROR),
        fittings=(Fitting("mirror", None, rect("0.2", 1, width, height)),),
    )
    line = measure(wall_job(s), en()).lines_of("mirror-adhesive")[0]
    assert line.parts[0].measure.value == beads * (F(height) - F("0.1"))
    assert line.net.value == beads * (F(height) - F("0.1")) * F("0.008") ** 2


def test_porous_tiles_are_sealed() -> None:
    """The generic sealer only where the tile is porous, a named one where the spec puts it."""
    generic = Product("sealer", "sealer", (), True, pack=q(1, "kg"), consumption=q("0.1", "kg/m2"))
    s = surface(
        "A",
        4,
        3,
        laid(tile()),
        laid(tile("stone", porous=True), region=rect(0, 1, 4, "0.5"), role="band"),
        products=(*DRY, generic),
    )
    lines = measure(wall_job(s), en()).lines_of("sealer")
    assert [(p.role, p.measure.value) for p in lines[0].parts] == [("band", 2)]
    named = replace(s, products=(*DRY, replace(generic, generic=False)))
    assert measure(wall_job(named), en()).lines_of("sealer")[0].net.value == F("1.2")
    without = measure(wall_job(replace(s, products=DRY)), en())
    assert ("sealer", "product") in [(x.kind, x.lacks) for x in without.missing]


def full_job(k: F = F(1)) -> Job:
    """Everything at once, each length k times as long."""
    t = tile("wall", 600, 300)

    def r(x: str, y: str, w: str, h: str) -> object:
        return rect(F(x) * k, F(y) * k, F(w) * k, F(h) * k)

    def wall(letter: str, width: str, **more: object) -> object:
        areas = (MembraneArea(r("0", "0", width, "0.1"), "upstand"), MembraneArea(r("0.2", "0", "0.9", "2.2"), "shower"))  # type: ignore[arg-type]
        return surface(
            letter, F(width) * k, F("2.4") * k, laid(t, pattern="third"), products=(*ALL, MIRROR), membrane_areas=areas, **more
        )  # type: ignore[arg-type]

    walls = (
        wall(
            "A",
            "2.4",
            niches=(Niche(r("0.4", "1", "0.3", "0.3"), m(F("0.1") * k)),),  # type: ignore[arg-type]
            penetrations=(Penetration("valve", m(F("0.5") * k), m(k), span=HERE),),
        ),
        wall("B", "1.8", openings=(Opening("window", r("0.5", "1.2", "0.6", "0.9"), m(F("0.1") * k), HERE),)),  # type: ignore[arg-type]
        wall("C", "2.4", openings=(Opening("door", r("0.9", "0", "0.8", "2"), None, HERE),)),  # type: ignore[arg-type]
        wall("D", "1.8", fittings=(Fitting("mirror", None, r("0.2", "1.2", "0.6", "0.8")),)),  # type: ignore[arg-type]
    )
    floor = surface(
        "floor",
        F("2.4") * k,
        F("1.8") * k,
        laid(tile("floor")),
        kind="floor",
        products=(LEVELLER, *ALL),
        membrane_areas=(MembraneArea(None, "floor"),),
        penetrations=(Penetration("drain", m(k), m(k), span=HERE),),
    )
    levels = Levels((("leveller", mm(6)),), None, None, m(1), None)
    return job(
        box_room(F("2.4") * k, F("1.8") * k, F("2.4") * k, floor, walls, heating=Heating("mat", MAT, "B", ()), levels=levels)
    )  # type: ignore[arg-type]


def quantities(node: object) -> Iterator[Quantity]:
    if isinstance(node, Quantity):
        yield node
        if isinstance(node.why, Worked):
            for _, q_ in node.why.inputs:
                yield from quantities(q_)
    elif isinstance(node, tuple):
        for item in node:
            yield from quantities(item)
    elif is_dataclass(node) and not isinstance(node, type):
        for f in fields(node):
            yield from quantities(getattr(node, f.name))


def test_every_number_has_a_reason_that_can_be_followed() -> None:
    """Nothing is worked out from nothing, and every source is named."""
    found = list(quantities(measure(full_job(), en())))
    assert len(found) > 500
    for quantity in found:
        if isinstance(quantity.why, Worked):
            assert quantity.why.inputs and quantity.why.source and quantity.why.formula
            names = [name for name, _ in quantity.why.inputs]
            assert all(name in quantity.why.formula or "place where" in quantity.why.formula for name in names)
        elif isinstance(quantity.why, Counted):
            assert quantity.why.of


def check_packs(taken: TakeOff) -> None:
    for line in taken.lines:
        if line.packs is None or line.pack is None or line.kind == "heating":
            continue
        needed = line.pieces if line.kind == "tile" else line.gross
        assert needed is not None
        assert line.packs.value * line.pack.value >= needed.value > (line.packs.value - 1) * line.pack.value
        assert line.gross.value >= line.net.value


def test_whole_packs_of_everything() -> None:
    taken = measure(full_job(), en())
    check_packs(taken)
    assert {line.kind for line in taken.lines} == {
        "tile",
        "heating",
        "leveller",
        "primer",
        "membrane",
        "tape",
        "collar",
        "adhesive",
        "grout",
        "sealant",
        "backer",
        "mirror-adhesive",
    }
    assert taken.missing == ()


LINEAR = ("tape", "backer")
PLANE = ("tile", "primer", "membrane", "grout", "leveller")


@settings(max_examples=15, deadline=None)
@given(st.integers(2, 12))
def test_scaling_the_room(k: int) -> None:
    """k times as large: lengths k times, areas k² times, counts alike. (Products, joints and thicknesses stay.)"""
    one = measure(full_job(), en(("tile-small-area", q(0, "m2"))))
    many = measure(full_job(F(k)), en(("tile-small-area", q(0, "m2"))))
    check_packs(many)
    for kind, power in [(x, 1) for x in LINEAR] + [(x, 2) for x in PLANE] + [("collar", 0)]:
        a, b = ([line.net.value for line in t.lines_of(kind) if not line.role] for t in (one, many))
        assert b == [x * k**power for x in a], kind


@settings(max_examples=40, deadline=None)
@given(
    st.integers(10, 80),
    st.integers(1, 40),
    st.sampled_from(["tile", "adhesive", "grout", "primer", "membrane", "sealant", "tape"]),
)
def test_more_wall_never_takes_less(width: int, more: int, kind: str) -> None:
    def net(w: F) -> F:
        s = surface(
            "A",
            w,
            "2.4",
            laid(tile()),
            products=ALL,
            membrane_areas=(MembraneArea(None, "said"),),
            openings=(Opening("window", rect("0.2", 1, "0.5", "0.5"), m("0.1"), HERE),),
        )
        return sum((line.gross.value for line in measure(wall_job(s), en()).lines_of(kind)), F(0))

    assert net(F(width + more, 10)) >= net(F(width, 10)) > 0


@settings(max_examples=20, deadline=None)
@given(
    st.sampled_from(["adhesive", "grout", "primer", "membrane", "tape", "sealant", "backer"]),
    st.integers(0, 60),
    st.integers(0, 60),
)
def test_more_allowance_never_takes_less(kind: str, percent: int, more: int) -> None:
    low = measure(full_job(), en((f"{kind}-allowance", q(percent, "%")))).lines_of(kind)[0]
    high = measure(full_job(), en((f"{kind}-allowance", q(percent + more, "%")))).lines_of(kind)[0]
    assert high.gross.value >= low.gross.value and high.packs is not None and low.packs is not None
    assert high.packs.value >= low.packs.value


def test_a_job_without_tiles_takes_nothing() -> None:
    taken = measure(job(box_room(2, 2)), en())
    assert taken.lines == () and taken.mixes == () and taken.missing == ()
    bare = measure(wall_job(surface("A", 2, 2)), en())
    assert bare.lines == () and bare.measure("room/wall A").tiled_area.value == 0


def test_same_job_same_take_off() -> None:
    assert repr(measure(full_job(), en())) == repr(measure(full_job(), en()))
