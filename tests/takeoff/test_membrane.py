"""Membrane, tape, collars and primer. Lengths by plain arithmetic; planning values from the values list."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.takeoff.building import (
    ADHESIVE,
    ALL,
    COLLAR,
    GROUT,
    HERE,
    MEMBRANE,
    PRIMER,
    TAPE,
    MembraneArea,
    box_room,
    en,
    job,
    laid,
    m,
    q,
    rect,
    replace,
    surface,
    tile,
)
from tilespec.job.types import Base, Bath, Niche, Opening, Penetration, Product, Room, Shower, Surface
from tilespec.takeoff import measure
from tilespec.takeoff.types import TakeOff

UPSTAND = "0.1"


def wall(letter: str, width: object, *areas: MembraneArea, **more: object) -> Surface:
    fields: dict[str, object] = {"products": ALL} | more
    return surface(letter, width, "2.4", laid(tile()), membrane_areas=areas, **fields)  # type: ignore[arg-type]


def shower_room(**more: object) -> Room:
    """2.4 × 1.8; membrane all over the floor, 0.1 m up every wall, 2.3 m high in a shower of 0.9 × 0.9 at A and D; door in C."""
    up = [MembraneArea(rect(0, 0, width, UPSTAND), "upstand") for width in ("2.4", "1.8")]
    a = wall("A", "2.4", MembraneArea(rect(0, 0, "0.9", "2.3"), "shower"), up[0])
    b = wall("B", "1.8", up[1])
    c = wall("C", "2.4", up[0], openings=(Opening("door", rect("0.9", 0, "0.8", 2), None, HERE),))
    d = wall("D", "1.8", MembraneArea(rect("0.9", 0, "0.9", "2.3"), "shower"), up[1])
    floor = surface(
        "floor", "2.4", "1.8", laid(tile("ft")), kind="floor", products=ALL, membrane_areas=(MembraneArea(None, "floor"),)
    )
    return box_room("2.4", "1.8", floor=floor, walls=(a, b, c, d), **more)


def runs(taken: TakeOff) -> dict[tuple[str, str], F]:
    return {(p.place.removeprefix("room/"), p.role): p.net.value for p in taken.lines_of("tape")[0].parts}


def test_membrane_by_coats_and_consumption() -> None:
    """Floor 4.32; A 0.9 × 2.3 + 1.5 × 0.1; B 0.18; C (2.4 − 0.8) × 0.1; D 0.9 × 2.3 + 0.9 × 0.1 m². Two coats of 0.7 kg/m².

    A quarter more, so that the film is thick enough everywhere: reference row D-44 (guidance with DIN 18534-3).
    """
    line = measure(job(shower_room()), en()).lines_of("membrane")[0]
    area = F("4.32") + (F("2.07") + F("0.15")) + F("0.18") + F("0.16") + (F("2.07") + F("0.09"))
    assert line.net.value == area * 2 * F("0.7")
    assert line.gross.value == area * 2 * F("0.7") * F("1.25")
    assert line.packs is not None and line.packs.value == 2


@pytest.mark.parametrize(("cls", "rate"), [("DM", "0.6"), ("CM", "1.7"), ("RM", "0.7")])
def test_consumption_that_the_product_does_not_say(cls: str, rate: str) -> None:
    """Reference rows L-12 to L-14: 1.2 kg/m² for two coats, 3.4 for 2 mm, 1.4 for 1 mm."""
    product = Product("film", "membrane", (cls,), False, pack=q(14, "kg"))
    s = surface("A", 2, 1, laid(tile()), products=(product, TAPE, COLLAR), membrane_areas=(MembraneArea(None, "said"),))
    line = measure(job(box_room(2, 2, 1, None, (s,))), en()).lines_of("membrane")[0]
    assert line.net.value == 2 * 2 * F(rate)


def test_tape_along_walls_corners_and_the_threshold() -> None:
    """Reference row D-46: wall feet, corners, doors. The corner of D and A is 2.3 m high, the others 0.1 m."""
    found = runs(measure(job(shower_room()), en()))
    assert found == {
        ("wall A", "wall-floor"): F("2.4"),
        ("wall B", "wall-floor"): F("1.8"),
        ("wall C", "wall-floor"): F("1.6"),
        ("wall C", "threshold"): F("0.8"),
        ("wall D", "wall-floor"): F("1.8"),
        ("wall A", "corner"): F("2.3"),
        ("wall B", "corner"): F("0.1"),
        ("wall C", "corner"): F("0.1"),
        ("wall D", "corner"): F("0.1"),
    }


def test_tape_laps() -> None:
    """Reference row L-15: 10 % on the length. 11.0 m, so 12.1 m, two rolls of 10 m."""
    line = measure(job(shower_room()), en()).lines_of("tape")[0]
    assert (line.net.value, line.gross.value) == (F("11.0"), F("12.1"))
    assert line.packs is not None and line.packs.value == 2


def test_tape_only_where_membrane_is() -> None:
    """Only a shower area of 0.9 × 0.9 on the floor and 0.9 up the walls: 2 × 0.9 along the floor and one corner."""
    areas = (MembraneArea(rect(0, 0, "0.9", "0.9"), "shower"),)
    a = wall("A", "2.4", MembraneArea(rect(0, 0, "0.9", 2), "shower"))
    floor = surface("floor", "2.4", "1.8", laid(tile()), kind="floor", products=ALL, membrane_areas=areas)
    found = runs(measure(job(box_room("2.4", "1.8", floor=floor, walls=(a,))), en()))
    # Nobody described wall D: its foot is booked on the room.
    assert found == {("wall A", "wall-floor"): F("0.9"), ("room", "wall-floor"): F("0.9"), ("wall A", "corner"): F(2)}


def test_external_corners_are_taped_too() -> None:
    room = shower_room()
    turned = replace(room, corners=(*room.corners[:1], replace(room.corners[1], internal=False), *room.corners[2:]))
    assert runs(measure(job(turned), en()))[("wall B", "external-corner")] == F("0.1")


def test_tape_in_a_niche_and_around_a_reveal() -> None:
    """Niche 0.3 × 0.4, 0.1 deep: 1.4 around its back and 4 × 0.1; window 0.6 × 0.5 with a reveal of 0.1, all in: 2.2 and 4 × 0.1;
    with only its left side in: that edge of 0.5 and no corner."""
    niche = Niche(rect("0.2", 1, "0.3", "0.4"), m("0.1"))
    window = Opening("window", rect("1.0", 1, "0.6", "0.5"), m("0.1"), HERE)
    a = wall("A", "2.4", MembraneArea(None, "said"), niches=(niche,), openings=(window,))
    found = runs(measure(job(box_room("2.4", "1.8", walls=(a,))), en()))
    assert found[("wall A", "niche")] == F("1.8")
    assert found[("wall A", "reveal")] == F("2.6")
    beside = wall("A", "2.4", MembraneArea(rect(0, 0, 1, 2), "said"), openings=(window,))
    assert runs(measure(job(box_room("2.4", "1.8", walls=(beside,))), en()))[("wall A", "reveal")] == F("0.5")


def test_tape_along_the_rims_of_bath_and_tray() -> None:
    bath = Bath(("A", "D"), rect(0, 0, "1.7", "0.7"), m("0.55"), False)
    tray = Shower(("B", "C"), rect("1.6", "1.0", "0.8", "0.8"), m("2.1"), None, True, False)
    found = runs(measure(job(shower_room(baths=(bath,), showers=(tray,))), en()))
    rims = {place: length for (place, role), length in found.items() if role == "rim"}
    assert rims == {"wall A": F("1.7"), "wall D": F("0.7"), "wall B": F("0.8"), "wall C": F("0.8")}


def test_collars() -> None:
    """One each for what goes through the membrane: not for the pipe beside it."""
    holes = (
        Penetration("valve", m("0.45"), m("1.1"), span=HERE),
        Penetration("pipe", m("0.3"), m("2.3"), span=HERE),
        Penetration("pipe", m("2.0"), m("0.5"), span=HERE),
        Penetration("socket", m("0.5"), m("1.0"), span=HERE),
    )
    room = shower_room()
    assert room.floor is not None
    drain = Penetration("drain", m("0.45"), m("0.45"), span=HERE)
    walls = (replace(room.wall_surfaces[0], penetrations=holes), *room.wall_surfaces[1:])
    taken = measure(job(replace(room, floor=replace(room.floor, penetrations=(drain,)), wall_surfaces=walls)), en())
    line = taken.lines_of("collar")[0]
    assert {(p.place, p.role): p.net.value for p in line.parts} == {
        ("room/floor", "drain"): 1,
        ("room/wall A", "valve"): 1,
        ("room/wall A", "pipe"): 1,
    }
    assert line.packs is not None and line.packs.value == 1


def test_what_a_membrane_lacks_is_said() -> None:
    """No tape declared, no membrane product, and a refused membrane (which the checks speak of)."""
    areas = (MembraneArea(None, "said"),)
    bare = surface("A", 2, 2, laid(tile()), products=(MEMBRANE, ADHESIVE, GROUT), membrane_areas=areas)
    none = surface("B", 2, 2, laid(tile()), products=(ADHESIVE, GROUT), membrane_areas=areas)
    refused = replace(none, id="room/wall C", letter="C", refused=(("membrane", HERE),))
    missing = {(x.kind, x.places) for x in measure(job(box_room(2, 2, 2, None, (bare, none, refused))), en()).missing}
    # Three lines meet the membrane of wall A: its foot and its two corners.
    assert ("tape", ("room/wall A", "room/wall B")) in missing
    assert ("membrane", ("room/wall B",)) in missing


@pytest.mark.parametrize(("absorbency", "kg"), [("normal", "0.15"), ("high", "0.30"), ("dense", "0.10")])
def test_primer_by_absorbency(absorbency: str, kg: str) -> None:
    """Reference row L-11: 0.15 kg/m² a coat, 0.10 on a dense base. Two coats where it drinks: common practice, no source."""
    product = replace(PRIMER, consumption=None)
    s = surface("A", 1, 1, laid(tile()), products=(product, ADHESIVE, GROUT), base=Base("concrete", None, absorbency=absorbency))
    line = measure(job(box_room(1, 1, 1, None, (s,))), en()).lines_of("primer")[0]
    assert line.net.value == F(kg)


def test_no_primer_where_none_is_used() -> None:
    s = surface("A", 1, 1, laid(tile()), products=(ADHESIVE, GROUT))
    taken = measure(job(box_room(1, 1, 1, None, (s,))), en())
    assert not taken.lines_of("primer") and taken.measure("room/wall A").primed_area is None
