"""Heating and electricity: each rule at its limit, and what its message says. The document stands beside the figure."""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, names, only, practice
from tilespec.diagnostics.model import Severity

SCREED = "base cement screed; thickness 65 mm; laid 2025-11-01"
ANHYDRITE = "base calcium sulfate screed; thickness 50 mm; laid 2025-11-01"
LAID = "tile floor-tile; joint 3"
MAT = "heating warm mat screened; output 100 W/m2; voltage 230 V"
FALL = "fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A"
TILED = "\n  base cement render\n  tile floor-tile; joint 3\n"


def heated(
    *lines: str, head: str = MAT, base: str = SCREED, laid: str = "heating warm; sensor at wall B", records: str = ""
) -> str:
    """A heated floor of 2.4 x 1.8 m, with records after it."""
    return floor(base, laid, LAID, *lines, head=head).replace("floor 2.4 x 1.8", "floor 2.4 x 1.8 heated") + records


def record(kind: str, day: str, *more: str, by: str = "P. Wire") -> str:
    return "; ".join((f'record {kind} on floor {day} by "{by}"', *more)) + "\n"


# ---------------------------------------------------------------- what was read


@pytest.mark.parametrize(
    ("voltage", "reading", "fails"),
    [
        # IEC 60364-6: 1 Mohm at 500 V d.c.; 0.5 Mohm for SELV and PELV at 250 V d.c.
        ("230 V", "1 Mohm", False),
        ("230 V", "0.99 Mohm", True),
        ("24 V", "0.5 Mohm", False),
        ("24 V", "0.49 Mohm", True),
        # Extra-low to 50 V a.c.: from memory.
        ("50 V", "0.6 Mohm", False),
        ("51 V", "0.6 Mohm", True),
    ],
)
@pytest.mark.parametrize("kind", ["insulation-before", "insulation-cover", "insulation-after"])
def test_insulation(kind: str, voltage: str, reading: str, fails: bool) -> None:
    spec = heated(head=MAT.replace("230 V", voltage), records=record(kind, "2026-03-10", f"reading {reading}"))
    assert ("insulation-resistance-too-low" in names(spec)) is fails
    if fails:
        found = only(spec, "insulation-resistance-too-low")
        assert (at(spec, found), found.severity) == (reading, Severity.ERROR)
        assert not any("deviation" in n for n in found.notes)


def test_a_test_that_is_made_again_replaces_the_one_before() -> None:
    low, high = record("insulation-before", "2026-03-10", "reading 0.2"), record("insulation-before", "2026-03-11", "reading 200")
    assert "insulation-resistance-too-low" not in names(heated(records=low + high))
    assert only(heated(records=high.replace("11", "09") + low), "insulation-resistance-too-low")


@pytest.mark.parametrize(
    ("ohms", "fails"),
    [
        # 200 ohm on the label, 5 % less to 10 % more: makers' instructions.
        ("190", False),
        ("189.9", True),
        ("220", False),
        ("220.1", True),
    ],
)
def test_resistance_against_the_label(ohms: str, fails: bool) -> None:
    spec = heated(head=f"{MAT}; resistance 200 ohm", records=record("heating-before", "2026-03-10", f"reading {ohms}"))
    assert ("heating-resistance-out-of-band" in names(spec)) is fails


@pytest.mark.parametrize(
    ("ohms", "fails"),
    [
        # Ohm's law: 230 V squared by 2 m2 of 100 W/m2 is 264.5 ohm for one mat; 251.3 to 291 ohm.
        ("252", False),
        ("251", True),
        ("290", False),
        ("292", True),
    ],
)
def test_resistance_against_what_the_size_gives(ohms: str, fails: bool) -> None:
    spec = heated(head=f"{MAT}; pack 2 m2", records=record("heating-before", "2026-03-10", f"reading {ohms}"))
    assert ("heating-resistance-out-of-band" in names(spec)) is fails
    if fails:
        found = only(spec, "heating-resistance-out-of-band")
        assert "its size gives 264.5 ohm, so" in found.message and "resistance 176 ohm" in found.help
        # Nothing to go by: neither size nor label.
        assert "heating-resistance-out-of-band" not in names(spec.replace("; pack 2 m2", ""))


def test_two_mats_read_together_or_one_by_one() -> None:
    """Two of 1.5 m2 on 3.9 m2 of free floor: 352.7 ohm each, 176.3 ohm side by side (Ohm's law)."""
    for ohms, fails in (("176", False), ("352", False), ("250", True)):
        spec = heated(head=f"{MAT}; pack 1.5 m2", records=record("heating-before", "2026-03-10", f"reading {ohms}"))
        assert ("heating-resistance-out-of-band" in names(spec)) is fails


