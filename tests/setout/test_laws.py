"""Laws of every set-out, over specs that are made up: tiles and joints are the region, nothing overlaps, nothing reaches out of
its face, the cut list is the pieces. Geometry by shapely, which shares nothing with the exact engine.
"""

from __future__ import annotations

import random
from collections import Counter
from fractions import Fraction as F

import pytest
import shapely

from tests.setout.spec import PATH, floor, plan, setout, shapes, spec, wall
from tilespec import pipeline
from tilespec.setout import lay
from tilespec.setout.types import Layout, Shape
from tilespec.workspace.host import MemoryHost

TILES = (
    "tile t 300x300x9 porcelain; weight 20 kg/m2; barefoot class B",
    "tile t 600x300x9 porcelain rectified; weight 20 kg/m2; barefoot class B",
    "tile t 200x200x7 ceramic; weight 14 kg/m2; barefoot class B",
    "tile t 450x450x10 porcelain; weight 22 kg/m2; barefoot class B",
    "tile t 409x100x9 porcelain; weight 20 kg/m2; barefoot class B",
    "tile t 300x300x9 marble; weight 24 kg/m2; barefoot class B",
    "tile t 300x600x9 porcelain; weight 20 kg/m2; barefoot class B; work size 597 x 297",
)
OTHER = "tile o 150x150x7 ceramic; weight 14 kg/m2; barefoot class B"
BONDS = ("", "; half bond", "; third bond stepped", "; quarter bond", "; run 70", "; diagonal", "; vertical half bond")
WOVEN = ("; herringbone", "; straight herringbone", "; double straight herringbone", "; basket weave")
STARTS = ("", "; joint on centre", "; tile on centre", "; full tile at left", "; full tile at right")
LEVELS = ("", "; full tile at floor", "; full tile at datum", "; full tile at top")


def generated(seed: int) -> str:
    """A room that could be: its sizes to the centimetre, with this and that on its walls."""
    r = random.Random(seed)
    wide, deep = r.randint(120, 300) / 100, r.randint(120, 250) / 100
    tile = r.choice(TILES)
    narrow = "409x100" in tile
    joint = 3 if narrow else r.choice((2, 3, 5))

    # 4 x (100 + 3) - 3 = 409: the length that a basket weave needs.
    def on(*starts: tuple[str, ...]) -> str:
        bond = r.choice(WOVEN if narrow and r.random() < 0.6 else BONDS)
        return f"tile t; joint {joint}{bond}" + "".join(r.choice(s) for s in starts)

    ground = [on(STARTS[:3])]
    if r.random() < 0.3:
        skew = r.randint(-15, 15) / 1000
        d = (wide**2 + deep**2) ** 0.5
        ground.append(f"diagonals {d + skew:.3f}, {d - skew:.3f}")
    kind = r.random()
    if kind < 0.25:
        fall = r.choice(("four", "two", "one"))
        ground.append(f"fall 1:60 {fall} planes; drain 0.5 from wall D, 0.5 from wall A" if fall != "one" else
                      "fall 1:60 one plane; drain 0.5 from wall D, 0.5 from wall A")
    elif kind < 0.45:
        ground.append("tile o; joint 2; border 0.15 wide")
    elif kind < 0.6:
        ground.append("movement joint 0.6 from wall D; width 8")
    parts = [tile, OTHER, floor(f"{wide} x {deep}", *ground)]
    things = r.random()
    if things < 0.2 and deep > 1.0:
        parts.append(f"boxing in corner C D, 0.25 x 0.2; height {r.choice((1.2, 2.0))}")
    elif things < 0.4:
        parts.append(f"bath in corner A B, 0.7 x {deep}; rim 0.56")
    for letter in "ABCD":
        if r.random() < 0.7:
            parts.append(_wall(r, letter, wide if letter in "AC" else deep, on(STARTS, LEVELS), joint, things))
    return spec(*parts)


