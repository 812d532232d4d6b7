"""Areas of surfaces. Plain arithmetic; unions and clippings also against shapely."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box as shapely_box
from shapely.ops import unary_union

from tests.takeoff.building import (
    ALL,
    HERE,
    MembraneArea,
    box_room,
    en,
    floor_job,
    job,
    laid,
    m,
    mm,
    mosaic,
    rect,
    replace,
    surface,
    tile,
    wall_job,
)
from tilespec.job.types import Bath, Boxing, Corner, Niche, Opening, Rect, Room, Surface, WallLine
from tilespec.quantity import Worked
from tilespec.takeoff import measure
from tilespec.takeoff.types import SurfaceMeasure


def measured(s: Surface, **more: object) -> SurfaceMeasure:
    return measure(wall_job(s, **more), en()).measure(s.id)


def floor_measured(s: Surface, **more: object) -> SurfaceMeasure:
    return measure(floor_job(s, **more), en()).measure(s.id)


def window(r: Rect, reveal: object = None) -> Opening:
    return Opening("window", r, m(reveal) if reveal else None, HERE)


def test_wall_with_a_window() -> None:
    """Worked example K2: wall 2400 × 2400 with a window 600 × 900 leaves 5.22 m²."""
    found = measured(surface("A", "2.4", "2.4", laid(tile()), openings=(window(rect("0.9", "0.9", "0.6", "0.9")),)))
    assert (found.gross_area.value, found.openings.value, found.tiled_area.value) == (F("5.76"), F("0.54"), F("5.22"))


def test_the_formula_says_what_was_multiplied() -> None:
    found = measured(surface("A", "2.4", "2.4", laid(tile()), openings=(window(rect("0.9", "0.9", "0.6", "0.9")),)))
    why = found.tiled_area.why
    assert isinstance(why, Worked)
    assert why.formula == "gross area − openings"
    inner = dict(why.inputs)["openings"].why
    assert isinstance(inner, Worked) and inner.formula == "width × height"


def test_tiling_stops_below_the_top_and_takes_the_window_with_it() -> None:
    """Tiled to 1.2 m: only the lower 0.3 m of a window from 0.9 to 1.8 m lies in the field."""
    s = surface("A", "2.4", "2.4", laid(tile()), tiled_height=m("1.2"), openings=(window(rect("0.9", "0.9", "0.6", "0.9")),))
    found = measured(s)
    assert (found.gross_area.value, found.openings.value) == (F("2.88"), F("0.18"))
    assert found.tiled_area.value == F("2.70")


def test_openings_that_overlap_count_once() -> None:
    s = surface("A", 3, "2.4", laid(tile()), openings=(window(rect(1, 1, 1, 1)), window(rect("1.5", "1.5", 1, "0.5"))))
    assert measured(s).openings.value == F("1.25")


@settings(max_examples=50, deadline=None)
@given(
    st.lists(st.tuples(*[st.integers(0, 30)] * 2, *[st.integers(1, 20)] * 2), max_size=4),
    st.lists(st.tuples(*[st.integers(0, 30)] * 2, *[st.integers(1, 20)] * 2), max_size=3),
)
def test_openings_and_untiled_parts_against_shapely(holes: list[tuple[int, ...]], bare: list[tuple[int, ...]]) -> None:
    """Tenths of a metre on a wall of 2.4 × 2.4; outside reference: unary_union and intersection of shapely."""
    made = [[rect(F(a, 10), F(b, 10), F(c, 10), F(d, 10)) for a, b, c, d in group] for group in (holes, bare)]
    found = measured(surface("A", "2.4", "2.4", laid(tile()), openings=tuple(window(r) for r in made[0]), untiled=tuple(made[1])))
    field = shapely_box(0, 0, 2.4, 2.4)

    def area(rects: list[Rect]) -> float:
        shapes = [shapely_box(*map(float, (r.x.value, r.y.value, r.right, r.top))) for r in rects]
        return unary_union(shapes).intersection(field).area

    assert float(found.openings.value) == pytest.approx(area(made[0]), abs=1e-9)
    assert float(found.untiled.value) == pytest.approx(area(made[0] + made[1]) - area(made[0]), abs=1e-9)
    assert found.tiled_area.value == found.gross_area.value - found.openings.value - found.untiled.value


def test_band_and_panel_are_taken_from_the_field() -> None:
    """A band of 2.4 × 0.305 under a panel of 0.3 × 1.0 that crosses it: the panel, laid later, wins."""
    s = surface(
        "A",
        "2.4",
        "2.4",
        laid(tile("wall")),
        laid(mosaic(), region=rect(0, "1.2", "2.4", "0.305"), role="band"),
        laid(tile("panel"), region=rect(1, 1, "0.3", 1), role="panel"),
    )
    found = measured(s)
    band, panel = F("2.4") * F("0.305") - F("0.3") * F("0.305"), F("0.3")
    assert [c.value for c in found.coverings] == [F("5.76") - band - panel, band, panel]
    assert found.tiled_area.value == F("5.76")


def test_band_behind_a_window() -> None:
    band = laid(mosaic(), region=rect(0, "1.2", "2.4", "0.3"), role="band")
    found = measured(surface("A", "2.4", "2.4", laid(tile()), band, openings=(window(rect("0.9", "0.9", "0.6", "0.9")),)))
    assert found.coverings[1].value == F("1.8") * F("0.3")
    assert sum((c.value for c in found.coverings), F(0)) == found.tiled_area.value == F("5.22")


def test_wall_with_a_panel_only() -> None:
    found = measured(surface("A", "2.4", "2.4", laid(tile(), region=rect(1, 1, "0.6", "0.6"), role="panel")))
    assert found.tiled_area.value == F("0.36")


def test_niche_has_five_faces() -> None:
    """0.3 × 0.3, 0.09 deep: back 0.09 m² and sides 4 × 0.3 × 0.09; the mouth goes off the face."""
    found = measured(surface("A", "2.4", "2.4", laid(tile()), niches=(Niche(rect(1, 1, "0.3", "0.3"), m("0.09")),)))
    assert found.tiled_area.value == F("5.76") + 4 * F("0.3") * F("0.09")
    assert found.added is not None and found.added.value == 4 * F("0.3") * F("0.09")


def test_niche_lined_with_another_tile_is_ordered_as_that_tile() -> None:
    s = surface("A", "2.4", "2.4", laid(tile("wall")), niches=(Niche(rect(1, 1, "0.3", "0.3"), m("0.09"), mosaic()),))
    lines = {line.name: line for line in measure(wall_job(s), en()).lines_of("tile") if not line.role}
    assert lines["pebble"].net.value == F("0.09") + 4 * F("0.3") * F("0.09")
    assert lines["wall"].net.value == F("5.76") - F("0.09")


@pytest.mark.parametrize(
    ("kind", "opening", "edge"),
    [
        ("window", rect("0.9", "0.9", "0.6", "0.9"), F("3.0")),
        ("door", rect("0.9", 0, "0.8", 2), F("4.8")),
    ],
)
def test_reveals_run_along_the_edges_in_the_field(kind: str, opening: Rect, edge: F) -> None:
    """A window has four edges; a door has no lower one."""
    s = surface("A", "2.4", "2.4", laid(tile()), openings=(Opening(kind, opening, mm(150)),))
    found = measured(s)
    assert found.added is not None and found.added.value == edge * F("0.15")
    assert found.tiled_area.value == F("5.76") - opening.width.value * opening.height.value + edge * F("0.15")


def test_reveals_that_are_not_tiled_add_nothing() -> None:
    assert measured(surface("A", 2, 2, laid(tile()), openings=(window(rect("0.5", "0.5", 1, 1)),))).added is None


def walked_room() -> Room:
    """L-shaped: A 2.4, B 1.2, external corner, C 0.9, D 0.8, E 1.5, F 2.0."""
    lengths = {"A": "2.4", "B": "1.2", "C": "0.9", "D": "0.8", "E": "1.5", "F": "2.0"}
    x = [0, "2.4", "2.4", "1.5", "1.5", 0]
    y = [0, 0, "1.2", "1.2", "2.0", "2.0"]
    points = tuple((F(str(a)), F(str(b))) for a, b in zip(x, y, strict=True))
    letters = "ABCDEF"
    walls = tuple(WallLine(c, points[i], points[(i + 1) % 6], m(lengths[c]), False) for i, c in enumerate(letters))
    corners = tuple(Corner(letters[i - 1], letters[i], points[i], i != 3) for i in range(6))
    floor = replace(surface("floor", "2.4", "2.0", laid(tile()), kind="floor"), outline=points)
    return replace(box_room("2.4", "2.0", floor=floor), walls=walls, corners=corners)


def test_walked_floor_by_the_shoelace_formula() -> None:
    """Plain arithmetic: 2.4 × 1.2 + 1.5 × 0.8 = 4.08 m²; every corner is worked out from walls."""
    found = measure(job(walked_room()), en()).measure("room/floor")
    assert found.tiled_area.value == F("4.08")
    why = found.gross_area.why
    assert isinstance(why, Worked) and "shoelace" in why.source
    corner = dict(why.inputs)["x4"].why
    assert isinstance(corner, Worked) and corner.formula == "wall A − wall C"


def test_untiled_part_across_the_inner_corner_of_a_walked_floor() -> None:
    room = walked_room()
    assert room.floor is not None
    room = replace(room, floor=replace(room.floor, untiled=(rect(1, 1, 1, 1),)))
    # 1 × 1 at the inner corner (1.5, 1.2): the quarter of 0.5 × 0.8 lies outside.
    assert measure(job(room), en()).measure("room/floor").untiled.value == 1 - F("0.5") * F("0.8")


def test_raked_wall_is_a_trapezium() -> None:
    """Left 2.4, right 2.0, 3 m wide: (2.4 + 2.0) ÷ 2 × 3 = 6.6 m²; below 1.2 m it is a rectangle again."""
    outline = ((F(0), F(0)), (F(3), F(0)), (F(3), F(2)), (F(0), F("2.4")))
    s = replace(surface("A", 3, "2.4", laid(tile())), outline=outline, measured_heights=(m("2.4"), m("2.0")))
    assert measured(s).tiled_area.value == F("6.6")
    assert measured(replace(s, tiled_height=m("1.2"))).tiled_area.value == F("3.6")


def test_bath_and_boxing_stand_on_the_floor() -> None:
    bath = Bath(("A", "D"), rect(0, 0, "1.7", "0.7"), m("0.55"), False)
    boxing = Boxing(rect("2.2", "1.6", "0.2", "0.2"), m("2.4"), ("B", "C"))
    found = floor_measured(surface("floor", "2.4", "1.8", laid(tile()), kind="floor"), baths=(bath,), boxings=(boxing,))
    assert found.untiled.value == F("1.7") * F("0.7") + F("0.04")


def test_no_tiles_behind_a_bath() -> None:
    bath = Bath(("A",), rect(0, 0, "1.7", "0.7"), m("0.55"), False)
    assert measured(surface("A", "2.4", "2.4", laid(tile())), baths=(bath,)).untiled.value == F("1.7") * F("0.55")


@pytest.mark.parametrize(
    ("walls", "height", "more"),
    [
        (("A", "D"), "2.4", F(0)),
        (("A", "D"), "1.0", F("0.06")),
        (("A",), "2.4", 2 * F("0.2") * F("2.4")),
        (("A",), "1.0", 2 * F("0.2") * 1 + F("0.06")),
    ],
)
def test_faces_of_a_boxing(walls: tuple[str, ...], height: str, more: F) -> None:
    """0.3 × 0.2 in plan. In a corner its two faces equal what they hide; on a wall it has two sides more; a low one has a top."""
    boxing = Boxing(rect(0, 0, "0.3", "0.2"), m(height), walls)
    assert measured(surface("A", "2.4", "2.4", laid(tile())), boxings=(boxing,)).tiled_area.value == F("5.76") + more


def test_membrane_parts_that_overlap_count_once() -> None:
    """0.9 × 2.3 in the shower and 2.4 × 0.1 along the floor share 0.9 × 0.1."""
    areas = (MembraneArea(rect(0, 0, "0.9", "2.3"), "shower"), MembraneArea(rect(0, 0, "2.4", "0.1"), "upstand"))
    found = measured(surface("A", "2.4", "2.4", laid(tile()), products=ALL, membrane_areas=areas))
    assert found.membrane_area is not None and found.membrane_area.value == F("0.9") * F("2.3") + F("1.5") * F("0.1")


def test_membrane_without_a_window_but_into_its_reveals() -> None:
    """Window 0.5 to 1.1 across, 1.2 to 2.1 up; membrane 0.9 wide to 2.0.

    0.4 × 0.8 is missing; the sill (0.4) and the left edge (0.8) turn in.
    """
    s = surface(
        "A",
        "2.4",
        "2.4",
        laid(tile()),
        products=ALL,
        membrane_areas=(MembraneArea(rect(0, 0, "0.9", 2), "shower"),),
        openings=(window(rect("0.5", "1.2", "0.6", "0.9"), "0.1"),),
    )
    found = measured(s).membrane_area
    assert found is not None and found.value == F("1.8") - F("0.32") + F("1.2") * F("0.1")


def test_niche_partly_in_the_membrane_is_lined_whole() -> None:
    s = surface(
        "A",
        "2.4",
        "2.4",
        laid(tile()),
        products=ALL,
        membrane_areas=(MembraneArea(rect(0, 0, 1, 2), "shower"),),
        niches=(Niche(rect("0.9", 1, "0.3", "0.3"), m("0.1")),),
    )
    found = measured(s).membrane_area
    assert found is not None and found.value == 2 - F("0.03") + F("0.09") + F("0.12")


def test_membrane_refused_or_without_product_is_no_area() -> None:
    areas = (MembraneArea(None, "floor"),)
    assert measured(surface("A", 2, 2, laid(tile()), membrane_areas=areas)).membrane_area is None


def test_primer_goes_as_far_as_membrane_goes() -> None:
    """Tiled to 1.2 m, membrane 0.9 wide to 2.1 m: 2.4 × 1.2 + 0.9 × 0.9."""
    s = surface(
        "A",
        "2.4",
        "2.4",
        laid(tile()),
        products=ALL,
        tiled_height=m("1.2"),
        membrane_areas=(MembraneArea(rect(0, 0, "0.9", "2.1"), "shower"),),
    )
    found = measured(s).primed_area
    assert found is not None and found.value == F("2.88") + F("0.81")


@settings(max_examples=25, deadline=None)
@given(st.integers(10, 60), st.integers(10, 40), st.integers(2, 5))
def test_scaling_a_wall(width: int, height: int, k: int) -> None:
    """k times as wide and high is k² times the area, membrane and niche with it."""

    def wall(by: int) -> SurfaceMeasure:
        w, h = F(width * by, 10), F(height * by, 10)
        return measured(
            surface(
                "A",
                w,
                h,
                laid(tile()),
                products=ALL,
                openings=(window(rect(w / 4, h / 4, w / 5, h / 5), F(by, 10)),),
                niches=(Niche(rect(w / 2, h / 2, w / 8, h / 8), m(F(by, 10))),),
                membrane_areas=(MembraneArea(rect(0, 0, w / 2, h), "said"),),
            )
        )

    one, many = wall(1), wall(k)
    assert many.tiled_area.value == k * k * one.tiled_area.value
    assert many.membrane_area is not None and one.membrane_area is not None
    assert many.membrane_area.value == k * k * one.membrane_area.value
