"""Membranes and their tests at the limits: just inside passes, just outside fails; and what the messages say.

The document stands beside the figure.
"""

from __future__ import annotations

import pytest

from tests.checks.specs import at, names, only, practice, said, wall
from tilespec.diagnostics.model import Severity

DM = "membrane own-film class DM; pack 14 kg; coats 2; consumption 0.75 kg/m2"


def shower(*records: str, head: str = DM, family: str = "EN") -> str:
    """One shower wall with a membrane of its own, and what was recorded of it."""
    lines = "".join(f"record {r}\n" for r in records)
    return wall("base cement render", "tile wall-tile; joint 3", "shower zone", head=f"{practice(family)}\n{head}") + lines


def wet_room(*records: str, family: str = "EN", base: str = "", head: str = "", door: str = "") -> str:
    """A wet floor with its drain, and what was recorded of it."""
    lines = "".join(f"record {r}\n" for r in records)
    way = f"wall C 2.4 x 2.4\n  base cement render\n  tile floor-tile; joint 3\n  {door}\n" if door else ""
    return (
        f"{practice(family)}\n{head}\n"
        "tile floor-tile 100x100x8 porcelain; barefoot class B; dcof 0.6; pendulum 40\nfloor 2.4 x 1.8\n"
        f"  base cement screed; thickness 65 mm; laid 2025-01-10{base}\n  tile floor-tile; joint 3\n"
        "  fall 1:36 four planes; drain 1.2 from wall D, 0.9 from wall A\n"
        f"wall A 2.4 x 2.4\n  base cement render\n  tile floor-tile; joint 3\n  shower zone\n{way}{lines}"
    )


def ponding(rest: str, day: str = "2026-03-12") -> str:
    return f'ponding on floor {day} by "A. Finch"; {rest}'


# ---------------------------------------------------------------- film and coats


@pytest.mark.parametrize(
    ("cls", "reading", "fails"),
    [
        # DIN 18534-3: 0.5 mm dispersion, 2 mm cement, 1 mm reaction resin.
        ("DM", "0.5", False),
        ("DM", "0.4", True),
        ("CM", "2", False),
        ("CM", "1.9", True),
        ("RM", "1", False),
        ("RM", "0.9", True),
    ],
)
def test_film_as_read(cls: str, reading: str, fails: bool) -> None:
    head = DM.replace("DM", cls)
    spec = shower(f'membrane-thickness on wall A 2026-03-10 by "A. Finch"; reading {reading}', head=head)
    assert ("film-reading-too-thin" in names(spec)) is fails


def test_the_data_sheet_may_ask_for_more() -> None:
    read = 'membrane-thickness on wall A 2026-03-10 by "A. Finch"; reading 0.7 mm'
    found = only(shower(read, head=f"{DM}; film 0.8 mm"), "film-reading-too-thin")
    assert found.message == "The membrane on wall A was read 0.7 mm thick; own-film takes 0.8 mm at least."
    assert found.notes[0] == "The film is that of its own data sheet."
    assert "film-reading-too-thin" not in names(shower(read))


def test_the_last_reading_of_the_film_counts() -> None:
    thin = 'membrane-thickness on wall A {} by "A. Finch"; reading 0.3 mm'
    good = 'membrane-thickness on wall A {} by "A. Finch"; reading 0.6 mm'
    assert "film-reading-too-thin" not in names(shower(thin.format("2026-03-10"), good.format("2026-03-12")))
    assert "film-reading-too-thin" in names(shower(good.format("2026-03-10"), thin.format("2026-03-12")))
    # Two places read on one day.
    assert "film-reading-too-thin" in names(shower(thin.format("2026-03-10"), good.format("2026-03-10")))


def test_a_membrane_that_nobody_named_is_not_judged_by_its_film() -> None:
    read = 'membrane-thickness on wall A 2026-03-10 by "A. Finch"; reading 0.3 mm'
    assert "film-reading-too-thin" not in names(shower(read, head=""))
    assert "film-reading-too-thin" not in names(shower(read, head="membrane own-sheet sheet; pack 30 m2"))


def test_a_reading_of_the_room_is_one_message() -> None:
    spec = wet_room('membrane-thickness 2026-03-10 by "A. Finch"; reading 0.3 mm', head=DM)
    assert "The same holds for wall A." in only(spec, "film-reading-too-thin").notes


