"""What laying tiles costs, as ratios measured in one run: `python tests/benchmarks/setout.py`.

Nothing here passes or fails: a machine's speed is no property of tilespec. Read the ratios, and compare them with the goals
beside them. The other ways are the strongest ones at hand: shapely's whole arrays, not a loop.
"""

from __future__ import annotations

import gc
import math
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction as F
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent.parent
Ring = tuple[tuple[F, F], ...]


def best(work: Callable[[], object], runs: int = 3) -> float:
    """Processor time, the least of some runs: what disturbs only adds."""
    times = []
    for _ in range(runs):
        gc.collect()
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def say(what: str, ratio: float, goal: str) -> None:
    print(f"{what:86} {ratio:8.3f}   goal {goal}")


@dataclass(frozen=True)
class Floor:
    """A floor with a re-entrant corner and two free places, for about so many tiles of 100 mm with joints of 2 mm."""

    tiles: int

    @property
    def side(self) -> F:
        return F(math.isqrt(round(self.tiles / 0.88))) * F(102, 1000) + F(37, 1000)

    @property
    def rings(self) -> tuple[Ring, ...]:
        s = self.side
        outer = ((F(0), F(0)), (s, F(0)), (s, s * F(3, 4)), (s * F(2, 3), s * F(3, 4)), (s * F(2, 3), s), (F(0), s))
        free = []
        for left, low in ((s / 5, s / 5), (s / 2, s / 3)):
            right, top = left + s / 8, low + s / 6
            free.append(((left, low), (left, top), (right, top), (right, low)))
        return outer, *free


