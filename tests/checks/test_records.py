"""Records and the order of work: what a signature, a date or a `fail` shows."""

from __future__ import annotations

import pytest

from tests.checks.specs import at, floor, names, only, practice, said, wall
from tilespec.diagnostics.model import Severity

RENDER = ("base cement render", "tile wall-tile; joint 3")
SCREED = "base cement screed; thickness 65 mm; laid 2025-10-01"
LAID = "tile floor-tile; joint 3"
GRIP = "adhesive own class C2TE S1; pack 25 kg"


def records(*lines: str) -> str:
    """Records of wall A by one who looks; `kind date`, and what else is said."""
    return "".join(f'record {line.split()[0]} on wall A {line.split()[1]} by "A. Finch"{line.partition(";")[1]}'
                   f"{line.partition(';')[2]}\n" for line in lines)  # fmt: skip


def found(*lines: str, head: str = "", more: tuple[str, ...] = ()) -> list[str]:
    return names(wall(*RENDER, *more, head=head) + records(*lines))


# ---------------------------------------------------------------- holds that failed


@pytest.mark.parametrize(
    ("lines", "fails"),
    [
        # A hold point that failed releases nothing: common practice.
        (("substrate 2026-03-09; result fail",), False),
        (("substrate 2026-03-09; result fail", "primer 2026-03-11"), True),
        (("substrate 2026-03-09; result fail", "substrate 2026-03-10; result pass", "primer 2026-03-11"), False),
        (("substrate 2026-03-09; result fail", "substrate 2026-03-10", "primer 2026-03-11"), False),
        (("substrate 2026-03-09; result pass", "primer 2026-03-11"), False),
        # A reading that failed is passed by the acceptance that it was taken for.
        (("substrate-flatness 2026-03-08; reading 5 mm; over 2 m; result fail", "substrate 2026-03-09"), False),
        (("substrate-strength 2026-03-08; reading 0.2; result fail", "substrate 2026-03-06", "primer 2026-03-11"), True),
        # What is looked at goes over nothing.
        (("substrate 2026-03-01", "tiling 2026-03-12; result fail", "lippage 2026-03-13; reading 0.5"), False),
        (("substrate 2026-03-01", "lippage 2026-03-13; reading 3; result fail", "grouting 2026-03-16"), True),
    ],
)
def test_work_goes_on_after_a_hold_that_failed(lines: tuple[str, ...], fails: bool) -> None:
    assert ("hold-failed" in found(*lines)) is fails


def test_what_the_message_of_a_failed_hold_says() -> None:
    spec = wall(*RENDER) + records("substrate 2026-03-09; result fail", "primer 2026-03-11")
    d = only(spec, "hold-failed")
    assert d.message == "`substrate` failed for wall A on 2026-03-09, and `primer` is signed for on 2026-03-11."
    assert at(spec, d).startswith("record substrate") and d.severity is Severity.ERROR
    assert "add `record substrate` with the day and who signed" in d.help


def test_a_pass_on_another_surface_clears_nothing() -> None:
    spec = wall(*RENDER) + wall(*RENDER, letter="B").split("\n", 1)[1]
    failed = 'record tiling "on" 2026-03-09 by "A. Finch"; result fail\n'.replace('"on"', "on wall A")
    later = 'record grouting on wall A 2026-03-12 by "A. Finch"\n'
    first = 'record substrate 2026-03-01 by "A. Finch"\n'
    one = 'record tiling on wall B 2026-03-10 by "A. Finch"\n'
    room = 'record tiling 2026-03-10 by "A. Finch"\n'
    assert "hold-failed" in names(spec + first + failed + one + later)
    assert "hold-failed" not in names(spec + first + failed + room + later)
    # A room that failed is cleared by a pass on each of its surfaces.
    whole = 'record tiling 2026-03-09 by "A. Finch"; result fail\n'
    other = one.replace("wall B", "wall A")
    assert "hold-failed" in names(spec + first + whole + one + later)
    assert "hold-failed" not in names(spec + first + whole + one + other + later)


def test_the_waterproofing_has_a_rule_of_its_own_that_no_reason_silences() -> None:
    spec = wall(*RENDER, "shower zone") + records(
        "substrate 2026-03-06", "membrane 2026-03-10; result fail", "tiling 2026-03-12"
    )
    assert names(spec) == ["water-test-failed"]
    assert names(spec + 'deviation water-test-failed on wall A because "no time"\n') == ["water-test-failed", "deviation-refused"]
    ponding = floor(SCREED, LAID, "membrane none").replace("  membrane none\n", "")
    ponding += 'record ponding on floor 2026-03-10 by "A. Finch"; result fail\nrecord tiling on floor 2026-03-12 by "A. Finch"\n'
    assert "water-test-failed" in names(ponding)