@pytest.mark.parametrize(("then", "fails"), [("190", False), ("189", True), ("220", False), ("221", True)])
def test_resistance_that_moves(then: str, fails: bool) -> None:
    """5 % down and 10 % up from 200 ohm, the tolerance that makers give for the label."""
    first = record("heating-before", "2026-03-10", "reading 200")
    spec = heated(records=first + record("heating-cover", "2026-03-11", f"reading {then}"))
    assert ("heating-resistance-changed" in names(spec)) is fails


def test_a_reading_off_the_label_is_told_once() -> None:
    first = record("heating-before", "2026-03-10", "reading 200")
    head = f"{MAT}; resistance 200 ohm"
    spec = heated(head=head, records=first + record("heating-cover", "2026-03-11", "reading 260"))
    found = names(spec)
    assert "heating-resistance-out-of-band" in found and "heating-resistance-changed" not in found


# ---------------------------------------------------------------- order and time


BEFORE, COVER = record("heating-before", "2026-03-10", "reading 200"), record("heating-cover", "2026-03-11", "reading 200")
AFTER = record("heating-after", "2026-03-13", "reading 200")


@pytest.mark.parametrize(
    ("records", "missing"),
    [
        # Three tests: makers' instructions agree.
        ((BEFORE, COVER, record("tiling", "2026-03-12")), ""),
        ((BEFORE, record("tiling", "2026-03-12")), "before it was covered"),
        ((COVER,), "before it was laid"),
        ((record("tiling", "2026-03-12"),), "before it was laid nor before it was covered"),
        ((BEFORE, COVER, record("heating-start", "2026-04-20")), "after tiling"),
        ((BEFORE, COVER, AFTER, record("heating-start", "2026-04-20")), ""),
        # A test of the insulation is a test.
        ((record("insulation-before", "2026-03-10", "reading 200"), COVER, record("tiling", "2026-03-12")), ""),
        # Nothing recorded yet, or only what comes before.
        ((), ""),
        ((record("membrane", "2026-03-09"),), ""),
    ],
)
def test_heating_that_was_covered(records: tuple[str, ...], missing: str) -> None:
    spec = heated(records="".join(records))
    if missing:
        assert only(spec, "heating-covered-untested").message.endswith(f"its heating was not measured {missing}.")
    else:
        assert "heating-covered-untested" not in names(spec)


def test_pipes_have_no_resistance() -> None:
    spec = heated(head="heating warm pipes; output 80 W/m2", laid="heating warm", records=record("tiling", "2026-03-12"))
    assert "heating-covered-untested" not in names(spec)


PIPES = "heating warm pipes; output 80 W/m2"


@pytest.mark.parametrize(
    ("head", "days", "fails"),
    [
        # UK trade notes: 14 days deformable or fast, 28 days others.
        (f"{PIPES}\nadhesive own class C2TE S1; pack 25 kg", 14, False),
        (f"{PIPES}\nadhesive own class C2TE S1; pack 25 kg", 13, True),
        # The adhesive's own time.
        (f"{PIPES}\nadhesive own class C2TE S1; pack 25 kg; wait 7 d before heating", 7, False),
        (f"{PIPES}\nadhesive own class C2TE S1; pack 25 kg; wait 7 d before heating", 6, True),
        # UK trade press: electric heating 5 days at least, however fast the adhesive is.
        (f"{MAT}\nadhesive own class C2FT S1; pack 25 kg; wait 24 h before heating", 5, False),
        (f"{MAT}\nadhesive own class C2FT S1; pack 25 kg; wait 24 h before heating", 4, True),
        # The generic adhesive is only a guess.
        (PIPES, 1, False),
        (MAT, 5, False),
        (MAT, 4, True),
    ],
)
def test_first_warmth(head: str, days: int, fails: bool) -> None:
    start = record("heating-start", f"2026-03-{12 + days:02d}")
    laid = "heating warm; sensor at wall B" if head.startswith(MAT) else "heating warm"
    spec = heated(head=head, laid=laid, records=record("tiling", "2026-03-12") + start)
    assert ("heating-started-too-early" in names(spec)) is fails


@pytest.mark.parametrize(
    ("base", "day", "fails"),
    [
        # EN 1264-4: 21 days cement, 7 days calcium sulfate; laid on 2025-11-01, the cycle lasts 7 days.
        (SCREED, "2025-11-29", False),
        (SCREED, "2025-11-28", True),
        (ANHYDRITE, "2025-11-15", False),
        (ANHYDRITE, "2025-11-14", True),
    ],
)
def test_age_of_a_screed_that_is_heated(base: str, day: str, fails: bool) -> None:
    spec = heated(head="", base=base, laid="heating pipes", records=record("heating-cycle", day, "lasted 7 d"))
    assert ("screed-heated-too-early" in names(spec)) is fails
    # Where its length is not said, the day it was signed is all that is known.
    unsaid = spec.replace("; lasted 7 d", "")
    assert "screed-heated-too-early" not in names(unsaid)


