"""What messages advise: that it mends the spec as it is written, in the units of the job, and at the place that is wrong."""

from __future__ import annotations

import pytest

from tests.checks.specs import floor, names, only, practice, wall
from tilespec import pipeline
from tilespec.practice.lookup import practice as limits
from tilespec.quantity.typed import typed
from tilespec.workspace.host import MemoryHost

SCREED = "base cement screed; thickness 65 mm; laid 2025-01-10"
RENDER = "base cement render"
SMALL = "150x150x6 ceramic; weight 11 kg/m2"
TUB = "adhesive ready-tub class D1TE; pack 15 kg"


def test_another_product_is_written_where_the_wall_names_the_one_it_has() -> None:
    spec = wall(RENDER, "tile wall-tile; joint 3", "shower zone", "adhesive ready-tub", head=TUB, tile=SMALL)
    found = only(spec, "d1-adhesive-in-shower")
    advice = "Declare a cement adhesive for it, `adhesive NAME class C2TE`, and write `adhesive NAME` on wall A in place of "
    assert found.help == advice + "`adhesive ready-tub`."
    (here,) = [label for label in found.secondary if label.text == "named here"]
    assert spec[here.span.start : here.span.end] == "ready-tub" and here.span.start > spec.index("wall A")
    # What the older advice says is not enough; what is said now is.
    declared = "adhesive NAME class C2TE; pack 25 kg\n" + spec
    assert "d1-adhesive-in-shower" in names(declared.replace("25 kg", "25 kg; for tile wall-tile"))
    assert "d1-adhesive-in-shower" not in names(declared.replace("  adhesive ready-tub", "  adhesive NAME"))


def test_a_product_that_no_surface_names_is_only_declared() -> None:
    spec = wall(RENDER, "tile wall-tile; joint 3", "shower zone", head=TUB, tile=SMALL)
    found = only(spec, "d1-adhesive-in-shower")
    assert found.help == "Declare a cement adhesive for it: `adhesive NAME class C2TE; for tile wall-tile`."
    assert "d1-adhesive-in-shower" not in names("adhesive NAME class C2TE; for tile wall-tile; pack 25 kg\n" + spec)


def test_a_product_named_for_the_whole_room_is_told_once() -> None:
    one = wall(RENDER, "tile wall-tile; joint 3", "shower zone", head=f"{TUB}\nadhesive ready-tub", tile=SMALL)
    spec = one + "\n".join(("wall B 2.4 x 2.4", f"  {RENDER}", "  tile wall-tile; joint 3", "  shower zone", ""))
    found = only(spec, "d1-adhesive-in-shower")
    assert found.help.endswith("and write `adhesive NAME` in place of `adhesive ready-tub`.")
    assert "The same holds for wall B." in found.notes


def test_the_same_for_grout() -> None:
    head = "grout plain-fill class CG1; pack 5 kg"
    spec = wall(RENDER, "tile wall-tile; joint 3", "shower zone", "grout plain-fill", head=head)
    assert only(spec, "weak-grout-in-wet-area").help == (
        "Declare a grout of that class, `grout NAME class CG2W`, and write `grout NAME` on wall A in place of `grout plain-fill`."
    )


def test_plaster_has_no_maker_who_allows_more() -> None:
    heavy = "600x300x20 porcelain; weight 46 kg/m2"
    plaster, board = (
        only(wall(f"base gypsum {base}", "tile wall-tile; joint 3", tile=heavy), "tiling-too-heavy-for-base").help
        for base in ("plaster", "plasterboard unskimmed")
    )
    assert "a board that is fixed to the structure" in plaster and "maker" not in plaster
    assert "the board maker's value" in board


def test_a_drain_in_the_middle_is_not_sent_there() -> None:
    """Computed: in the middle of 0.9 m by 1.8 m the ends fall half as steeply as the sides."""
    line = "fall 1:60 four planes; drain {} from wall D, 0.9 from wall A"
    spec = floor(SCREED, "tile floor-tile; joint 3", line.format("0.45"), head=practice("AU"), size="0.9 x 1.8")
    found = only(spec, "plane-of-fall-too-flat")
    assert found.help.startswith("No fall that may be said is enough: lay it in one plane to a channel")
    aside = floor(SCREED, "tile floor-tile; joint 3", line.format("0.3"), head=practice("AU"), size="1.8 x 1.8")
    assert "nearer to the middle" in only(aside, "plane-of-fall-too-flat").help


