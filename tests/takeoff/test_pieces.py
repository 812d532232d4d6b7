"""The take-off by pieces, against counts and areas worked by hand (worked examples K1, K2, K4 of tile layout)."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.takeoff.building import GROUT, HERE, en, laid, q, rect, replace, surface, tile, wall_job
from tilespec.job.types import Covering, Job, Opening, Start
from tilespec.quantity import Quantity
from tilespec.setout import lay
from tilespec.setout.lengths import cut_length
from tilespec.setout.offcuts import plan
from tilespec.takeoff import measure
from tilespec.takeoff.types import Line, TakeOff

# A tile plane of 2400 x 2400 mm: 5 mm of joint at both ends, 5 mm over the floor and under the ceiling.
WIDE, HIGH = "2.41", "2.41"


def covering(joint: object = 2, **start: str) -> Covering:
    return replace(laid(tile("t", 600, 300, box=q(6, "count")), joint=joint), start=Start(**start))


def taken(job: Job) -> tuple[TakeOff, Line]:
    setout = lay(job, en())
    found = measure(job, en(), setout, plan(setout, en()))
    return found, next(line for line in found.lines_of("tile") if not line.role)


def number(q: Quantity | None) -> F:
    assert q is not None
    return q.value


def wall(c: Covering, **more: object) -> Job:
    return wall_job(surface("A", WIDE, HIGH, c, **more))


def test_a_plain_wall() -> None:
    """K1: 21 full, 594 x 300 seven times, 600 x 286 three times, 594 x 286 once; 5.712084 m2 of tile, 0.047916 m2 of joint."""
    found, line = taken(wall(covering(across="from left", up="full tile at floor")))
    assert (number(line.whole), number(line.cut)) == (21, 11)
    assert number(line.net) == F("5.76")
    # 3 % of 32 tiles break: 33, in boxes of 6.
    assert (number(line.pieces), number(line.packs), number(line.left)) == (33, 6, 4)
    (m,) = [m for m in found.surfaces if m.place.endswith("wall A")]
    assert number(m.tiled_area) == F("5.76")
    # The joints of K1 are 2 mm wide: 0.047916 / 0.002 m of them.
    assert number(m.joint_length) == F("0.047916") / F("0.002")


def test_a_window() -> None:
    """K2: 32 positions, 13 full; the four pieces beside the window come from three tiles, so 31 tiles in all."""
    window = Opening("window", rect("0.905", "0.905", "0.6", "0.9"), None, HERE)
    found, line = taken(wall(covering(across="from left", up="full tile at floor"), openings=(window,)))
    assert number(line.whole) == 13 and number(line.whole) + number(line.cut) == 31
    assert number(line.net) == F("5.22")


def test_halves_come_two_from_a_tile() -> None:
    """K4, a tile on the centre line: sixteen side pieces of 296 mm come two from a tile, so 21 + 3 + 8 = 32 tiles in all."""
    _, line = taken(wall(covering(across="tile on centre", up="full tile at floor")))
    assert number(line.whole) == 21 and number(line.cut) == 3 + 8


def test_grout_is_that_of_the_joints() -> None:
    """Joint area of K1 times 9 mm times 1.6 kg/L (J1 takes 1.6): 0.047916 x 9 x 1.6 = 0.69 kg."""
    s = surface("A", WIDE, HIGH, covering(across="from left", up="full tile at floor"), products=(GROUT,))
    job = wall_job(s)
    setout = lay(job, en())
    line = next(x for x in measure(job, en(), setout, plan(setout, en())).lines_of("grout"))
    density = GROUT.density.value / 1000 if GROUT.density is not None else F("1.6")
    assert number(line.net) == F("0.047916") * 9 * density


@pytest.mark.parametrize(
    ("start", "metres"),
    [
        # K1 by hand: 7 x 300 for the 594s, 3 x 600 for the 286s, 594 + 286 for the corner.
        ("from left", F("0.3") * 7 + F("0.6") * 3 + F("0.594") + F("0.286")),
        # K4, tile on centre: 14 x 300, 3 x 600, 2 x (296 + 286).
        ("tile on centre", F("0.3") * 14 + F("0.6") * 3 + 2 * (F("0.296") + F("0.286"))),
    ],
)
def test_length_of_cuts(start: str, metres: F) -> None:
    job = wall(covering(across=start, up="full tile at floor"))
    (layout,) = lay(job, en()).layouts
    assert number(cut_length(layout)) == metres
    found, _ = taken(job)
    (work,) = found.sawing
    assert work.length.value == metres
    # 30 m an hour in porcelain: common practice, no source.
    assert work.time.hours == metres / 30


def test_without_a_set_out_nothing_changes() -> None:
    job = wall(covering())
    found = measure(job, en())
    assert all(line.whole is None for line in found.lines)
    # One course and one column of cuts: reckoned, and marked as such.
    (work,) = found.sawing
    assert work.by_area and work.length.value == 2 * F("2.41")