@pytest.mark.parametrize(
    ("records", "fails"),
    [
        # DIN 18534-3 as restated: two coats at least.
        (("first-coat on wall A 2026-03-09", "membrane on wall A 2026-03-11"), True),
        (("first-coat on wall A 2026-03-09", "second-coat on wall A 2026-03-10", "membrane on wall A 2026-03-11"), False),
        (("first-coat on wall A 2026-03-09",), False),
        (("membrane on wall A 2026-03-11",), False),
        (("first-coat on wall A 2026-03-09", "second-coat 2026-03-10", "membrane on wall A 2026-03-11"), False),
    ],
)
def test_the_second_coat_is_signed_for(records: tuple[str, ...], fails: bool) -> None:
    spec = shower(*(f'{r} by "J. Rook"' for r in records))
    assert ("second-coat-not-recorded" in names(spec)) is fails


# ---------------------------------------------------------------- product and place


@pytest.mark.parametrize(
    ("family", "cls", "fails"),
    [("US", "class DM; ", True), ("US", "class A118.10; ", False), ("US", "", True), ("EN", "class DM; ", False)],
)
def test_the_us_standard(family: str, cls: str, fails: bool) -> None:
    """ANSI A118.10, referenced by the model plumbing and residential codes."""
    spec = shower(head=DM.replace("class DM; ", cls), family=family)
    assert ("membrane-without-standard" in names(spec)) is fails
    assert "membrane-without-standard" not in names(shower(head="", family=family))


FLOOR = """\
tile plain-tile 300x300x9 porcelain; barefoot class B; pendulum 40; dcof 0.6
floor {size}
  base concrete
  tile plain-tile; joint 3
  membrane none
{thing}
wall A 2.4 x 2.4
  base cement render
  tile plain-tile; joint 3
wall D {deep} x 2.4
  base cement render
  tile plain-tile; joint 3
"""
TRAY = "shower in corner D A, 0.9 x 0.9; tray; head at 2.0"
BATH = "bath along wall A, 1.7 x 0.75, 0 from left; rim 0.56"


def bare(thing: str, family: str, size: str = "2.4 x 2.4", deep: str = "2.4") -> str:
    return practice(family) + "\n" + FLOOR.format(size=size, thing=thing, deep=deep)


@pytest.mark.parametrize("family", ["EN", "AU", "UK", "US"])
def test_the_spray_of_an_open_shower(family: str) -> None:
    """ABCB Housing Provisions 10.2.18: 1500 mm from the rose of an unenclosed shower; common practice elsewhere."""
    spec = bare(TRAY, family)
    found = only(spec, "open-shower-reach-short")
    assert at(spec, found) == "none"
    assert f"as far as {'59 1/16 in (1500 mm)' if family == 'US' else '1500 mm'}" in found.message
    assert "open-shower-reach-short" not in names(spec.replace("tray;", "tray; screen;"))
    assert "open-shower-reach-short" not in names(spec.replace("  membrane none\n", ""))
    # One mistake, one message: the advice on bathrooms in the UK is not given as well.
    assert "bathroom-floor-without-membrane" not in names(spec)


@pytest.mark.parametrize(("family", "fails"), [("UK", True), ("EN", False), ("US", False)])
def test_advice_on_bathroom_floors(family: str, fails: bool) -> None:
    """BS 5385-1:2018, 6.1.1.3, as reported: tanking recommended for wet areas at home."""
    assert ("bathroom-floor-without-membrane" in names(bare(BATH, family, "2.4 x 1.8", "1.8"))) is fails
    screened = bare(TRAY.replace("tray;", "tray; screen;"), family)
    assert ("bathroom-floor-without-membrane" in names(screened)) is fails


@pytest.mark.parametrize(("width", "fails"), [("100", False), ("99", True)])
def test_width_of_tape(width: str, fails: bool) -> None:
    """50 mm bonded on each side: common practice, no source."""
    assert ("tape-too-narrow" in names(shower(head=f"{DM}\ntape own-tape pack 10 m; width {width}"))) is fails
    assert "tape-too-narrow" not in names(shower(head=f"{DM}\ntape own-tape pack 10 m"))


@pytest.mark.parametrize(("colour", "fails"), [("blue", True), ("grey", True), ("white", False), ("yellow", False)])
def test_a_dark_membrane_shows_through(colour: str, fails: bool) -> None:
    """Common practice, no source."""
    head = f"{DM}; colour {colour}"
    gem = shower(head=head).replace("300x300x9 porcelain; weight 20 kg/m2", "300x300x6 mosaic glass translucent; chips 25 x 25")
    assert ("dark-membrane-under-translucent-tile" in names(gem)) is fails
    assert "dark-membrane-under-translucent-tile" not in names(shower(head=head))


# ---------------------------------------------------------------- times between records

COATED = 'first-coat on wall A 2026-03-09 by "J. Rook"'


