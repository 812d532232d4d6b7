"""Which products a surface gets, read from specs."""

from __future__ import annotations

from tilespec import pipeline
from tilespec.job.types import Product
from tilespec.workspace.host import MemoryHost

PATH = "/job.tilespec"


def products(spec: str) -> dict[str, Product]:
    found = pipeline.compile(PATH, MemoryHost({PATH: spec}))
    assert found.plan is not None, [d.message for d in found.diagnostics]
    return {p.name: p for p in found.plan.job.rooms[0].wall_surfaces[0].products}


def test_the_tile_in_a_niche_takes_its_own_adhesive() -> None:
    """White and fast under translucent tiles: common practice, no source."""
    found = products(
        "adhesive own class C2TE S1; colour grey; pack 25 kg\n"
        "tile field 300x300x9 ceramic; weight 16 kg/m2\ntile gem 300x300x6 mosaic glass translucent; chips 25 x 25\n"
        "wall A 2.4 x 2.4\n  base cement render\n  tile field; joint 3\n"
        "  niche 0.4 x 0.3; 0.9 from left, 1.2 up; 0.1 deep; tile gem\n"
    )
    assert "field" in found["own"].for_
    white = next(p for p in found.values() if p.kind == "adhesive" and "gem" in p.for_)
    assert white.name != "own" and "white" in (white.colour, *white.flags)