def test_electric_tests_that_failed_hold_the_tiling() -> None:
    head = "heating own mat screened; output 150 W/m2; voltage 230 V"
    spec = floor(SCREED, "heating own; sensor at wall B", LAID, head=head).replace("2.4 x 1.8", "2.4 x 1.8 heated")
    failed = 'record insulation-cover on floor 2026-03-10 by "V. Reed"; reading 0.1 Mohm; result fail\n'
    base = 'record substrate on floor 2026-03-06 by "A. Finch"\n'
    later = 'record tiling on floor 2026-03-12 by "A. Finch"\n'
    d = only(spec + base + failed + later, "safety-test-failed")
    assert "licensed electrician" in d.help
    assert "safety-test-failed" not in names(spec + base + failed)


# ---------------------------------------------------------------- holds that were skipped


@pytest.mark.parametrize(
    ("lines", "fails"),
    [
        # The base is accepted before anything covers it: common practice.
        (("tiling 2026-03-12",), True),
        (("grouting 2026-03-14",), True),
        # The date of a coat is kept for its wait and signs for nothing.
        (("primer 2026-03-11",), False),
        (("substrate 2026-03-09", "tiling 2026-03-12"), False),
        # A measurement is no signature for work, and a moisture reading covers nothing.
        (("contact 2026-03-12; reading 96 %; samples 3",), False),
        (("substrate-moisture 2026-03-01; reading 72 %RH",), False),
        ((), False),
    ],
)
def test_a_base_that_nobody_accepted(lines: tuple[str, ...], fails: bool) -> None:
    assert ("base-not-accepted" in found(*lines)) is fails


def test_what_the_message_of_a_skipped_hold_says() -> None:
    spec = wall(*RENDER) + records("tiling 2026-03-12", "grouting 2026-03-14")
    d = only(spec, "base-not-accepted")
    assert d.message == "Wall A was tiled by 2026-03-12, and nobody signed for its base before."
    assert at(spec, d) == "tiling"
    assert '`record substrate on wall A YEAR-MONTH-DAY by "..."`' in d.help


def test_a_record_of_the_room_is_told_once_for_all_of_its_surfaces() -> None:
    spec = wall(*RENDER) + wall(*RENDER, letter="B").split("\n", 1)[1] + 'record tiling 2026-03-12 by "A. Finch"\n'
    d = only(spec, "base-not-accepted")
    assert "The same holds for wall B." in d.notes and "`record substrate YEAR-MONTH-DAY" in d.help
    assert "base-not-accepted" not in names(spec + 'record substrate 2026-03-06 by "A. Finch"\n')


def test_a_membrane_that_nobody_accepted() -> None:
    """Accepted before it is covered: common practice."""
    tiled = ("substrate 2026-03-06", "tiling 2026-03-12")
    assert "membrane-not-accepted" in found(*tiled, more=("shower zone",))
    assert "membrane-not-accepted" not in found(*tiled)
    assert "membrane-not-accepted" not in found("substrate 2026-03-06", "second-coat 2026-03-09", more=("shower zone",))
    assert "membrane-not-accepted" not in found(*tiled, "membrane 2026-03-10", more=("shower zone",))


def test_pipes_that_nobody_tested() -> None:
    """Under pressure, while they can be reached: common practice; the licensed plumber's."""
    tiled = ("substrate 2026-03-06", "tiling 2026-03-12")
    assert "pipes-not-tested" in found(*tiled, more=("pipe 1.2 from left, 0.6 up; diameter 15",))
    # A waste is not under pressure.
    assert "pipes-not-tested" not in found(*tiled, more=("outlet 1.2 from left, 0.6 up; diameter 40",))
    assert "pipes-not-tested" not in found(*tiled)


# ---------------------------------------------------------------- who signs


@pytest.mark.parametrize(("doer", "fails"), [("A. Finch", True), ("a.  FINCH", True), ("J. Rook", False)])
def test_who_did_the_work_does_not_sign_for_it(doer: str, fails: bool) -> None:
    assert ("signed-by-the-doer" in found(f'substrate 2026-03-09; work by "{doer}"')) is fails


def test_a_hold_of_another_trade_is_not_released_by_the_tiler() -> None:
    spec = wall(*RENDER) + records("substrate 2026-03-06", 'tiling 2026-03-12; work by "J. Rook"')
    test = 'record pressure-test on wall A 2026-03-05 by "J. Rook"\n'
    d = only(spec + test, "released-by-the-tiler")
    assert d.message == "J. Rook signs `pressure-test` for wall A, and did the `tiling` of the same job."
    assert "Let a licensed plumber look at it" in d.help
    assert "released-by-the-tiler" not in names(spec + test.replace("J. Rook", "T. Wells"))
    # One's own work is told by the other rule alone.
    own = spec + test.replace("\n", '; work by "J. Rook"\n')
    assert "released-by-the-tiler" not in names(own) and "signed-by-the-doer" in names(own)