@pytest.mark.parametrize(
    ("longest", "day", "fails"),
    [
        # Computed: from the 9th to the 11th lie 24 h at the least, whatever the hours were.
        ("24 h", "2026-03-10", False),
        ("24 h", "2026-03-11", True),
        ("48 h", "2026-03-11", False),
        ("48 h", "2026-03-12", True),
    ],
)
def test_a_second_coat_too_late(longest: str, day: str, fails: bool) -> None:
    head = f"{DM}; wait 2 h to {longest} between coats"
    spec = shower(COATED, f'second-coat on wall A {day} by "J. Rook"', head=head)
    assert ("membrane-overcoated-too-late" in names(spec)) is fails


def test_a_first_coat_done_again_counts_from_its_day() -> None:
    head = f"{DM}; wait 2 h to 24 h between coats"
    again = 'first-coat on wall A 2026-03-12 by "J. Rook"'
    assert "membrane-overcoated-too-late" not in names(
        shower(COATED, again, 'second-coat on wall A 2026-03-12 by "J. Rook"', head=head)
    )


def test_what_to_do_is_in_the_words_of_the_data_sheet() -> None:
    head = f'{DM}; wait 2 h to 24 h between coats; overrun "Roughen it, then go on"'
    found = only(shower(COATED, 'second-coat on wall A 2026-03-13 by "J. Rook"', head=head), "membrane-overcoated-too-late")
    assert found.help == "Roughen it, then go on." and found.severity is Severity.ERROR


@pytest.mark.parametrize(
    ("least", "day", "fails"),
    [
        # Computed: from the 9th to the 10th lie 48 h at the most.
        ("24 h", "2026-03-09", True),
        ("24 h", "2026-03-10", False),
        ("48 h", "2026-03-10", True),
        ("48 h", "2026-03-11", False),
        ("4 h", "2026-03-09", False),
    ],
)
def test_tiled_on_a_soft_membrane(least: str, day: str, fails: bool) -> None:
    records = (COATED, 'second-coat on wall A 2026-03-09 by "J. Rook"', f'membrane on wall A {day} by "A. Finch"')
    spec = shower(*records, f'tiling on wall A {day} by "A. Finch"', head=f"{DM}; wait {least} before tiling")
    assert ("membrane-tiled-too-early" in names(spec)) is fails


@pytest.mark.parametrize(("day", "fails"), [("2026-03-06", True), ("2026-03-07", False)])
def test_a_primer_left_open(day: str, fails: bool) -> None:
    """Computed: from the 6th to the 9th lie 48 h at the least."""
    primer = "primer own-primer dispersion; pack 5 kg; wait 4 h to 48 h before membrane"
    spec = shower(f'primer on wall A {day} by "J. Rook"', COATED, head=f"{DM}\n{primer}")
    assert ("primer-covered-too-late" in names(spec)) is fails


def test_a_practice_value_is_no_promise_of_the_product() -> None:
    primed = 'primer on wall A 2026-02-06 by "J. Rook"'
    spec = shower(primed, COATED, 'second-coat on wall A 2026-03-30 by "J. Rook"')
    assert [n for n in names(spec) if "too-late" in n] == []


# ---------------------------------------------------------------- ponding


@pytest.mark.parametrize(("depth", "fails"), [("100", False), ("101", True)])
def test_depth_of_a_ponding_test(depth: str, fails: bool) -> None:
    """ASTM D5957-98(2021): 100 mm; written for decks, borrowed as guidance."""
    assert ("ponding-too-deep" in names(wet_room(ponding(f"reading {depth}; lasted 24 h")))) is fails


@pytest.mark.parametrize(
    ("depth", "carries", "found"),
    [
        # ASTM D5957: 10 kg/m2 for each centimetre.
        ("60", "60", []),
        ("61", "60", ["ponding-too-heavy-for-floor"]),
        ("120", "60", ["ponding-too-heavy-for-floor"]),
        ("120", "200", ["ponding-too-deep"]),
    ],
)
def test_the_weight_of_the_water(depth: str, carries: str, found: list[str]) -> None:
    spec = wet_room(ponding(f"reading {depth}; lasted 24 h"), base=f"; carries {carries} kg/m2")
    assert [n for n in names(spec) if n.startswith("ponding")] == found


@pytest.mark.parametrize(
    ("surface", "coat", "fails"),
    [
        # ASTM D5957: 24 h, 48 h below 10 degrees C.
        ("17 C", "2026-03-12", True),
        ("17 C", "2026-03-11", False),
        ("10 C", "2026-03-11", False),
        ("9 C", "2026-03-11", True),
        ("9 C", "2026-03-10", False),
    ],
)
def test_ponding_before_it_cured(surface: str, coat: str, fails: bool) -> None:
    head = f"conditions air 15 C; humidity 50 %; surface {surface}"
    spec = wet_room(f'second-coat on floor {coat} by "J. Rook"', ponding("reading 40; lasted 24 h"), head=head)
    assert ("ponding-too-early" in names(spec)) is fails


