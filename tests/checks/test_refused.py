"""What a surface refuses though its work needs it, and what the records show that was skipped: at the limits.

Sources: D-46 common practice, from memory; G-28 The Tile Association, movement joints,
and EJ171; E-25 and E-42 UK trade guidance; D-32 BS 5385-4:2015 as reported.
"""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, names, only, practice, wall
from tilespec.diagnostics.model import Severity
from tilespec.job import build
from tilespec.practice.lookup import practice as limits
from tilespec.takeoff import measure
from tilespec.workspace.host import MemoryHost
from tilespec.workspace.load import load

BASE, TILE = "base cement render", "tile wall-tile; joint 3"
PATH = "/job.tilespec"


def refuses(kind: str, *more: str) -> str:
    return wall(BASE, f"{TILE}; {kind} none", *more)


@pytest.mark.parametrize(
    ("kind", "rule", "severity"),
    [
        ("tape", "membrane-without-tape", Severity.ERROR),
        ("collar", "membrane-without-collar", Severity.ERROR),
        ("sealant", "corner-without-sealant", Severity.WARNING),
        ("backer", "joint-without-backer", Severity.WARNING),
        ("adhesive", "tiles-without-adhesive", Severity.ERROR),
        ("grout", "joints-without-grout", Severity.ERROR),
    ],
)
def test_a_needed_product_refused(kind: str, rule: str, severity: Severity) -> None:
    spec = refuses(kind, "shower zone", "pipe 1.2 from left, 1.1 up")
    found = only(spec, rule)
    assert found.severity is severity and at(spec, found).startswith((kind, "none"))
    assert f"`{kind} none`" in (found.help or "")


def test_what_is_not_needed_may_be_refused() -> None:
    """No membrane, so no tape; no pipe, so no collar; no sealant, so no backer of its own."""
    assert names(refuses("tape")) == []
    assert names(refuses("collar", "shower zone")) == []
    assert names(wall(BASE, f"{TILE}; sealant none; backer none")) == ["corner-without-sealant"]


def test_a_drain_with_its_flange_needs_no_collar() -> None:
    fall = "fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A"
    spec = floor("base cement screed; thickness 65 mm; laid 2025-01-10", "tile floor-tile; joint 3", "collar none", fall)
    assert "membrane-without-collar" in names(spec)
    assert "membrane-without-collar" not in names(spec.replace("from wall A", "from wall A; flange 60"))


def test_a_room_refuses_for_all_its_surfaces() -> None:
    spec = wall(BASE, TILE).replace("wall A 2.4", 'room "Bathroom" height 2.4\ngrout none\nwall A 2.4')
    assert names(spec) == ["joints-without-grout"]


def test_what_is_refused_is_not_ordered() -> None:
    """Two walls of a shower refuse tape, collar and sealant; the upstand on the third takes its own."""
    spec = "\n".join([
        "tile t 200x200x8 porcelain; weight 18 kg/m2; barefoot class B",
        'room "Shower room" height 2.4',
        "floor 2.2 x 1.7", "  base cement screed; thickness 60 mm; laid 2025-01-10", "  tile t; joint 3",
        "shower in corner D A, 0.9 x 0.9; tray; head at 2.1; valve on wall A 0.45 from left, 1.1 up",
        *(f"wall {w}\n  base cement render\n  tile t; joint 3; tape none; collar none; sealant none" for w in "AD"),
        "wall C", "  base cement render", "  tile t; joint 3", "",
    ])  # fmt: skip
    job = build(load(PATH, MemoryHost({PATH: spec})).value).value
    takeoff = measure(job, limits(job.family))
    booked = {kind: {p.place for line in takeoff.lines_of(kind) for p in line.parts} for kind in ("tape", "collar", "sealant")}
    assert booked["collar"] == set() and not takeoff.missing
    for kind in ("tape", "sealant"):
        assert "Shower room/wall C" in booked[kind]
        assert not booked[kind] & {"Shower room/wall A", "Shower room/wall D"}


@pytest.mark.parametrize("what", [
    "shower in corner D A, 0.9 x 0.9; tray; head at 2.0", "bath in corner D A, 0.7 x 1.7; rim 0.55; shower zone; head at 2.0",
])  # fmt: skip
@pytest.mark.parametrize(("end", "told"), [("1.79", True), ("1.8", False), ("2.1", False)])
def test_tiles_end_below_the_shower_head(what: str, end: str, told: bool) -> None:
    """Common practice: up to the head, or to the least height of a waterproof shower wall (AS 3740:2021: 1800 mm)."""
    spec = wall(BASE, f"{TILE}; tiled to {end}").replace("wall A 2.4 x 2.4", 'room "Bathroom" height 2.4\nROOM\nwall A')
    room = (
        "floor 2.2 x 1.7\n  base cement screed; thickness 65 mm; laid 2025-01-10\n"
        f"{what}\n"
    )
    spec = spec.replace("ROOM\n", room) + f"wall D\n  {BASE}\n  {TILE}\n"
    assert ("membrane-left-bare" in names(spec)) is told


