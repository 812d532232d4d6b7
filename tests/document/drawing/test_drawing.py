"""Every drawing can be read on paper, is true to scale, and writes no number but the job's quantities."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.document.drawing import rooms
from tests.document.drawing.reading import Read, extent, faults, read
from tilespec.document.drawing import Drawing, elevation, key_plan, plan
from tilespec.document.drawing.dimension import standard
from tilespec.document.drawing.scale import SCALES, paper
from tilespec.job.types import Fitting, Job, Niche, Opening, Penetration, Room, Surface
from tilespec.pipeline import compile
from tilespec.practice.lookup import practice
from tilespec.setout import lay
from tilespec.setout.types import Row
from tilespec.workspace.host import DiskHost

EXAMPLES = sorted(p.name for p in (Path(__file__).parents[3] / "examples").glob("*.tilespec") if "stock" not in p.name)


def _all(room: Room, job: Job) -> list[Drawing]:
    setout = lay(job, practice(job.family))
    return [plan(room, job, setout), key_plan(room), *(elevation(s, room, job, setout) for s in room.surfaces)]


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
    job = found.plan.job
    for room in job.rooms:
        for d in _all(room, job):
            assert faults(d.svg) == [], d.key
            assert d.height_mm <= paper(job.paper).height
    assert len({d.key for room in job.rooms for d in _all(room, job)}) == sum(len(r.surfaces) + 2 for r in job.rooms)


# ---------------------------------------------------------------- true to scale


@pytest.mark.parametrize("width, height, scale", [("2.4", "2.4", 30), ("1.2", "1.2", 15), ("2.4", "0.6", 20), ("3.2", "2.5", 25)])
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
    assert d.scale in {f"1:{s}" for s in SCALES}
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
        "cut or drilled: number of the cut list",
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