@pytest.mark.parametrize(
    ("family", "lasted", "fails"),
    [
        # EN 1264-4: 3 days and 4 days; BS 5385-3 annex C: 3 days at the highest.
        ("EN", "7 d", False),
        ("EN", "167 h", True),
        ("UK", "6 d", False),
        ("UK", "143 h", True),
    ],
)
def test_length_of_the_heating_cycle(family: str, lasted: str, fails: bool) -> None:
    records = record("heating-cycle", "2026-02-20", f"lasted {lasted}")
    spec = heated(head=practice(family), laid="heating pipes", records=records)
    assert ("heating-cycle-too-short" in names(spec)) is fails


CYCLE = record("heating-cycle", "2026-02-20", "lasted 7 d")
MOIST = record("substrate-moisture", "2026-03-06", "reading 1.6 CM%")


@pytest.mark.parametrize(
    ("records", "fails"),
    [
        # The heating cycle is no drying: comment on EN 1264-4 in the heating trade's press.
        (CYCLE + record("primer", "2026-03-09"), True),
        (CYCLE + MOIST + record("primer", "2026-03-09"), False),
        (CYCLE, False),
        # Not recorded as heated through: another question.
        (record("primer", "2026-03-09"), False),
    ],
)
def test_moisture_after_the_heating_cycle(records: str, fails: bool) -> None:
    spec = heated(head="", laid="heating pipes", records=records)
    assert ("moisture-not-read-after-heating-cycle" in names(spec)) is fails


# ---------------------------------------------------------------- electricity


@pytest.mark.parametrize(("rcd", "fails"), [("10 mA", False), ("30 mA", False), ("31 mA", True), ("300 mA", True)])
def test_residual_current(rcd: str, fails: bool) -> None:
    """30 mA: IEC 60364-7-701, 701.415, as the electrical trade's press quotes it."""
    spec = floor(SCREED, LAID, FALL, f"rcd {rcd}")
    assert ("rcd-trips-too-late" in names(spec)) is fails
    # A dry floor that is not heated is no such room.
    assert "rcd-trips-too-late" not in names(floor(SCREED, LAID, f"rcd {rcd}"))


BATH = "bath along wall A, 1.0 x 0.75, 0 from left; rim 0.56\n"
TRAY = "shower on wall A, 1.0 x 0.9; 0 from left; tray; head at height 2.1\n"


def wall_with(socket: str, thing: str, wall: str = "A") -> str:
    walls = "".join(f"wall {w}{TILED}" + (f"  socket {socket}\n" if w == wall else "") for w in "ABD")
    return floor(SCREED, LAID, size="3.4 x 2.4") + thing + walls


@pytest.mark.parametrize("thing", [BATH, TRAY])
@pytest.mark.parametrize(
    ("socket", "fails"),
    [
        # Zone 2 ends 0.6 m beyond the bath or tray, both zones at 2.25 m: IEC 60364-7-701 as the trade's press draws it.
        ("1.6 from left, 1.1 up", False),
        ("1.59 from left, 1.1 up", True),
        # Its edge counts.
        ("1.634 from left, 1.1 up; diameter 68", False),
        ("1.63 from left, 1.1 up; diameter 68", True),
        ("0.5 from left, 2.25 up", False),
        ("0.5 from left, 2.24 up", True),
        ("1.59 from left, 0.3 up", True),
    ],
)
def test_socket_beside_a_bath_or_a_tray(thing: str, socket: str, fails: bool) -> None:
    assert ("socket-in-zone" in names(wall_with(socket, thing))) is fails


@pytest.mark.parametrize(
    ("socket", "wall", "fails"),
    [
        # The bath stands 0.75 m out from wall A: on wall D, seen from inside, its edge is that far from the right end.
        ("1.06 from left, 1.1 up", "D", True),
        ("1.04 from left, 1.1 up", "D", False),
        ("0.3 from left, 1.1 up", "B", False),
    ],
)
def test_socket_on_the_next_wall(socket: str, wall: str, fails: bool) -> None:
    assert ("socket-in-zone" in names(wall_with(socket, BATH, wall))) is fails


