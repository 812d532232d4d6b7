"""What a writer notes reaches the job, wherever it stands; a note at a hole stays at the hole."""

from __future__ import annotations

from tilespec import pipeline
from tilespec.workspace.host import MemoryHost

STOCK = """\
grout used class CG2WA; note "Mix with clean water."
grout unused class CG2WA; note "Not in this job."
"""
SPEC = """\
job "N"
  note "Back door."
use "stock.tilespec"
tile white 600x300x9 porcelain; note "Veined."; barefoot class B
floor 2.4 x 1.8
  base concrete; note "Patched."
  tile white; joint 3
  grout used
wall A
  base cement render
  tile white; joint 3
  pipe 0.5 from left, 0.5 up; note "cold"
step "Fit shelf" by joiner; after sealing; note "Later."
"""


def test_notes() -> None:
    found = pipeline.compile("/job.tilespec", MemoryHost({"/job.tilespec": SPEC, "/stock.tilespec": STOCK}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    assert [(n.about.text, n.text.text) for n in found.plan.job.notes] == [
        ("job N", "Back door."), ("tile white", "Veined."), ("floor", "Patched."), ("step Fit shelf", "Later."),
        ("grout used", "Mix with clean water."),
    ]
    (pipe,) = found.plan.job.rooms[0].wall_surfaces[0].penetrations
    assert pipe.label is not None and pipe.label.text == "cold"
