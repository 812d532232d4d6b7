"""A bath is set before the base is primed: nothing is coated or taped under it or behind it. Worked by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tilespec import pipeline
from tilespec.takeoff.types import TakeOff
from tilespec.workspace.host import MemoryHost

SPEC = """\
job "Bath"
  practice EN
tile field 300x300x8 ceramic; weight 14 kg/m2
tile ground 300x300x8 porcelain; weight 18 kg/m2; barefoot class B
room "Bathroom" height 2.4
floor 3.0 x 2.0
  base concrete
  tile ground; joint 3
bath in corner A B, 1.7 x 0.7; rim 0.55
wall A
  base cement render
  tile field; joint 2
wall B
  base cement render
  tile field; joint 2
"""


@pytest.fixture(scope="module")
def takeoff() -> TakeOff:
    found = pipeline.compile("/job.tilespec", MemoryHost({"/job.tilespec": SPEC}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    return found.plan.takeoff


def area(takeoff: TakeOff, place: str) -> F:
    found = takeoff.measure(place).membrane_area
    assert found is not None
    return found.value


def test_floor(takeoff: TakeOff) -> None:
    """3.0 x 2.0 less 1.7 x 0.7."""
    assert area(takeoff, "Bathroom/floor") == F("4.81")


def test_walls(takeoff: TakeOff) -> None:
    """A: (1.7 + 0.3) x 0.70, upstand 1.0 x 0.1, less 1.7 x 0.55. B: (0.7 + 0.3) x 0.70, 1.0 x 0.1, less 0.7 x 0.55."""
    assert area(takeoff, "Bathroom/wall A") == F("0.565")
    assert area(takeoff, "Bathroom/wall B") == F("0.415")


def test_primer_stops_at_the_bath(takeoff: TakeOff) -> None:
    primed = takeoff.measure("Bathroom/wall A").primed_area
    assert primed is not None and primed.value == F("3.0") * F("2.4") - F("1.7") * F("0.55")


def test_tape(takeoff: TakeOff) -> None:
    """Feet: A 1.3, B 1.3, C 3.0, D 2.0. Corner A B from the rim to 0.70. Rim: 1.7 and 0.7. Beside said walls 0.1 m upstand."""
    (line,) = takeoff.lines_of("tape")
    by_role: dict[str, F] = {}
    for part in line.parts:
        by_role[part.role] = by_role.get(part.role, F(0)) + part.net.value
    assert by_role["wall-floor"] == F("7.6")
    assert by_role["rim"] == F("2.4")
    assert by_role["corner"] == F("0.15") + 2 * F("0.1")