@pytest.mark.parametrize(
    ("outlet", "socket", "fails"),
    [
        # Without a tray 1.2 m from the fixed outlet, no zone 2: IEC 60364-7-701.
        ("; outlet on wall A 0.5 from left, 2.0 up", "1.7 from left, 1.1 up", False),
        ("; outlet on wall A 0.5 from left, 2.0 up", "1.69 from left, 1.1 up", True),
        # The valve stands for an outlet that is not said.
        ("; valve on wall A 0.3 from left, 1.1 up", "1.49 from left, 1.1 up", True),
        ("; valve on wall A 0.3 from left, 1.1 up", "1.5 from left, 1.1 up", False),
        ("", "0.9 from left, 1.3 up", True),
        ("", "1.1 from left, 1.3 up", False),
    ],
)
def test_socket_beside_a_level_shower(outlet: str, socket: str, fails: bool) -> None:
    thing = f"shower on wall A, 1.0 x 0.9; 0 from left; head at height 2.1{outlet}\n"
    assert ("socket-in-zone" in names(wall_with(socket, thing))) is fails


def test_a_socket_in_a_zone_is_shown_with_its_bath() -> None:
    found = only(wall_with("1.2 from left, 1.1 up", BATH), "socket-in-zone")
    assert found.message == "The socket on wall A stands within 0.6 m of the bath: no socket may be there below 2.25 m."
    assert [s.text for s in found.secondary] == ["this bath"]


# ---------------------------------------------------------------- the element itself


@pytest.mark.parametrize(
    ("head", "fails"),
    [
        # IEC 60364-7-701, 701.753: from memory.
        (MAT, False),
        (MAT.replace(" screened", ""), True),
        (MAT.replace(" screened", "").replace("230 V", "24 V"), False),
        ("", False),
    ],
)
def test_screen(head: str, fails: bool) -> None:
    laid = "heating warm; sensor at wall B" if head else "heating mat; sensor at wall B"
    assert ("heating-without-screen" in names(heated(FALL, head=head, laid=laid))) is fails
    # Outside a wet room it is not asked for.
    assert "heating-without-screen" not in names(heated(head=head, laid=laid))


TIMBER = "base timber; joists 400 mm; boards 22 mm; span 2.4 m"


@pytest.mark.parametrize(
    ("base", "output", "laid", "fails"),
    [
        # EN 60335-2-96 as described: a floor sensor keeps timber at 35 degrees C.
        (TIMBER, "100", "heating warm", True),
        (TIMBER, "100", "heating warm; sensor at wall B", False),
        (SCREED, "100", "heating warm", False),
        # Over 100 W/m2 it is too strong for timber as well: that is another rule's.
        (TIMBER, "101", "heating warm", True),
    ],
)
def test_sensor_on_timber(base: str, output: str, laid: str, fails: bool) -> None:
    spec = heated("build-up board 12, bed 6", head=MAT.replace("output 100", f"output {output}"), base=base, laid=laid)
    assert ("heating-without-sensor-on-timber" in names(spec)) is fails


@pytest.mark.parametrize(("pack", "fails"), [("3.91", False), ("3.92", True)])
def test_mat_on_the_free_floor(pack: str, fails: bool) -> None:
    """2.3 x 1.7 m are free of the strip along the walls: 3.91 m2 (computed)."""
    assert ("mat-larger-than-free-floor" in names(heated(head=f"{MAT}; pack {pack} m2"))) is fails


def test_what_stands_on_the_floor_is_not_free() -> None:
    spec = heated('fixture "WC" 0.4 x 0.6; 0.2 from wall B, 0 from wall A', head=f"{MAT}; pack 3.8 m2")
    assert "3.7 m2 of the floor is free" in only(spec, "mat-larger-than-free-floor").message


@pytest.mark.parametrize(("pack", "fails"), [("2.52", False), ("2.53", True), ("4", False)])
def test_mat_between_movement_joints(pack: str, fails: bool) -> None:
    """The larger bay is 1.4 x 1.8 m (computed). A mat that fits nowhere is another rule's."""
    spec = heated("movement joint 1.0 from wall D; width 10", head=f"{MAT}; pack {pack} m2")
    assert ("mat-across-movement-joint" in names(spec)) is fails


@pytest.mark.parametrize(
    ("layers", "fails"),
    [
        # 5 mm: common practice, from memory.
        ("mat 3, bed 5", False),
        ("mat 3, bed 4.9", True),
        ("heating 4, leveller 4, membrane 2, bed 1", False),
        ("heating 4, membrane 6", True),
        ("bed 3, mat 3", True),
        # It does not say where the mat lies.
        ("leveller 6, membrane 1, bed 4", False),
    ],
)
def test_cover_of_the_heating(layers: str, fails: bool) -> None:
    assert ("heating-cover-too-thin" in names(heated(f"build-up {layers}"))) is fails