# ---------------------------------------------------------------- waits between records


@pytest.mark.parametrize(
    ("cls", "day", "fails"),
    [
        # Trade press: 24 h for normal setting; EN 12004-1 as restated: 6 h for option F. Whole days only.
        ("C2TE S1", "2026-03-12", True),
        ("C2TE S1", "2026-03-13", False),
        ("C2FT S1", "2026-03-12", False),
    ],
)
def test_grouting_after_tiling(cls: str, day: str, fails: bool) -> None:
    head = f"adhesive own class {cls}; pack 25 kg"
    assert ("grouted-too-early" in found("substrate 2026-03-09", "tiling 2026-03-12", f"grouting {day}", head=head)) is fails


@pytest.mark.parametrize(("day", "fails"), [("2026-03-13", True), ("2026-03-14", False)])
def test_between_membrane_and_porcelain_it_takes_longer(day: str, fails: bool) -> None:
    """Trade press: 48 h."""
    lines = ("substrate 2026-03-09", "membrane 2026-03-10", "tiling 2026-03-12", f"grouting {day}")
    assert ("grouted-too-early" in found(*lines, head=GRIP, more=("shower zone",))) is fails


def test_the_data_sheet_wins_and_the_cold_makes_it_longer() -> None:
    lines = ("substrate 2026-03-09", "tiling 2026-03-12", "grouting 2026-03-13")
    head = f"{GRIP}; wait 30 h before grouting"
    assert "grouted-too-early" not in found(*lines, head=head)
    # 30 h at 21 C are 60 h at 13 C, eight kelvin colder: rule of thumb of the trade.
    cold = f"conditions air 14 C; humidity 60 %; surface 13 C\n{head}"
    d = only(wall(*RENDER, head=cold) + records(*lines), "grouted-too-early")
    assert "adhesive own sets for 60 h first" in d.message and "2026-03-14 would be the first day" in d.help


def test_an_adhesive_that_nobody_chose_says_nothing() -> None:
    assert "grouted-too-early" not in found("substrate 2026-03-09", "tiling 2026-03-12", "grouting 2026-03-12")


@pytest.mark.parametrize(("day", "fails"), [("2026-03-16", True), ("2026-03-17", False)])
def test_sealing_after_grouting(day: str, fails: bool) -> None:
    """24 h before light traffic: common practice."""
    head = "grout own class CG2WA; pack 5 kg"
    assert ("sealed-too-early" in found("substrate 2026-03-09", "grouting 2026-03-16", f"sealing {day}", head=head)) is fails


@pytest.mark.parametrize(("day", "fails"), [("2026-03-22", True), ("2026-03-23", False)])
def test_first_use(day: str, fails: bool) -> None:
    """Seven days: common practice, no source."""
    done = ("substrate 2026-03-06", "membrane 2026-03-10", "grouting 2026-03-15", "sealing 2026-03-16")
    assert ("used-too-early" in found(*done, f"first-use {day}", more=("shower zone",))) is fails
    assert "used-too-early" not in found(*done, f"first-use {day}")


def test_the_sheet_of_the_grout_may_ask_for_more() -> None:
    head = "grout own class CG2WA; pack 5 kg; wait 10 d before water"
    lines = ("substrate 2026-03-06", "membrane 2026-03-10", "grouting 2026-03-15", "first-use 2026-03-24")
    d = only(wall(*RENDER, "shower zone", head=head) + records(*lines), "used-too-early")
    assert "2026-03-25 would be the first day" in d.help and any("Grout own: 10 d" in n for n in d.notes)


# ---------------------------------------------------------------- dates


@pytest.mark.parametrize(
    ("kind", "fails"), [("tiling", True), ("grouting", True), ("substrate", False), ("pressure-test", False)]
)
def test_work_before_the_job_begins(kind: str, fails: bool) -> None:
    head = 'job "Bathroom"\n  begin 2026-03-09'
    assert ("record-before-begin" in found(f"{kind} 2026-03-08", head=head)) is fails
    assert "record-before-begin" not in found(f"{kind} 2026-03-09", head=head)


@pytest.mark.parametrize(("day", "fails"), [("2025-09-30", True), ("2025-10-01", False)])
def test_records_before_the_base_was_laid(day: str, fails: bool) -> None:
    spec = floor(SCREED, LAID, head=practice("EN")) + f'record substrate on floor {day} by "A. Finch"\n'
    assert ("record-before-base" in names(spec)) is fails
    test = spec.replace("record substrate", "record pressure-test")
    assert "record-before-base" not in names(test)


def test_a_job_without_records_is_silent() -> None:
    assert said(wall(*RENDER, "shower zone", "pipe 1.2 from left, 0.6 up; diameter 15", head=GRIP)) == ()
