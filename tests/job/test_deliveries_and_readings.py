"""What came, what was read, and what is said of joints, drains and doors for the rules to judge."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic
from tilespec.job.types import Job
from tilespec.workspace.host import MemoryHost

PATH = "/job.tilespec"
HEAD = """\
tile floor-tile 300x300x9 porcelain; barefoot class B
tile wall-tile 600x300x9 porcelain landscape
clips wedges; width 2; thick 3 to 12 mm
trim edge aluminium; pack 2.5 m; height 10
adhesive flex class C2TE S1; pack 25 kg; packed 2026-01-10; keeps 52 wk
floor 2.4 x 1.8 sunlit; rcd 30 mA; perimeter joint 8
  base timber; joists 400 mm; boards 22 mm; span 3.0; deflection 8
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A; flange 50; flow 0.4 L/s
  structural joint 1.5 from wall D; width 10
  movement joint 1.5 from wall D; width 10; 5 deep
shower in corner D A, 0.9 x 0.9; flow 15; head at 2.1; valve on wall A 0.45 from left, 1.1 up; covers 10 to 35
wall A
  base cement render
  tile wall-tile; joint 3
  fitting "grab rail" 0.6 x 0.05; 1.2 from left, 0.9 up; glued
  fitting "hook" 0.1 x 0.1; 1.0 from left, 1.4 up
wall D
  base cement render
  tile wall-tile; joint 3
wall C
  base cement render
  tile wall-tile; joint 3
  door 0.8 x 2.0; 0.9 from left; threshold 15
