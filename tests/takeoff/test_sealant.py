"""Sealant and backer: sections, lengths, cartridges."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.takeoff.building import (
    DRY,
    HERE,
    MAT,
    SEALANT,
    Zone,
    box_room,
    en,
    job,
    laid,
    m,
    mm,
    q,
    rect,
    replace,
    surface,
    tile,
)
from tilespec.formula.movement import sealant_depth
from tilespec.job.types import Basin, Bath, Boxing, Fitting, Heating, MovementJoint, Niche, Opening, Room, Surface
from tilespec.quantity import work
from tilespec.takeoff import measure
from tilespec.takeoff.order import product_line
from tilespec.takeoff.types import Part, TakeOff


def walls_room(**more: object) -> Room:
    """2.4 × 1.8 × 2.4, all tiled, door 0.8 × 2.0 in C."""
    walls = (
        surface("A", "2.4", "2.4", laid(tile())),
        surface("B", "1.8", "2.4", laid(tile())),
        surface("C", "2.4", "2.4", laid(tile()), openings=(Opening("door", rect("0.9", 0, "0.8", 2), None, HERE),)),
        surface("D", "1.8", "2.4", laid(tile())),
    )
    floor = surface("floor", "2.4", "1.8", laid(tile("ft")), kind="floor")
    fields: dict[str, object] = {"floor": floor, "walls": walls} | more
    return box_room("2.4", "1.8", **fields)  # type: ignore[arg-type]


def lengths(taken: TakeOff, kind: str = "sealant") -> dict[tuple[str, str], F]:
    return {(p.place.removeprefix("room/"), p.role): p.measure.value for p in taken.lines_of(kind)[0].parts}


@pytest.mark.parametrize(
    ("width", "deep", "metres"),
    [
        (5, 5, 12.4),
        (6, 6, 8.61),
        (6, 3, 17.2),
        (8, 4, 9.7),
        (8, 8, 4.84),
        (10, 5, 6.2),
        (10, 10, 3.1),
        (12, 6, 4.31),
    ],
)
def test_metres_from_a_cartridge(width: int, deep: int, metres: float) -> None:
    """Worked example J3 and reference row L-08: 310 mL ÷ section."""
    bead = work("length * width * depth", "mL", source="test", length=m(1), width=mm(width), depth=mm(deep))
    assert float(q(310, "mL").value / bead.value) == pytest.approx(metres, abs=0.05)


def test_cartridges_for_a_perimeter() -> None:
    """Worked example J3: 9.6 m of 10 × 5: 1.548 cartridges of 310 mL; 10 % more is 1.703, so 2."""
    bead = work("length * width * depth", "mL", source="test", length=m("9.6"), width=mm(10), depth=mm(5))
    line = product_line(SEALANT, (Part("room", m("9.6"), bead),), "mL", en().limit("sealant-allowance"), "test")
    assert line.pack is not None and line.packs is not None
    assert float(line.net.value / line.pack.value) == pytest.approx(1.548, abs=0.001)
    assert float(line.gross.value / line.pack.value) == pytest.approx(1.703, abs=0.001)
    assert line.packs.value == 2


@pytest.mark.parametrize(
    ("family", "width", "deep"),
    [
        ("EN", 5, 5),
        ("EN", 10, 10),
        ("EN", 11, 6),
        ("EN", 16, 8),
        ("UK", 6, 6),
        ("US", F("6.35"), F("3.175")),
    ],
)
def test_depth_of_the_bead(family: str, width: object, deep: object) -> None:
    """Reference row G-22 (as deep as wide to 10 mm, then half, at least 6 mm); US, row G-06: half the width over backer rod."""
    assert sealant_depth(mm(width), en(family=family)).mm == deep


def test_edges_and_corners() -> None:
    """Reference rows G-04 and G-28: every wall foot but the doorway, every inside corner, around the door."""
    found = lengths(measure(job(walls_room()), en()))
    assert found == {
        ("wall A", "perimeter"): F("2.4"),
        ("wall B", "perimeter"): F("1.8"),
        ("wall C", "perimeter"): F("1.6"),
        ("wall D", "perimeter"): F("1.8"),
        ("wall A", "corner"): F("2.4"),
        ("wall B", "corner"): F("2.4"),
        ("wall C", "corner"): F("2.4"),
        ("wall D", "corner"): F("2.4"),
        ("wall C", "opening"): F("4.8"),
    }


def test_backer_behind_corners_and_edges_only() -> None:
    """Common practice, no source: string or backer behind corner sealant. 5 × 5 around the door needs none."""
    found = lengths(measure(job(walls_room()), en()), "backer")
    assert {role for _, role in found} == {"perimeter", "corner"}
    assert sum(found.values()) == F("7.6") + F("9.6")


def test_backer_wherever_the_joint_is_less_deep_than_wide() -> None:
    found = lengths(measure(job(walls_room()), en(("sealant-joint-fitting", mm(12)))), "backer")
    assert found[("wall C", "opening")] == F("4.8")


def test_a_heated_floor_moves_more() -> None:
    """Reference row G-14: 5 mm at the edge of a floor, 10 mm when it is heated: four times the section."""
    cold, warm = (
        next(p.net.value for p in measure(job(walls_room(heating=h)), en()).lines_of("sealant")[0].parts if p.role == "perimeter")
        for h in (None, Heating("mat", MAT, None, ()))
    )
    assert warm == 4 * cold


def test_corner_as_high_as_the_lower_tiling() -> None:
    room = walls_room()
    low = replace(room.wall_surfaces[1], tiled_height=m("1.2"))
    found = lengths(measure(job(replace(room, wall_surfaces=(room.wall_surfaces[0], low, *room.wall_surfaces[2:]))), en()))
    assert (found[("wall B", "corner")], found[("wall C", "corner")]) == (F("1.2"), F("1.2"))


def test_no_corner_joint_to_a_wall_that_is_not_tiled() -> None:
    room = walls_room()
    found = lengths(measure(job(replace(room, wall_surfaces=room.wall_surfaces[:2])), en()))
    assert {k for k, role in found if role == "corner"} == {"wall B"}


def test_bath_takes_the_place_of_the_edge() -> None:
    """Bath 1.7 × 0.7 in the corner of D and A: rim joints there, no wall foot behind it, corner only above the rim."""
    bath = Bath(("A", "D"), rect(0, 0, "1.7", "0.7"), m("0.55"), False)
    found = lengths(measure(job(walls_room(baths=(bath,))), en()))
    assert (found[("wall A", "bath")], found[("wall D", "bath")]) == (F("1.7"), F("0.7"))
    assert (found[("wall A", "perimeter")], found[("wall D", "perimeter")]) == (F("0.7"), F("1.1"))
    assert found[("wall A", "corner")] == F("2.4") - F("0.55")


def test_fittings_in_wet_areas_but_no_mirror() -> None:
    room = walls_room(basins=(Basin("B", m("0.4"), m("0.6"), m("0.85")),))
    things = (
        Fitting("fitting", None, rect("0.2", "1.0", "0.4", "0.1")),
        Fitting("mirror", None, rect("0.2", "1.3", "0.4", "0.5")),
        Fitting("fitting", None, rect("1.9", "1.0", "0.4", "0.1")),
    )
    first = replace(room.wall_surfaces[0], fittings=things, zones=(Zone("splash", rect(0, 0, 1, 2), "said"),))
    found = lengths(measure(job(replace(room, wall_surfaces=(first, *room.wall_surfaces[1:]))), en()))
    assert found[("wall A", "fitting")] == 1
    assert found[("wall B", "basin")] == F("0.6")


def test_inner_corners_of_a_niche() -> None:
    room = walls_room()
    first = replace(room.wall_surfaces[0], niches=(Niche(rect(1, 1, "0.3", "0.4"), m("0.1")),))
    found = lengths(measure(job(replace(room, wall_surfaces=(first, *room.wall_surfaces[1:]))), en()))
    assert found[("wall A", "niche")] == F("1.8")


def test_missing_products_are_said() -> None:
    room = walls_room()
    walls = tuple(replace(w, products=DRY[:2]) for w in room.wall_surfaces)
    assert room.floor is not None
    taken = measure(job(replace(room, wall_surfaces=walls, floor=replace(room.floor, products=DRY[:2]))), en())
    assert {(x.kind, x.lacks) for x in taken.missing} == {("sealant", "product"), ("backer", "product")}


@pytest.mark.parametrize(
    ("walls", "height", "metres"),
    [
        (("A", "D"), "2.4", "2.4"),
        (("A",), "2.4", "4.8"),
        (("A", "D"), "1.0", "1.5"),
        (("A",), "1.0", "2.3"),
    ],
)
def test_corners_of_a_boxing(walls: tuple[str, ...], height: str, metres: str) -> None:
    """0.3 × 0.2 in plan: in a corner one corner more, on a wall two; a low one also has its top against the walls."""
    boxing = Boxing(rect(0, 0, "0.3", "0.2"), m(height), walls)
    assert lengths(measure(job(walls_room(boxings=(boxing,))), en()))[("wall A", "boxing")] == F(metres)


def moving(s: Surface, *joints: MovementJoint) -> Surface:
    return replace(s, movement_joints=joints)


def test_a_movement_joint_is_as_long_as_what_it_crosses() -> None:
    """Computed: across a floor 1.8 m deep, up a wall 2.4 m high, level over its 1.8 m."""
    room = walls_room()
    assert room.floor is not None
    walls = (
        moving(room.wall_surfaces[0], MovementJoint(m("1.2"), None, mm(8))),
        moving(room.wall_surfaces[1], MovementJoint(None, m("1.2"), mm(8), depth=mm(5))),
        *room.wall_surfaces[2:],
    )
    taken = measure(job(walls_room(floor=moving(room.floor, MovementJoint(m("1.2"), None, mm(12))), walls=walls)), en())
    found = {p.place.removeprefix("room/"): p for p in taken.lines_of("sealant")[0].parts if p.role == "movement"}
    assert {k: p.measure.value for k, p in found.items()} == {"floor": F("1.8"), "wall A": F("2.4"), "wall B": F("1.8")}
    # 12 mm wide: half as deep; 8 mm: as deep as wide; 5 mm as said.
    sections = {k: p.net.value / p.measure.value * 10**6 for k, p in found.items()}
    assert sections == {"floor": 72, "wall A": 64, "wall B": 40}
    assert ("floor", "movement") in lengths(taken, "backer")


def test_the_edge_is_as_wide_as_the_spec_says() -> None:
    room = walls_room()
    assert room.floor is not None
    wide = walls_room(floor=replace(room.floor, perimeter_joint=mm(10)))
    lines = [measure(job(r), en()).lines_of("sealant")[0] for r in (room, wide)]
    edges = [[p.net.value for p in line.parts if p.role == "perimeter"] for line in lines]
    usual, said = (e[0] for e in edges)
    # 10 x 10 mm against 5 x 5.
    assert said == 4 * usual


def test_a_movement_joint_of_a_wall_that_is_tiled_half_way_up() -> None:
    room = walls_room()
    low = replace(moving(room.wall_surfaces[0], MovementJoint(m("1.2"), None, mm(8))), tiled_height=m("1.2"))
    taken = measure(job(walls_room(walls=(low, *room.wall_surfaces[1:]))), en())
    assert lengths(taken)[("wall A", "movement")] == F("1.2")
