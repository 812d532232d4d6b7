"""Part 3 says why each product is used: what its places ask for, because of what, and whether it has that."""

from __future__ import annotations

from tests.document.test_deviations import document
from tilespec.document import markdown
from tilespec.document.templates import Templates

SPEC = """\
tile floor-tile 300x300x9 porcelain; barefoot class B; weight 20 kg/m2
tile wall-tile 600x300x8 ceramic landscape; weight 14 kg/m2
floor 2.4 x 1.8 heated
  base concrete; laid 2025-01-01
  tile floor-tile; joint 3
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
wall B 1.8 x 2.4
  base cement render
  tile wall-tile; joint 3
"""


def test_surfaces_that_ask_the_same_stand_together() -> None:
    rows = document(SPEC).materials.why
    assert [r.kind for r in rows] == ["adhesive", "adhesive", "grout", "grout", "sealant"]
    floor, walls = rows[:2]
    assert [t.text for t in floor.tiles] == ["floor-tile"] and [a.asked.text for a in floor.asks] == ["C2 S1", "C1", "C2"]
    assert [x.text for x in walls.where[0].walls] == ["A", "B"] and not walls.where[0].floor
    # One sealant for all of it.
    assert rows[-1].where[0].floor and len(rows[-1].where[0].walls) == 2


def test_each_class_is_printed_with_its_reason_and_leads_to_its_source() -> None:
    text = markdown.render(document(SPEC), Templates(), ("materials",)).replace("\\", "")
    head, sources = text[text.index("### Why these products") :].split("## 12", 1)
    (row,) = [line for line in head.splitlines() if "| floor |" in line and "adhesive" in line]
    asked = row.split("|")[3]
    mark = asked.split("^")[1]
    assert asked.startswith(f" **C2 S1^{mark}^** (heated floor); C1^R") and "(dry place)" in asked and "(porcelain)" in asked
    assert f"^{mark}:^ Least class of adhesive, heated floor C2 S1" in sources
    assert "(edge over 300" in head
