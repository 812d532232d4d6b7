"""Which walls are held on a ledger, and how long their bottom course is, read from a spec."""

from __future__ import annotations

from fractions import Fraction

from tilespec import pipeline
from tilespec.quantity import Worked
from tilespec.workspace.host import MemoryHost

SPEC = """\
tile field 400x250x8 ceramic landscape; weight 14 kg/m2
room "Bathroom" height 2.4
floor 1.7 x 2.2
  base concrete
  tile field; joint 3
bath along wall A, 1.7 x 0.7; rim 0.55
wall A
  base cement render
  tile field; joint 2
wall B
  base cement render
  tile field; joint 2
wall C
  base cement render
  tile field; joint 2
  door 0.75 x 2.0; 0.1 from left
wall D
  base cement render
  tile field; joint 2
"""


def test_no_bottom_course_behind_a_bath() -> None:
    """By hand: wall A is hidden by the bath; B and D 2.2 - 0.7 = 1.5 m each, C 1.7 - 0.75 = 0.95 m: 3.95 m."""
    found = pipeline.compile("/job.tilespec", MemoryHost({"/job.tilespec": SPEC}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    for kind in ("fix-ledger", "bottom-course"):
        op = next(o for o in found.plan.sequence.operations if o.kind == kind)
        assert [p[-1] for p in op.places] == ["B", "C", "D"]
        assert op.labour is not None and isinstance(op.labour.why, Worked)
        assert dict(op.labour.why.inputs)["measure"].value == Fraction("3.95")