"""


def compiled(spec: str) -> tuple[Job, tuple[Diagnostic, ...]]:
    found = pipeline.compile(PATH, MemoryHost({PATH: spec}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    return found.plan.job, tuple(d for d in found.diagnostics if d.stage != "checks")


def faults(spec: str) -> list[str]:
    return [d.name for d in pipeline.compile(PATH, MemoryHost({PATH: spec})).diagnostics if d.stage != "checks"]


def test_what_is_said_of_a_floor_and_its_room() -> None:
    job, found = compiled(HEAD)
    assert found == ()
    room = job.rooms[0]
    floor = room.floor
    assert floor is not None and room.rcd is not None and floor.perimeter_joint is not None and floor.base.deflection is not None
    assert (room.rcd.value, floor.perimeter_joint.mm, floor.base.deflection.mm, floor.sunlit) == (F(3, 100), 8, 8, True)
    drain, joint, below = room.drains[0], floor.movement_joints[0], floor.base_joints[0]
    assert drain.flange is not None and drain.flow is not None and room.showers[0].flow is not None
    # 0.4 L/s is 24 L/min.
    assert (drain.flange.mm, drain.flow.value, room.showers[0].flow.value) == (50, F(24, 60000), F(15, 60000))
    assert joint.depth is not None and (joint.depth.mm, joint.x) == (5, below.x) and below.width.mm == 10


def test_what_is_said_of_walls() -> None:
    job, _ = compiled(HEAD)
    a, c, _ = job.rooms[0].wall_surfaces
    assert [(str(f.label), f.glued) for f in a.fittings] == [("grab rail", True), ("hook", False)]
    covers = a.penetrations[0].covers
    assert covers is not None and [q.mm for q in covers] == [10, 35]
    assert c.openings[0].threshold is not None and c.openings[0].threshold.mm == 15


def test_what_is_said_of_products_that_no_surface_uses() -> None:
    job, _ = compiled(HEAD)
    declared = {p.name: p for p in job.declared}
    assert declared["wedges"].thick is not None and [q.mm for q in declared["wedges"].thick] == [3, 12]
    assert declared["edge"].height is not None and declared["edge"].height.mm == 10
    keeps = declared["flex"].keeps
    assert keeps is not None and keeps.value == 364 * 86400 and str(declared["flex"].packed) == "2026-01-10"


def test_a_heating_says_what_stands_on_its_label() -> None:
    mat = "heating warm mat screened; pack 2 m2; output 150 W/m2; voltage 230 V; resistance 176 ohm\n"
    job, found = compiled(mat + HEAD)
    assert found == ()
    label = next(p for p in job.declared if p.name == "warm").resistance
    assert label is not None and label.value == 176
    assert faults(mat.replace("176 ohm", "176 W") + HEAD) == ["wrong-unit"]


def test_a_delivery_sets_the_size_that_is_set_out() -> None:
    came = "measured width 597.2 to 598; measured height 297 to 297.4"
    spec = HEAD + f"delivery wall-tile 2026-03-08; shade K12; caliber 4; {came}\n"
    job, found = compiled(spec)
    assert found == ()
    delivery = job.deliveries[0]
    assert (str(delivery.shade), str(delivery.caliber)) == ("K12", "4")
    field = job.rooms[0].wall_surfaces[0].field
    assert field is not None and field.tile.work_width is not None and field.tile.work_height is not None
    assert (field.tile.work_width.mm, field.tile.work_height.mm) == (F("597.6"), F("297.2"))
    assert delivery.tile == field.tile


def test_a_work_size_in_the_spec_wins_over_the_delivery() -> None:
    spec = HEAD.replace("porcelain landscape", "porcelain landscape; work size 598 x 298")
    job, _ = compiled(spec + "delivery wall-tile; measured width 597 to 597; measured height 297 to 297\n")
    field = job.rooms[0].wall_surfaces[0].field
    assert field is not None and field.tile.work_width is not None and field.tile.work_width.mm == 598


def test_a_delivery_measured_the_other_way_round_is_understood() -> None:
    spec = HEAD + "delivery wall-tile; measured width 297 to 297.4; measured height 597.2 to 598\n"
    field = compiled(spec)[0].rooms[0].wall_surfaces[0].field
    assert field is not None and field.tile.work_width is not None and field.tile.work_width.mm == F("597.6")


@pytest.mark.parametrize(
    ("line", "fault"),
    [
        ("delivery wal-tile; shade K12", "unknown-tile"),
        ("delivery wall-tile; measured width 598 to 597", "range-reversed"),
        ("delivery wall-tile 2026-02-30", "bad-date"),
        ('record contact on wall A 2026-03-08 by "J. Rook"; reading 120 %', "implausible-value"),
        ('record contact on wall A 2026-03-08 by "J. Rook"; reading 12 mm', "wrong-unit"),
        ('record substrate-flatness on floor 2026-03-08 by "J. Rook"; reading 2; over 20', "implausible-value"),
        ('record heating-before on floor 2026-03-08 by "J. Rook"; reading 88 V', "wrong-unit"),
    ],
)
def test_mistakes_are_told(line: str, fault: str) -> None:
    assert faults(HEAD + line + "\n") == [fault]


def test_a_structural_joint_needs_a_width_and_a_place_on_its_surface() -> None:
    joint = "structural joint 1.5 from wall D"
    assert faults(HEAD.replace(f"{joint}; width 10", joint)) == ["missing-detail"]
    assert faults(HEAD.replace("structural joint 1.5", "structural joint 3.5")) == ["outside-surface"]


def test_readings_have_the_unit_of_what_is_read() -> None:
    spec = HEAD + (
        'record ponding on floor 2026-03-11 by "J. Rook"; reading 50; lasted 24 h; fell 1\n'
        'record insulation-before on floor 2026-03-11 by "J. Rook"; reading 2\n'
        'record contact on wall A 2026-03-12 by "J. Rook"; work by "T. Sand"; reading 97 %; samples 3\n'
    )
    job, found = compiled(spec)
    assert found == ()
    ponding, insulation, contact = job.records
    assert ponding.reading is not None and ponding.fell is not None and ponding.lasted is not None
    assert (ponding.reading.mm, ponding.fell.mm, ponding.lasted.value) == (50, 1, 24 * 3600)
    assert insulation.reading is not None and insulation.reading.value == 2 * 10**6
    assert contact.samples is not None and contact.samples.value == 3 and str(contact.work_by) == "T. Sand"


def test_the_order_of_records_is_that_of_one_surface() -> None:
    """A floor is signed for later than a wall above it; on one surface what is covered comes first."""
    wall = 'record tiling on wall A 2026-03-10 by "J. Rook"\n'
    assert faults(HEAD + wall + 'record membrane on floor 2026-03-12 by "J. Rook"\n') == []
    assert faults(HEAD + wall + 'record membrane on wall A 2026-03-12 by "J. Rook"\n') == ["record-out-of-order"]
    assert faults(HEAD + wall + 'record membrane 2026-03-12 by "J. Rook"\n') == ["record-out-of-order"]


def test_a_structural_joint_is_read_on_walls_too() -> None:
    line = "wall A\n  base cement render\n  structural joint 1.2 from left; width 8\n"
    joint = compiled(HEAD.replace("wall A\n  base cement render\n", line))[0].rooms[0].wall_surfaces[0].base_joints[0]
    assert joint.x is not None and (joint.x.mm, joint.width.mm) == (1200, 8)