def test_a_drain_on_the_edge_of_its_shower() -> None:
    spec = floor(SCREED, "tile floor-tile; joint 3", "fall 1:60 four planes; drain 0.9 from wall D, 0.45 from wall A")
    found = only(spec + "shower in corner D A, 0.9 x 0.9; head at 2.0; valve on wall A 0.45 from left, 1.1 up\n"
                        "wall A 2.4 x 2.4\nwall D 1.8 x 2.4\n", "plane-of-fall-too-flat")
    assert "on the edge of the fall of the shower, 0.9 m x 0.9 m," in found.message
    assert found.help.endswith("or draw the shower larger round it.")


def test_the_later_of_two_days_is_in_both_messages() -> None:
    """Computed: 50 mm of cement screed dry in 50 days (BS 8203); the UK's least age is 21 days."""
    head = f"{practice('UK')}\n  begin 2026-07-13"
    spec = floor("base cement screed; thickness 50 mm; laid 2026-06-29", "tile floor-tile; joint 3", head=head)
    assert "2026-08-18: tile the floor then or later" in only(spec, "screed-too-young").help
    assert "2026-08-18: tile the floor then" in only(spec, "drying-time-short").help


def test_lengths_of_a_us_job_are_in_inches() -> None:
    lines = (RENDER, "tile wall-tile; joint 1/8 in", "shower zone 30 in x 48 in; 0 from left, 0 up")
    tile = "12 in x 12 in x 3/8 in porcelain; weight 4.4 lb/ft2"
    found = only(wall(*lines, head=practice("US"), size="96 in x 96 in", tile=tile), "membrane-too-low")
    assert "ends 48 in above" in found.message and "up to 70 7/8 in (1800 mm) at least" in found.message
    assert found.notes[0].startswith(
        "Limit: least height of the membrane on shower walls above finished floor, 70 7/8 in (1800 mm) (EN, which US borrows)"
    )


def test_a_small_number_is_never_shown_as_nothing() -> None:
    assert typed(limits("EN").limit("tile-expansion")) == "0.000007 1/K"


@pytest.mark.parametrize(
    ("tested", "start"), [("after", "Do not switch it on."), ("cover", "Do not cover it. Do not switch it on.")]
)
def test_what_is_covered_cannot_be_left_open(tested: str, start: str) -> None:
    head = "heating mat-1 mat screened; pack 2 m2; output 150 W/m2; voltage 230 V"
    spec = floor(SCREED, "tile floor-tile; joint 3", "heating mat-1; rcd 30 mA; sensor at wall A", head=head)
    spec += f'record insulation-{tested} on floor 2026-03-20 by "T. Heron"; reading 0.3 Mohm\n'
    assert only(spec, "insulation-resistance-too-low").help.startswith(start)


def test_a_slip_class_is_asked_for_as_one() -> None:
    """Bands of AS 4586-2013: P3 from a pendulum value of 35."""
    spec = floor(SCREED, "tile floor-tile; joint 3", head=practice("AU"), tile="100x100x8 porcelain; slip class P1")
    spec += "shower in corner D A, 0.9 x 0.9; head at 2.0\nwall A 2.4 x 2.4\nwall D 1.8 x 2.4\n"
    found = only(spec, "slip-class-too-low")
    assert "(slip class P1)" in found.message and "slip class P3 (pendulum 35) at least" in found.message


def test_a_word_behind_a_class_is_parted_from_it() -> None:
    spec = "adhesive two-part class R2T polyurethane; pack 10 kg\nfloor 2.4 x 1.8\n  tile 300x600; joint 3\n"
    found = [d for d in pipeline.compile("/j.tilespec", MemoryHost({"/j.tilespec": spec})).diagnostics if d.code == "T0208"]
    assert [d.help for d in found] == ["Write `class R2T; polyurethane`."]
    edit = found[0].fixes[0].edits[0]
    mended = spec[: edit.span.start] + edit.text + spec[edit.span.end :]
    assert "T0208" not in [d.code for d in pipeline.compile("/j.tilespec", MemoryHost({"/j.tilespec": mended})).diagnostics]
