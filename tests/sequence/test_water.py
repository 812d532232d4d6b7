"""Water runs over fresh grout no sooner than its sheet allows."""

from __future__ import annotations

from tilespec import pipeline
from tilespec.sequence.types import Operation
from tilespec.workspace.host import MemoryHost

SPEC = """\
conditions air 22 C; humidity 50 %; surface 22 C
grout ours class CG2WA; pack 5 kg; water 0.24 L/kg; wait 24 h before walking; wait 7 d before water
tile ground 300x300x8 porcelain; weight 18 kg/m2; barefoot class B
floor 2.4 x 1.8
  base concrete
  tile ground; joint 3
  {drain}
wall A
  base cement render
  tile ground; joint 3
  pipe 0.5 from left, 0.5 up
"""


def wait_after_grout(drain: str, kind: str) -> float | None:
    found = pipeline.compile("/job.tilespec", MemoryHost({"/job.tilespec": SPEC.replace("{drain}", drain)}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    operations = found.plan.sequence.operations
    op: Operation = next(o for o in operations if o.kind == kind)
    grout = next(o.id for o in operations if o.kind == "grout")
    return next((float(link.wait.minimum.hours) for link in op.after if link.operation == grout and link.wait), None)


def test_where_water_runs_over_the_floor_the_sheet_s_time_holds() -> None:
    drain = "fall 1:60; drain 0.5 from wall A, 0.5 from wall D"
    assert wait_after_grout(drain, "leak-test") == 7 * 24
    assert wait_after_grout(drain, "final-inspection") == 7 * 24


def test_where_it_does_not_a_firm_joint_is_enough() -> None:
    assert wait_after_grout("", "leak-test") == 24