def _wall(r: random.Random, letter: str, long: float, on: str, joint: int, things: float) -> str:
    lines = [on]
    if r.random() < 0.3:
        lines.append(f"heights left {r.choice((2.4, 2.41, 2.38))}, right {r.choice((2.4, 2.42))}")
    if r.random() < 0.3:
        lines.append(f"out of plumb {r.randint(-20, 20)}")
    what = r.random()
    free = things >= 0.4
    if what < 0.25:
        lines.append(f"window 0.5 x 0.7; {r.randint(0, round((long - 0.5) * 100)) / 100} from left, 1.2 up; reveal 0.12")
    elif what < 0.45 and free:
        lines.append(f"door 0.7 x 2.0; {r.randint(0, round((long - 0.7) * 100)) / 100} from left")
    elif what < 0.6:
        lines.append("niche 0.4 x 0.3; 0.4 from left, 1.3 up; 0.09 deep")
    elif what < 0.75:
        lines.append("tile o; joint 2; band 0.15 high, bottom 1.3 up")
    elif what < 0.9:
        lines.append("pipe 0.6 from left, 0.9 up; diameter 15")
    else:
        lines.append("tile o; joint 2; panel 0.5 x 0.5; 0.4 from left, 1.3 up")
    return wall(letter, *lines)


def polygon(s: Shape) -> shapely.Polygon:
    return shapely.Polygon([(float(x), float(y)) for x, y in s.outer], [[(float(x), float(y)) for x, y in i] for i in s.inner])


SEEDS = range(60)
SLOW = range(60, 110)


def obeys(text: str) -> None:
    numbers: dict[str, list[int]] = {}
    faces = {f.id: f for f in setout(text).faces}
    for x in setout(text).layouts:
        _area(x)
        _inside(x, faces[x.face].outline)
        counts = Counter(p.number for p in x.pieces)
        assert counts == {r.number: int(r.count.value) for r in x.rows}
        numbers.setdefault(x.surface, []).extend(r.number for r in x.rows)
        # The tile that a piece is cut from holds it; what is whole and has no hole is in a run.
        for p in x.pieces:
            whole = polygon(Shape(p.tile))
            assert whole.buffer(2e-8).covers(polygon(p.shape))
            assert p.holes or p.folds or polygon(p.shape).area < whole.area - 1e-9
        assert int(x.full.value) == sum(r.count for r in x.runs)
    for mine in numbers.values():
        assert mine == list(range(1, len(mine) + 1))


def _area(x: Layout) -> None:
    tiles = [polygon(s) for s in shapes(x)]
    region = shapely.union_all([polygon(s) for s in x.region])
    assert abs(float(sum((s.area for s in x.region), F(0)) - x.area.value)) < 1e-9
    together = shapely.union_all(tiles)
    laid = sum(t.area for t in tiles)
    # No overlap: as much as its parts; nothing outside the region; what is left is no wider than joints (0.71 at crossings).
    assert abs(laid - together.area) < 1e-6 and abs(laid - float(x.tile_area)) < 1e-6
    assert together.difference(region).area < 1e-6
    joints = region.difference(together)
    assert abs(joints.area - (float(x.area.value) - laid)) < 1e-6
    assert joints.buffer(-0.75 * float(x.joint.value)).area < 1e-9


def _inside(x: Layout, outline: tuple[tuple[F, F], ...]) -> None:
    plane = polygon(Shape(outline)).buffer(2e-8)
    assert all(plane.covers(polygon(s)) for s in shapes(x)), x.face


@pytest.mark.parametrize("seed", SEEDS)
def test_laws(seed: int) -> None:
    obeys(generated(seed))


@pytest.mark.slow
@pytest.mark.parametrize("seed", SLOW)
def test_laws_of_many(seed: int) -> None:
    obeys(generated(seed))


@pytest.mark.parametrize("seed", range(0, 60, 10))
def test_the_same_again(seed: int) -> None:
    """Laid twice, and compiled twice, it is the same to the last digit, in the same order, with the same reasons."""
    text = generated(seed)
    made = plan(text)
    first = made.setout
    assert repr(lay(made.job, made.practice)) == repr(first)
    other = pipeline.compile(PATH, MemoryHost({PATH: text})).plan
    assert other is not None and repr(other.setout) == repr(first)


def test_of_all_sorts() -> None:
    """The generator makes what it is meant to: all sorts of layouts, straight and slanted, are among the rooms."""
    seen: Counter[str] = Counter()
    for seed in SEEDS:
        found = setout(generated(seed))
        seen.update(x.role for x in found.layouts)
        seen.update(r.kind for x in found.layouts for r in x.rows)
        seen["falls"] += bool(found.falls)
    roles = ("field", "band", "panel", "border", "niche", "reveal", "boxing")
    kinds = ("width", "height", "both", "notch", "slant", "hole", "fold", "falls")
    assert all(seen[w] for w in (*roles, *kinds)), seen