def test_an_assumed_temperature_makes_no_wait_longer() -> None:
    spec = wet_room('second-coat on floor 2026-03-11 by "J. Rook"', ponding("reading 40; lasted 24 h"))
    assert "ponding-too-early" not in names(spec)


@pytest.mark.parametrize(
    ("family", "lasted", "fails"),
    [
        # Practice with ASTM D5957: 24 to 72 h.
        ("EN", "24 h", False),
        ("EN", "23 h", True),
        # IPC 312.9 as restated: 15 minutes for a shower liner.
        ("US", "15 min", False),
        ("US", "14 min", True),
    ],
)
def test_how_long_the_water_stood(family: str, lasted: str, fails: bool) -> None:
    spec = wet_room(ponding(f"reading 60; lasted {lasted}"), family=family)
    assert ("ponding-too-short" in names(spec)) is fails


@pytest.mark.parametrize(("family", "depth", "fails"), [("US", "2 in", False), ("US", "1 15/16 in", True), ("EN", "1 in", False)])
def test_the_least_water(family: str, depth: str, fails: bool) -> None:
    """IPC 312.9 as restated: 2 in at the threshold."""
    assert ("ponding-too-shallow" in names(wet_room(ponding(f"reading {depth}; lasted 24 h"), family=family))) is fails


@pytest.mark.parametrize(
    ("lasted", "fell", "fails"),
    [
        # Practice, not from a standard: about 3 mm in 24 h.
        ("24 h", "3", False),
        ("24 h", "3.1", True),
        ("48 h", "6", False),
        ("48 h", "6.1", True),
        ("24 h", "0", False),
    ],
)
def test_the_level_fell(lasted: str, fell: str, fails: bool) -> None:
    spec = wet_room(ponding(f"reading 40; lasted {lasted}; fell {fell}"))
    assert ("ponding-level-fell" in names(spec)) is fails


def test_the_last_test_counts() -> None:
    leaked = ponding("reading 40; lasted 24 h; fell 20")
    tight = ponding("reading 40; lasted 24 h; fell 1", "2026-03-20")
    assert "ponding-level-fell" in names(wet_room(leaked))
    assert "ponding-level-fell" not in names(wet_room(leaked, tight))


DOOR = "door 0.8 x 2.0; 0.8 from left; threshold 20"


@pytest.mark.parametrize(("depth", "fails"), [("53", False), ("54", True)])
def test_over_the_threshold(depth: str, fails: bool) -> None:
    """Computed: 20 threshold + 8 tile + 900/36 = 25 mm of fall are 53 mm."""
    spec = wet_room(ponding(f"reading {depth}; lasted 24 h"), door=DOOR)
    assert ("ponding-over-the-door-dam" in names(spec)) is fails
    open_door = spec.replace("; threshold 20", "")
    assert "ponding-over-the-door-dam" not in names(open_door)


@pytest.mark.parametrize(("height", "fails"), [("100", False), ("101", True)])
def test_a_floor_that_fills_like_a_tank(height: str, fails: bool) -> None:
    """DIN 18534-1: design water depth of 10 cm at most."""
    spec = wet_room(door=DOOR.replace("20", height))
    assert ("standing-water-beyond-scope" in names(spec)) is fails
    # A second way out without a dam: it cannot fill.
    second = spec + "wall B 1.8 x 2.4\n  base cement render\n  tile floor-tile; joint 3\n  door 0.7 x 2.0; 0.5 from left\n"
    assert "standing-water-beyond-scope" not in names(second)


def test_a_spec_without_records_is_silent() -> None:
    assert [d.name for d in said(wet_room(head=DM)) if d.code.startswith("T201") or d.code.startswith("T202")] == []


def test_no_fix_is_offered_for_what_was_read() -> None:
    """A reading is not put right by writing another number."""
    assert only(wet_room(ponding("reading 140; lasted 24 h")), "ponding-too-deep").fixes == ()


def test_what_says_that_it_failed_is_not_told_again() -> None:
    leaked = ponding("reading 40; lasted 24 h; fell 20; result fail")
    assert "ponding-level-fell" not in names(wet_room(leaked))
    thin = 'membrane-thickness on wall A 2026-03-10 by "A. Finch"; reading 0.3 mm; result fail'
    assert "film-reading-too-thin" not in names(shower(thin))