@pytest.mark.parametrize(("stood", "base", "told"), [
    ("47 h", "cement screed; thickness 65 mm", True), ("48 h", "cement screed; thickness 65 mm", False),
    ("6 d", "concrete", True), ("7 d", "concrete", False),
])  # fmt: skip
def test_a_hygrometer_box_stands_for_days(stood: str, base: str, told: bool) -> None:
    """Row E-25: two to three days on a screed, seven on dense concrete."""
    spec = floor(f"base {base}; laid 2025-01-10", "tile floor-tile; joint 3")
    record = f'record substrate-moisture on floor 2026-03-06 by "J. Rook"; reading 66 %RH; lasted {stood}'
    assert ("hygrometer-read-too-early" in names(f"{spec}{record}\n")) is told
    assert "hygrometer-read-too-early" not in names(f"{spec}{record}; depth 26 mm\n")


@pytest.mark.parametrize(("came", "told"), [("2026-03-13", True), ("2026-03-12", False)])
def test_tiles_come_before_they_are_laid(came: str, told: bool) -> None:
    records = 'record substrate on wall A 2026-03-09 by "A. Finch"\nrecord tiling on wall A 2026-03-12 by "A. Finch"\n'
    spec = wall(BASE, TILE) + records
    assert ("tiled-before-delivery" in names(f"{spec}delivery wall-tile {came}; shade A1\n")) is told
    # More tiles came later: no fault.
    assert "tiled-before-delivery" not in names(f"{spec}delivery wall-tile 2026-03-02\ndelivery wall-tile {came}\n")


@pytest.mark.parametrize(("family", "told"), [("UK", True), ("EN", False), ("DE", False)])
def test_plasterboard_behind_a_shower(family: str, told: bool) -> None:
    """Row D-32: a standard of the United Kingdom."""
    spec = wall("base gypsum plasterboard; unskimmed", TILE, "shower zone", head=practice(family))
    assert ("gypsum-plaster-in-shower" in names(spec)) is told


def test_gypsum_screed_below_a_bathroom() -> None:
    """Row E-42: a warning in a bathroom, an error where water runs on the floor."""
    spec = floor("base calcium sulfate screed; thickness 65 mm; laid 2025-01-10", "tile floor-tile; joint 3")
    bath = f"bath in corner A B, 0.75 x 1.7; rim 0.56\nwall A 2.4 x 2.4\n  {BASE}\n  tile floor-tile; joint 3\n"
    assert names(spec) == []
    found = only(spec + bath, "calcium-sulfate-in-bathroom")
    assert found.severity is Severity.WARNING
    fall = "tile floor-tile; joint 3\n  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A"
    wet = names(spec.replace("tile floor-tile; joint 3", fall) + bath)
    assert "calcium-sulfate-in-wet-area" in wet and "calcium-sulfate-in-bathroom" not in wet


@pytest.mark.parametrize(("wait", "told"), [("9 h", True), ("8 h", False)])
def test_coat_and_tiles_on_one_day(wait: str, told: bool) -> None:
    """Between two works of one day lies the working day at most."""
    film = f"membrane own-film class DM; pack 14 kg; coats 2; wait {wait} before tiling"
    head = f'job "Bathroom"\n  hours mon-fri 08:00-16:00\n{film}'
    spec = wall(BASE, TILE, "shower zone", head=head)
    day = "2026-03-10"
    kinds = ("substrate", "first-coat", "second-coat", "membrane", "tiling")
    spec += "".join(f'record {k} on wall A {day} by "A. Finch"\n' for k in kinds)
    assert ("membrane-tiled-too-early" in names(spec)) is told


@pytest.mark.parametrize(("bed", "told"), [("4.9", True), ("5", False)])
def test_a_mat_lies_in_its_bed(bed: str, told: bool) -> None:
    """About 5 mm over the wires: common practice, from memory."""
    spec = floor(
        "base cement screed; thickness 65 mm; laid 2025-01-10", f"build-up bed {bed}", "heating mat; sensor at wall B; rcd 30 mA",
        "tile floor-tile; joint 3",
    ).replace("floor 2.4 x 1.8", "floor 2.4 x 1.8 heated")  # fmt: skip
    assert ("heating-cover-too-thin" in names(spec)) is told
    assert "heating-cover-too-thin" not in names(spec.replace("build-up bed", "build-up uncoupling 3, bed"))
