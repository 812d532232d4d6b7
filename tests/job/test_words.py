"""Words of the trade that a spec may use, and what they are taken for."""

from __future__ import annotations

import pytest

from tilespec import pipeline
from tilespec.workspace.host import MemoryHost

PATH = "/job.tilespec"


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("cement plaster", "cement-render"),
        ("lime plaster", "cement-render"),
        ("blockwork", "cement-render"),
        ("moisture-resistant plasterboard", "gypsum-plasterboard"),
        ("fibre-cement sheet", "cement-board"),
    ],
)
def test_bases_by_other_names(words: str, kind: str) -> None:
    spec = f"tile field 200x200x8 ceramic; weight 14 kg/m2\nwall A 2.4 x 2.4\n  base {words}\n  tile field; joint 3\n"
    found = pipeline.compile(PATH, MemoryHost({PATH: spec}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    assert found.plan.job.rooms[0].wall_surfaces[0].base.kind == kind


@pytest.mark.parametrize(
    ("pattern", "size", "fits"),
    [
        # Basket weave is made of square blocks: 2 x (98 + 2) = 198 + 2. Rows of herringbone each start one width further on, so
        # that a tile of any length closes.
        ("basket", "198x98", True),
        ("basket", "200x98", False),
        ("herringbone", "198x98", True),
        ("herringbone", "600x100", True),
    ],
)
def test_tiles_that_fit_a_pattern(pattern: str, size: str, fits: bool) -> None:
    spec = f"tile field {size}x9 porcelain\nfloor 1.4 x 4.5\n  base concrete\n  tile field; joint 2; {pattern}\n"
    named = [d.name for d in pipeline.compile(PATH, MemoryHost({PATH: spec})).diagnostics]
    assert ("basket-size" not in named) is fits


@pytest.mark.parametrize(("panel", "roles"), [("; panel 3.2 x 0.6; 0 from left, 0.9 up", ["panel"]), ("", ["field"])])
def test_a_splashback_is_a_panel_with_no_field(panel: str, roles: list[str]) -> None:
    spec = f"tile brick 150x75x8 ceramic\nwall A 3.2 x 2.4\n  base gypsum plaster\n  tile brick; joint 2{panel}\n"
    found = pipeline.compile(PATH, MemoryHost({PATH: spec}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    assert [c.role for c in found.plan.job.rooms[0].wall_surfaces[0].coverings] == roles