def quads(floor: Floor, turned: bool) -> Any:
    """Corners of all tiles that may touch the floor, by array."""
    import numpy as np

    side, a, t = float(floor.side), 0.102, 0.1
    if turned:
        n = math.ceil(side * math.sqrt(2) / a) + 1
        i, j = np.meshgrid(np.arange(0, n), np.arange(-(n // 2) - 1, n // 2 + 1))
    else:
        n = math.ceil(side / a)
        i, j = np.meshgrid(np.arange(0, n), np.arange(0, n))
    x, y = i.ravel() * a, j.ravel() * a
    corners = np.stack([np.stack([x, y], 1), np.stack([x + t, y], 1), np.stack([x + t, y + t], 1), np.stack([x, y + t], 1)], 1)
    if turned:
        u, v = corners[..., 0], corners[..., 1]
        corners = np.stack([(u - v) * math.sqrt(0.5), (u + v) * math.sqrt(0.5)], -1)
        box = corners.min(1), corners.max(1)
        near = (box[0] < side).all(1) & (box[1] > 0).all(1)
        corners = corners[near]
    return corners


def main() -> None:
    sys.path.insert(0, str(ROOT))
    import numpy as np
    import shapely

    from tilespec.job.types import Pattern
    from tilespec.setout.engine import Filled, Lattice, fill
    from tilespec.setout.types import Shape

    def laid(floor: Floor, name: str, **more: bool) -> Filled:
        outer, *inner = floor.rings
        lattice = Lattice(F(1, 10), F(1, 10), F(2, 1000), Pattern(name, **more), F(0), F(0))
        return fill((Shape(outer, tuple(inner)),), lattice)

    def polygon(floor: Floor) -> Any:
        outer, *inner = ([(float(x), float(y)) for x, y in ring] for ring in floor.rings)
        return shapely.Polygon(outer, inner)

    def prepared(floor: Floor, turned: bool) -> tuple[int, int]:
        """Tiles that lie inside by a prepared test, the others clipped."""
        room = polygon(floor)
        shapely.prepare(room)
        tiles = shapely.polygons(quads(floor, turned))
        inside = shapely.covers(room, tiles)
        rest = tiles[~inside]
        rest = shapely.intersection(rest[shapely.intersects(room, rest)], room)
        return int(inside.sum()), int((shapely.area(rest) > 1e-9).sum())

    def everything(floor: Floor, turned: bool) -> int:
        """Every tile clipped."""
        return int((shapely.area(shapely.intersection(shapely.polygons(quads(floor, turned)), polygon(floor))) > 1e-9).sum())

    def looped(floor: Floor) -> int:
        """One tile after the other, prepared."""
        from shapely.prepared import prep

        room = polygon(floor)
        ready = prep(room)
        n = 0
        for c in quads(floor, False):
            tile = shapely.box(c[0][0], c[0][1], c[2][0], c[2][1])
            if ready.covers(tile) or (ready.intersects(tile) and tile.intersection(room).area > 1e-9):
                n += 1
        return n

    def arrays(floor: Floor) -> int:
        """Rectangles of a plain rectangle, by arithmetic on whole arrays: no notch, no free place, no shapes."""
        side = float(floor.side)
        at = np.arange(math.ceil(side / 0.102)) * 0.102
        size = np.minimum(at + 0.1, side) - at
        x, y = np.meshgrid(at, at)
        w, h = np.meshgrid(size, size)
        full = (w > 0.0999999) & (h > 0.0999999)
        return int(np.stack([x, y, w, h], -1)[~full].shape[0] + full.sum())

    floor = Floor(100_000)
    made, other = laid(floor, "straight"), prepared(floor, False)
    assert (made.full, len({p.tile for p in made.pieces})) == other, (made.full, len(made.pieces), other)
    print(f"straight: {made.full} full, {len(made.pieces)} cut")
    mine = best(lambda: laid(floor, "straight"))
    say("straight: shapely, prepared, whole arrays / set-out", best(lambda: prepared(floor, False)) / mine, ">= 10")
    say("straight: shapely, prepared, tile by tile / set-out", best(lambda: looped(floor), 1) / mine, ">= 10")
    say("straight: set-out / counting by array in a plain rectangle", mine / best(lambda: arrays(floor)), "-")
    for name, more in (("half", {}), ("herringbone", {}), ("basket", {})):
        say(f"{name}: set-out / straight", best(lambda name=name, more=more: laid(floor, name, **more)) / mine, "-")

    made = laid(floor, "diagonal")
    mine_all, all_clipped = made.full + len({p.tile for p in made.pieces if p.shape.area > 1e-9}), everything(floor, True)
    assert mine_all == all_clipped, (mine_all, all_clipped)
    print(f"45 degrees: {made.full} full, {len(made.pieces)} cut")
    slanted, clipped = best(lambda: laid(floor, "diagonal")), best(lambda: everything(floor, True))
    say("45 degrees: set-out / intersecting everything", slanted / clipped, "<= 0.5")
    say("45 degrees: set-out / shapely, prepared", slanted / best(lambda: prepared(floor, True)), "-")
    turned = best(lambda: laid(floor, "herringbone", turned=True))
    say("herringbone at 45 degrees: set-out / intersecting as many tiles", turned / clipped, "<= 0.5")

    for name, more in (("straight", {}), ("half", {}), ("diagonal", {}), ("herringbone", {}), ("herringbone", {"turned": True})):
        sizes = (10_000, 100_000, 1_000_000)
        times = [best(lambda n=n, name=name, more=more: laid(Floor(n), name, **more), 3 if n < 500_000 else 1) for n in sizes]
        growth = math.log(times[2] / times[0]) / math.log(100)
        last = math.log(times[2] / times[1]) / math.log(10)
        say(f"{name}{' at 45 degrees' if more else ''}: growth exponent in tiles, 10,000 to 1,000,000", growth, "<= 1.05")
        say(f"{name}{' at 45 degrees' if more else ''}: growth exponent in tiles, 100,000 to 1,000,000", last, "<= 1.05")

    # A mosaic: chips of 20 mm with joints of 2 mm on three walls of a shower, 1.2, 1.2 and 2.4 m wide, with a niche in one.
    walls = []
    for wide, niche in ((F(12, 10), False), (F(12, 10), False), (F(24, 10), True)):
        wall = ((F(0), F(0)), (wide, F(0)), (wide, F(24, 10)), (F(0), F(24, 10)))
        mouth = ((F(9, 10), F(11, 10)), (F(15, 10), F(11, 10)), (F(15, 10), F(14, 10)), (F(9, 10), F(14, 10)))
        walls.append(Shape(wall, (mouth,) if niche else ()))
    chip = Lattice(F(20, 1000), F(20, 1000), F(2, 1000), Pattern("straight"), F(0), F(0))

    def chips() -> int:
        return sum(f.full + len(f.pieces) for f in (fill((w,), chip) for w in walls))

    def chips_clipped() -> int:
        total = 0
        for w in walls:
            outer, *inner = ([(float(x), float(y)) for x, y in ring] for ring in w.rings)
            room = shapely.Polygon(outer, inner)
            shapely.prepare(room)
            columns, rows = (np.arange(math.ceil(side / 0.022)) * 0.022 for side in room.bounds[2:])
            x, y = (a.ravel() for a in np.meshgrid(columns, rows))
            tiles = shapely.box(x, y, x + 0.02, y + 0.02)
            inside = shapely.covers(room, tiles)
            rest = shapely.intersection(tiles[~inside], room)
            total += int(inside.sum()) + int((shapely.area(rest) > 1e-9).sum())
        return total

    assert chips() == chips_clipped()
    say(f"mosaic, {chips()} chips: shapely, prepared, whole arrays / set-out", best(chips_clipped, 5) / best(chips, 5), ">= 10")
    drawings()


def drawings() -> None:
    """A page with the drawing of a floor, as it is and with an element for each piece of its paths."""
    import re

    from tilespec import pipeline
    from tilespec.document.drawing import elevation
    from tilespec.document.pdf import Page, _render
    from tilespec.workspace.host import MemoryHost

    spec = """tile brick 75x150x8 ceramic; weight 15 kg/m2; box of 50
wall A 4.2 x 2.6
  base cement render
  tile brick; joint 3; half bond; joint on centre
"""
    plan = pipeline.compile("/job.tilespec", MemoryHost({"/job.tilespec": spec})).plan
    assert plan is not None
    room = plan.job.rooms[0]
    drawn = elevation(room.wall_surfaces[0], room, plan.job, plan.setout).svg
    apart = re.sub(
        r'<path class="([a-z]+)" ([^>]*?) d="([^"]+)"/>',
        lambda m: "".join(f'<path class="{m[1]}" {m[2]} d="M{part}"/>' for part in m[3].split("M") if part), drawn,
    )

    def typeset(svg: str) -> float:
        def once() -> None:
            text = f"<html><body>{svg}</body></html>"
            _render(Page(text, "", "", "", "", "en", "A4", ()))

        return best(once, 3)

    say("a drawing in the page / one with an element for each line", typeset(drawn) / typeset(apart), "<= 0.5")
    say(f"size of that drawing, {len(drawn) // 1000} KB, of the 200 KB that a surface may take", len(drawn) / 200_000, "<= 1")


if __name__ == "__main__":
    main()
