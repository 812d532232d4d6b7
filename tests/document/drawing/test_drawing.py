"""Every drawing can be read on paper, is true to scale, and writes no number but the job's quantities."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache
from math import hypot
from pathlib import Path

import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.document.drawing import rooms
from tests.document.drawing.reading import Read, extent, faults, read, segments
from tilespec.document.drawing import Drawing, added_faces, elevation, key_plan, plan, unfolded
from tilespec.document.drawing.dimension import standard
from tilespec.document.drawing.elevation import bare_outline
from tilespec.document.drawing.scale import SCALES, paper
from tilespec.job.types import Fitting, Job, MovementJoint, Niche, Opening, Penetration, Room, Surface
from tilespec.pipeline import compile
from tilespec.practice.lookup import practice
from tilespec.setout import lay
from tilespec.setout.types import Row
from tilespec.workspace.host import DiskHost

EXAMPLES = sorted(p.name for p in (Path(__file__).parents[3] / "examples").glob("*.tilespec") if "stock" not in p.name)


def _all(room: Room, job: Job) -> list[Drawing]:
    setout = lay(job, practice(job.family))
    found = [plan(room, job, setout), key_plan(room), *(elevation(s, room, job, setout) for s in room.surfaces)]
    added = (added_faces(s, room, job, setout) for s in room.surfaces)
    return [*found, unfolded(room, job, setout), *(d for d in added if d is not None)]


def _alone(s: Surface, family: str = "EN", paper: str = "A4", **more: object) -> tuple[Job, Drawing]:
    """The drawing of one wall in a room of its size."""
    room = rooms.around(s, **more)
    job = rooms.job(room, family=family, paper=paper)
    return job, elevation(s, room, job, lay(job, practice(family)))


def _read(s: Surface) -> Read:
    return read(_alone(s)[1].svg)


def _by_hand() -> dict[str, tuple[Job, Drawing]]:
    shower, bath = rooms.shower_room(), rooms.l_room()
    found: dict[str, tuple[Job, Drawing]] = {}
    for name, room, family, sheet in (
        ("shower", shower, "EN", "A4"),
        ("bath", bath, "EN", "A4"),
        ("letter", shower, "UK", "Letter"),
        ("us", bath, "US", "Letter"),
    ):
        job = rooms.job(room, family=family, paper=sheet)
        for d in _all(room, job):
            found[f"{name}: {d.key}"] = job, d
    for name, s in (
        ("eight pipes", rooms.eight_pipes()),
        ("crowded", rooms.crowded()),
        ("tiny", rooms.wall("A", "0.15", "0.2")),
        ("narrow", rooms.wall("A", "0.2", "2.4")),
        ("low", rooms.wall("A", "3.6", "0.3")),
        ("wide", rooms.wall("A", "9.6", "2.6")),
        ("hall", rooms.wall("A", "48", "6")),
        ("untiled", rooms.wall("A", "2.4", coverings=())),
        ("chips", rooms.wall("A", "2.4", coverings=(rooms.laid(rooms.tile("chip", 12, 12)),))),
        *(
            (f"bond {b}", rooms.wall("A", "2.4", coverings=(rooms.laid(rooms.tile("brick", 200, 100), b),)))
            for b in ("straight", "half", "third", "quarter", "diagonal", "herringbone", "basket")
        ),
    ):
        found[name] = _alone(s)
    s, room = rooms.hostile()
    job = rooms.job(room)
    for d in _all(room, job):
        found[f"hostile: {d.scale} {len(found)}"] = job, d
    s, room = rooms.in_inches()
    job = rooms.job(room, family="US", paper="Letter")
    found["inches"] = job, elevation(s, room, job, lay(job, practice("US")))
    return found


DRAWINGS = _by_hand()


@pytest.mark.parametrize("name", DRAWINGS)
def test_it_can_be_read_on_paper(name: str) -> None:
    _, d = DRAWINGS[name]
    assert faults(d.svg) == []


@pytest.mark.parametrize("name", DRAWINGS)
def test_it_fits_the_sheet(name: str) -> None:
    job, d = DRAWINGS[name]
    r = read(d.svg)
    assert (r.width, r.height) == (d.width_mm, d.height_mm)
    most = paper(job.paper)
    assert d.width_mm <= most.width and d.height_mm <= most.height
    assert r.title == " ".join(r.title.split()) and d.alt


def _numbers(text: str) -> list[str]:
    return re.findall(r"[0-9][0-9.]*", text)


@cache
def _cut_list(job: Job) -> dict[str, Row]:
    """Rows of the cut lists by their number: numbers of pieces are the only ones in a drawing that are no measures."""
    return {str(r.number): r for x in lay(job, practice(job.family)).layouts for r in x.rows}


@pytest.mark.parametrize("name", [n for n in DRAWINGS if not n.startswith("hostile")])
def test_every_number_is_a_quantity_of_the_job(name: str) -> None:
    job, d = DRAWINGS[name]
    show = standard(job.family)
    known = {n for q in d.shown for n in _numbers(show(q))} | set(_cut_list(job))
    for t in read(d.svg).texts:
        if " scale " in t.text:  # the scale bar says what it is
            continue
        assert set(_numbers(t.text)) <= known, t.text


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_examples_can_be_read_on_paper(example: str) -> None:
    path = Path(__file__).parents[3] / "examples" / example
    found = compile(str(path), DiskHost())
    assert found.plan is not None
    job, keys = found.plan.job, list[str]()
    for room in job.rooms:
        for d in _all(room, job):
            assert faults(d.svg) == [], d.key
            assert d.height_mm <= paper(job.paper).height
            keys.append(d.key)
    assert len(set(keys)) == len(keys) >= sum(len(r.surfaces) + 3 for r in job.rooms)


# ---------------------------------------------------------------- true to scale


@pytest.mark.parametrize("width, height, scale", [("2.4", "2.4", 30), ("1.2", "1.2", 15), ("2.4", "0.6", 20), ("3.2", "2.5", 30)])
def test_a_wall_has_its_size_to_scale(width: str, height: str, scale: int) -> None:
    _, d = _alone(rooms.wall("A", width, height))
    assert d.scale == f"1:{scale}"
    left, top, right, bottom = extent(read(d.svg).paths["heavy"])
    assert right - left == pytest.approx(float(Fraction(width)) * 1000 / scale, abs=0.011)
    assert bottom - top == pytest.approx(float(Fraction(height)) * 1000 / scale, abs=0.011)


def test_a_2400_wall_at_1_to_30_is_80_mm_on_paper() -> None:
    # At 1:20 it would leave no room on the page for its cut list.
    _, d = _alone(rooms.wall("A", "2.4"))
    left, _, right, _ = extent(read(d.svg).paths["heavy"])
    assert (d.scale, right - left) == ("1:30", pytest.approx(80, abs=0.011))


@pytest.mark.parametrize("name", [n for n, (_, d) in DRAWINGS.items() if d.scale != "not to scale"])
def test_the_scale_is_one_of_the_scales_and_said(name: str) -> None:
    _, d = DRAWINGS[name]
    assert d.scale in {f"1:{s}" for s in SCALES} or (d.scale == "1:5" and d.key.startswith("added/"))
    assert any(f"scale {d.scale} " in t.text for t in read(d.svg).texts)


def test_a_valve_stands_where_it_was_said() -> None:
    s = rooms.wall("A", "2.4", coverings=(), penetrations=(Penetration("valve", rooms.m("0.45"), rooms.m("1.1"), rooms.mm(200)),))
    _, d = _alone(s)
    r, scale = read(d.svg), int(d.scale.removeprefix("1:"))
    left, _, _, bottom = extent(r.paths["heavy"])
    # The circle of the hole: M x y a r r ... with its leftmost point first.
    x, y, radius = map(float, re.findall(r"M(\S+) (\S+)a(\S+) ", str(r.paths["line"].get("d")))[0])
    assert radius == pytest.approx(100 / scale, abs=0.006)
    assert x + radius - left == pytest.approx(450 / scale, abs=0.011)
    assert bottom - y == pytest.approx(1100 / scale, abs=0.011)


def _words(r: Read) -> list[str]:
    return [t.text for t in r.texts]


def test_running_dimensions_on_four_sides() -> None:
    s = rooms.wall("A", "2.4", penetrations=(Penetration("valve", rooms.m("0.45"), rooms.m("1.1")),))
    found = _words(_read(s))
    # From the left edge, from the plumb line at 1200, above the floor, from the datum line at 1000.
    for text in ("450 a", "L 750 a", "1100 a", "+100 a", "1200 plumb line", "1000 datum line", "2400 wall B"):
        assert text in found
    # Tiles of 300 with joints of 3 up and down from the datum line, by hand; the neighbours are not tiled: a corner joint of 5.
    for text in ("+303", "+606", "+909", "+1212", "−303", "−606", "−909", "L 1195 edge", "R 1195 edge"):
        assert text in found
    for title in ("from the left edge (wall D)", "above the finished floor", "from the datum line to the tiles' lower edge"):
        assert title in found


def test_a_drain_is_dimensioned_from_the_nearest_walls() -> None:
    room = rooms.l_room()
    job = rooms.job(room)
    d = plan(room, job, lay(job, practice("EN")))
    found = _words(read(d.svg))
    # 1200 from F and 700 from D; 150 from E: 2600 less 2450.
    assert "700" in found and "150" in found and "1200 a" in found


def test_a_part_said_twice_is_dimensioned_once() -> None:
    s = rooms.wall(
        "A",
        "2.4",
        penetrations=(
            Penetration("valve", rooms.m("0.45"), rooms.m("1.1")),
            Penetration("valve", rooms.m("0.45"), rooms.m("0.9")),
        ),
    )
    found = _words(_read(s))
    assert found.count("450 a, b") == 1 and "450 a" not in found


# ---------------------------------------------------------------- what must be there


def test_what_a_crew_sets_out_from_is_on_the_wall() -> None:
    r = read(DRAWINGS["shower: elevation/Shower room/wall A"][1].svg)
    assert {"datum", "membrane", "zone", "first", "grid", "heavy", "cut"} <= set(r.paths)
    text = " | ".join(_words(r))
    for piece in (
        "cut or drilled",
        "first tile",
        "as found",
        "height, left",
        "height, middle",
        "width, bottom",
        "valve “thermostat”",
        "pebble",
    ):
        assert piece in text


def test_dashes_tell_the_lines_apart() -> None:
    r = read(DRAWINGS["shower: elevation/Shower room/wall D"][1].svg)
    dashes = [r.paths[n].get("stroke-dasharray") for n in ("membrane", "zone", "datum", "fitting")]
    assert None not in dashes and len(set(dashes)) == 4


def test_what_a_plan_shows() -> None:
    text = " | ".join(_words(read(DRAWINGS["shower: plan/Shower room"][1].svg)))
    for piece in (
        "level shower",
        "1:60",
        "hall +10",
        "sensor",
        "WC",
        "no heating",
        "membrane",
        "diagonal",
        "wall D",
        "from wall A",
        "swing",
    ):
        assert piece in text


def test_a_key_plan_has_letters_and_no_numbers() -> None:
    d = key_plan(rooms.l_room())
    found = _words(read(d.svg))
    assert set("ABCDEF") <= set(found) and "bath" in found and "door" in found
    assert not re.search("[0-9]", " ".join(found)) and d.shown == () and d.width_mm <= 64


def test_an_assumed_size_is_starred_and_said() -> None:
    s = replace(rooms.wall("A", "2.4"), width=rooms.guess("2.4"))
    found = _words(_read(s))
    assert any(t.startswith("2400* ") for t in found) and any("* assumed" in t for t in found)
    assert not any("*" in t for t in _words(_read(rooms.wall("A", "2.4"))))


def test_a_start_that_was_not_said_is_said_to_be_found() -> None:
    text = " ".join(_words(_read(rooms.wall("A", "2.4", coverings=(rooms.laid(rooms.WALL_TILE),)))))
    assert "found, not said" in text


def test_a_field_of_small_chips_leaves_its_joints_out() -> None:
    _, d = DRAWINGS["chips"]
    r = read(d.svg)
    assert len(str(r.paths.get("grid").get("d") if "grid" in r.paths else "")) < 20_000


def test_a_key_that_no_sheet_holds_is_cut_and_says_so() -> None:
    pipes = tuple(
        Penetration(
            "pipe", rooms.mm(50 + 23 * i), rooms.mm(100 + 20 * i), label=rooms.words("a rather long name of this pipe " * 2)
        )
        for i in range(100)
    )
    _, d = _alone(rooms.wall("A", "2.4", penetrations=pipes))
    assert d.height_mm <= 230 and any("list of positions" in t for t in _words(read(d.svg)))


# ---------------------------------------------------------------- the pieces


def _scaled(room: Room, s: Surface, d: Drawing) -> Callable[[Fraction, Fraction], tuple[float, float]]:
    """Places of a surface on paper, from the extent of its bare outline there."""
    left, top, _, bottom = extent(read(d.svg).paths["heavy"])
    left -= float(min(x for x, _ in bare_outline(s, room))) * 1000 / int(d.scale.removeprefix("1:"))
    k = 1000 / int(d.scale.removeprefix("1:"))

    def at(x: Fraction, y: Fraction) -> tuple[float, float]:
        return left + float(x) * k, top + float(y) * k if s.kind == "floor" else bottom - float(y) * k

    return at


CUT = ("shower: elevation/Shower room/wall A", "shower: elevation/Shower room/floor", "shower: elevation/Shower room/wall C",
       "bath: elevation/Shower room/floor", "bond half", "bond third", "bond basket", "bond straight", "bond diagonal")


@pytest.mark.parametrize("name", CUT)
def test_every_cut_piece_carries_its_number(name: str) -> None:
    """In the piece itself, or at the end of a leader that begins in it."""
    job, d = DRAWINGS[name]
    setout = lay(job, practice(job.family))
    (room,) = job.rooms
    s = next(s for s in room.surfaces if d.key == f"elevation/{s.id}")
    at, r = _scaled(room, s, d), read(d.svg)
    solid = str(r.paths["solid"].get("d")) if "solid" in r.paths else ""
    dots = [(float(x) + 0.3, float(y)) for x, y in re.findall(r"M(\S+) (\S+?)a0\.3 ", solid)]
    pieces = [p for x in setout.on(s.id) if x.face == s.id for p in x.pieces]
    assert pieces
    for p in pieces:
        shape = shapely.Polygon([at(x, y) for x, y in p.shape.outer])
        written = any(t.text == str(p.number) and shape.buffer(0.3).covers(shapely.box(*t.box)) for t in r.texts)
        assert written or any(shape.buffer(0.02).covers(shapely.Point(dot)) for dot in dots), p


@pytest.mark.parametrize("name", ["bond straight", "bond half", "bond third", "bond quarter", "bond diagonal", "bond herringbone",
                                  "bond basket", "shower: elevation/Shower room/floor"])
def test_the_joints_are_where_no_tile_is(name: str) -> None:
    """No line of the grid runs through a tile: against shapely, each tile drawn in by a little."""
    job, d = DRAWINGS[name]
    setout = lay(job, practice(job.family))
    (room,) = job.rooms
    s = next(s for s in room.surfaces if d.key == f"elevation/{s.id}")
    at = _scaled(room, s, d)
    # What is left out inside a piece, as round a drain's grate, is drawn by lines within its outline.
    tiles = [shapely.Polygon([at(x, y) for x, y in outer], [[at(x, y) for x, y in i] for i in inner])
             for x in setout.on(s.id) if x.face == s.id for outer, inner in (
                 *((t, ()) for run in x.runs for t in run.tiles()), *((p.shape.outer, p.shape.inner) for p in x.pieces))]
    grid = shapely.MultiLineString(segments(read(d.svg).paths["grid"]))
    inner = shapely.union_all([t.buffer(-0.08) for t in tiles])
    assert grid.intersection(inner).length == pytest.approx(0, abs=0.01)
    # And each tile is closed in: its edge lies within a joint of the grid or of the control lines that stand for it.
    paths = read(d.svg).paths
    near = shapely.MultiLineString([line for n in ("grid", "datum", "fine", "first") for line in segments(paths[n])]).buffer(0.35)
    shapely.prepare(near)
    assert all(near.covers(t.exterior) for t in tiles)


def test_a_joint_wide_enough_shows_both_its_edges() -> None:
    wide = _read(rooms.wall("A", "0.6", "0.6", coverings=(rooms.laid(rooms.tile("t", 150, 150), joint=5),)))
    narrow = _read(rooms.wall("A", "0.6", "0.6", coverings=(rooms.laid(rooms.tile("t", 150, 150), joint=1),)))
    assert len(segments(wide.paths["grid"])) > len(segments(narrow.paths["grid"]))


def test_a_large_field_stays_a_small_file() -> None:
    def drawn(width: str, height: str, size: int, bond: str) -> Drawing:
        tile = rooms.laid(rooms.tile("t", size, size), bond, "from left", "full tile at floor")
        return _alone(rooms.wall("A", width, height, coverings=(tile,)))[1]

    for bond in ("straight", "half"):
        d = drawn("30", "6", 50, bond)
        assert len(d.svg) < 200_000 and any("too small to draw each tile" in t for t in _words(read(d.svg))), bond
    # Tiles that can be drawn, but in a bond that would take a line each: their courses.
    d = drawn("6.5", "6.5", 48, "half")
    assert len(d.svg) < 200_000 and any("only courses and cut pieces" in t for t in _words(read(d.svg)))


def test_a_fall_is_drawn_over_its_area() -> None:
    job, d = DRAWINGS["shower: elevation/Shower room/floor"]
    falls = lay(job, practice("EN")).falls[0]
    at = _scaled(job.rooms[0], job.rooms[0].surfaces[0], d)
    spots = [at(x, y) for x, y in falls.area]
    # Without its sample in the key.
    lines = [line for line in segments(read(d.svg).paths["fall"]) if line[0][0] < at(Fraction("2.4"), Fraction(0))[0]]
    xs, ys = zip(*(p for line in lines for p in line), strict=True)
    drawn = (min(xs), min(ys), max(xs), max(ys))
    assert drawn == pytest.approx((min(x for x, _ in spots), min(y for _, y in spots), max(x for x, _ in spots),
                                   max(y for _, y in spots)), abs=0.02)
    # 450 mm at 1:60 by hand.
    assert "−7.5" in _words(read(d.svg))


def test_movement_joints_have_a_line_of_their_own() -> None:
    s = replace(rooms.wall("A", "2.4"), movement_joints=(MovementJoint(rooms.m("1.0"), None, rooms.mm(8)),))
    _, d = _alone(s)
    r = read(d.svg)
    (left, _), (right, _) = segments(r.paths["movement"])[0]
    x, _ = _scaled(rooms.around(s), s, d)(Fraction(1), Fraction(0))
    assert left == right == pytest.approx(x, abs=0.011) and "movement joint" in _words(r)
    assert any(t.startswith("movement joint 8 wide") for t in _words(r))


def test_a_room_out_of_square_is_drawn_in_its_true_shape() -> None:
    room = replace(rooms.shower_room(), diagonals=(rooms.m("3.02"), rooms.m("2.975")), fall=None)
    job = rooms.job(room)
    assert room.floor is not None
    d = elevation(room.floor, room, job, lay(job, practice("EN")))
    heavy = shapely.Polygon([a for a, _ in segments(read(d.svg).paths["heavy"])][:4])
    k = 1000 / int(d.scale.removeprefix("1:"))
    a, b, c, e = list(heavy.exterior.coords)[:4]
    assert hypot(c[0] - a[0], c[1] - a[1]) / k == pytest.approx(3.02, abs=0.002)
    assert hypot(e[0] - b[0], e[1] - b[1]) / k == pytest.approx(2.975, abs=0.002)


def test_the_room_unfolded() -> None:
    job, d = DRAWINGS["shower: unfolded/Shower room"]
    r = read(d.svg)
    k = 1000 / int(d.scale.removeprefix("1:"))
    spots = [p for line in segments(r.paths["grid"]) for p in line]
    wide, high = (max(p[i] for p in spots) - min(p[i] for p in spots) for i in (0, 1))
    # The floor of 2.4 x 1.8 between walls folded out: 2.4, C up to 2.412, D tiled to 2.1; less a joint of 5 at the top.
    assert (wide, high) == pytest.approx(((2.4 + 2.4 + 2.1 - 0.005) * k, (1.8 + 2.4 + 2.412 - 2 * 0.005) * k), abs=0.2)
    assert {"A shower", "B window", "C door", "floor"} <= set(_words(r)) and "datum" in r.paths and "grid" in r.paths
    # A wall that would cover another one stands in a strip below; nothing is left out.
    room = rooms.l_room()
    text = " | ".join(_words(read(DRAWINGS["bath: unfolded/Shower room"][1].svg)))
    assert all(f"{s.letter}" in text for s in room.wall_surfaces)


def test_faces_outside_the_plane() -> None:
    _, d = DRAWINGS["shower: added/Shower room/wall A"]
    found = _words(read(d.svg))
    for side in ("back", "left", "right", "bottom", "top"):
        assert f"niche, {side}" in found
    # 300 less a corner joint of 5 at both ends; 90 deep, from its own tiles (12) at the back to those of the wall (13), less 5;
    # its upright sides stand between tile and joint below and above.
    assert {"290", "86", "266"} <= set(found)
    room = rooms.shower_room()
    job = rooms.job(room)
    assert added_faces(room.wall_surfaces[2], room, job, lay(job, practice("EN"))) is None


# ---------------------------------------------------------------- safe and the same every time


def test_hostile_words_stay_words() -> None:
    s, room = rooms.hostile()
    job = rooms.job(room)
    for d in _all(room, job):
        r = read(d.svg)  # parses: nothing broke out of its place
        assert r.tags <= {"svg", "title", "path", "g", "text"}
    assert "<script>" not in d.svg
    d = elevation(s, room, job, lay(job, practice("EN")))
    assert "<script>" not in d.svg and any("<script>alert" in t.text for t in read(d.svg).texts)
    assert not re.search("[\x00-\x08\x0b\x0c\x0e-\x1f]", d.svg)


def test_the_same_room_gives_the_same_bytes() -> None:
    first = [d.svg for d in _all(rooms.shower_room(), rooms.job(rooms.shower_room()))]
    again = [d.svg for d in _all(rooms.shower_room(), rooms.job(rooms.shower_room()))]
    assert first == again


def test_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib; from tests.document.drawing import rooms; from tilespec.document.drawing import elevation, plan; "
        "from tilespec.setout import lay; from tilespec.practice.lookup import practice; "
        "r = rooms.l_room(); j = rooms.job(r); o = lay(j, practice('EN')); "
        "svg = plan(r, j, o).svg + ''.join(elevation(s, r, j, o).svg for s in r.surfaces); "
        "print(hashlib.sha256(svg.encode()).hexdigest())"
    )
    root = str(Path(__file__).parents[3])
    hashes = {
        subprocess.run(
            [sys.executable, "-c", code],
            cwd=root,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": root},
            check=True,
            capture_output=True,
            text=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(hashes) == 1


# ---------------------------------------------------------------- any wall


def _lengths(low: int, high: int) -> st.SearchStrategy[int]:
    return st.integers(low, high)


@st.composite
def walls(draw: st.DrawFn) -> Surface:
    width, height = draw(_lengths(150, 6000)), draw(_lengths(300, 3000))

    def rect() -> rooms.Rect:
        w, h = draw(_lengths(10, width)), draw(_lengths(10, height))
        x, y = draw(_lengths(0, width - w)), draw(_lengths(0, height - h))
        return rooms.Rect(rooms.mm(x), rooms.mm(y), rooms.mm(w), rooms.mm(h))

    holes = tuple(
        Penetration(
            "pipe", rooms.mm(draw(_lengths(0, width))), rooms.mm(draw(_lengths(0, height))), rooms.mm(draw(_lengths(10, 150)))
        )
        for _ in range(draw(st.integers(0, 9)))
    )
    tile = rooms.tile("field", draw(_lengths(20, 1200)), draw(_lengths(20, 1200)))
    across = draw(
        st.sampled_from(("found", "tile on centre", "joint on centre", "from left", "from right", "full tile at window"))
    )
    up = draw(st.sampled_from(("found", "full tile at datum", "full tile at floor", "full tile at top")))
    bond = draw(st.sampled_from(("straight", "half", "third", "quarter", "diagonal", "herringbone", "basket")))
    zones = tuple(rooms.Zone("splash", rect(), "said") for _ in range(draw(st.integers(0, 2))))
    return rooms.wall(
        "A",
        str(Fraction(width, 1000)),
        str(Fraction(height, 1000)),
        coverings=(rooms.laid(tile, bond, across, up),),
        penetrations=holes,
        openings=tuple(Opening("window", rect()) for _ in range(draw(st.integers(0, 2)))),
        niches=tuple(Niche(rect(), rooms.mm(90)) for _ in range(draw(st.integers(0, 2)))),
        fittings=tuple(
            Fitting("mirror", rooms.words(n), rect())
            for n in draw(st.lists(st.sampled_from(("rail", "a long mirror with lights")), max_size=2))
        ),
        zones=zones,
        membrane_areas=tuple(rooms.MembraneArea(z.rect, "splash") for z in zones),
    )


@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(walls(), st.sampled_from(("EN", "US")), st.sampled_from(("A4", "Letter")))
def test_any_wall_can_be_read_on_paper(s: Surface, family: str, sheet: str) -> None:
    _, d = _alone(s, family, sheet)
    assert faults(d.svg) == []
    assert d.height_mm <= paper(sheet).height


@st.composite
def any_rooms(draw: st.DrawFn) -> Room:
    """A room with a bay: five sides said, the sixth closes it."""
    a, b = draw(_lengths(1200, 5000)), draw(_lengths(1200, 4000))
    bay, deep = draw(_lengths(100, a - 100)), draw(_lengths(100, 1500))

    def m(mm: int) -> str:
        return str(Fraction(mm, 1000))

    walk = rooms.walk(
        ("A", m(a), True),
        ("B", m(b), True),
        ("C", m(bay), False),
        ("D", m(deep), True),
        ("E", m(a - bay), True),
        ("F", m(b + deep), True),
    )
    drain = Penetration("drain", rooms.mm(draw(_lengths(50, a - bay))), rooms.mm(draw(_lengths(50, b))), rooms.mm(110))
    floor = rooms.floor(
        m(a),
        m(b + deep),
        tuple(w.start for w in walk[0]),
        penetrations=(drain,),
        membrane_areas=(rooms.MembraneArea(None, "floor"),),
        fittings=(Fitting("fixture", rooms.words("WC"), rooms.rect("0", m(draw(_lengths(0, b - 600))), "0.4", "0.6")),),
    )
    door = rooms.wall("F", m(b + deep), title="wall F, door", openings=(Opening("door", rooms.rect("0.2", "0", "0.7", "2")),))
    planes = draw(st.sampled_from(("one", "two", "four")))
    return rooms.room(
        walk,
        (door,),
        floor,
        showers=(rooms.Shower(("A", "B"), rooms.rect(m(a - 900), "0", "0.9", "0.9"), rooms.m("2.1"), None, False, False),),
        fall=rooms.Fall(rooms.given(Fraction(1, 60), "slope", rooms.SPAN), planes),
    )


@settings(max_examples=15, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(any_rooms(), st.sampled_from(("EN", "US")))
def test_any_room_can_be_read_on_paper(room: Room, family: str) -> None:
    job = rooms.job(room, family=family)
    for d in _all(room, job)[:3]:
        assert faults(d.svg) == [], d.key


@pytest.mark.pdf
def test_the_layout_engine_draws_all_of_it(caplog: pytest.LogCaptureFixture) -> None:
    from base64 import b64encode

    from weasyprint import HTML

    d = DRAWINGS["shower: elevation/Shower room/wall A"][1]
    image = f"data:image/svg+xml;base64,{b64encode(d.svg.encode()).decode()}"
    HTML(string=f'<html lang="en"><title>t</title><img src="{image}" alt="wall">').write_pdf()
    assert [r.getMessage() for r in caplog.records if r.name.startswith("weasyprint")] == []
