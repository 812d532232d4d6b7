"""Cutting as it is done without a plan: the next piece from the first tile that has room for it, else from a new one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from tilespec.setout.stock import ACROSS, ALONG, Bench, Pattern, Strip, Task, Turned, room


@dataclass(slots=True)
class _Strip:
    height: int
    pieces: list[Turned]
    used: int                       # along it, a kerf with each piece
    largest: int
    along: int                      # ends of the strip that are taken by pieces which need them
    across: int                     # sides of the tile that it must lie at


@dataclass(slots=True)
class _Tile:
    """A tile that is being cut up, seen so that its strips lie level.

    across  what is left across it for a new strip; along: what is left in the emptiest strip
    """

    upright: bool
    bench: Bench
    across: int
    along: int = 0
    strips: list[_Strip] = field(default_factory=list)

    def take(self, p: Turned) -> bool:
        """Cut this piece off as well, from the first strip that has room, else from a new strip."""
        if any(self._along(s, p) for s in self.strips) or self._new(p):
            b = self.bench
            self.across = b.height - sum(s.height + b.kerf for s in self.strips)
            self.along = b.width - min(s.used for s in self.strips)
            return True
        return False

    def _along(self, s: _Strip, p: Turned) -> bool:
        b = self.bench
        across = p.sides & ACROSS & ~s.across
        if (
            p.height > s.height or s.height < b.least_height or s.along & p.sides
            or any(other.across & across for other in self.strips if other is not s)
            or (s.across | across) == ACROSS and s.height < b.height
        ):
            return False
        used, largest = s.used + p.width + b.kerf, max(s.largest, p.width)
        if not room(b.width, b.kerf, b.least_width, used, largest, len(s.pieces) + 1):
            return False
        s.pieces.append(p)
        s.used, s.largest, s.along, s.across = used, largest, s.along | p.sides & ALONG, s.across | across
        return True

    def _new(self, p: Turned) -> bool:
        b, across = self.bench, p.sides & ACROSS
        if p.height > self.across:
            return False
        used = sum(s.height + b.kerf for s in self.strips) + p.height + b.kerf
        largest = max([p.height, *(s.height for s in self.strips)])
        if any(s.across & across for s in self.strips) or not room(
            b.height, b.kerf, b.least_height, used, largest, len(self.strips) + 1,
        ):
            return False
        self.strips.append(_Strip(p.height, [p], p.width + b.kerf, p.width, p.sides & ALONG, across))
        return True

    def pattern(self) -> Pattern:
        return Pattern(self.upright, tuple(Strip(s.height, tuple(s.pieces)) for s in self.strips))


def _upright(p: Turned, bench: Bench) -> bool:
    """The first cut is the one that leaves the larger rest."""
    return (bench.width - p.width) * bench.height > bench.width * (bench.height - p.height)


def first_fit(task: Task, order: Sequence[tuple[int, int]]) -> tuple[Pattern, ...]:
    """A tile at a time, for pieces in this order: (size, how many)."""
    tiles: list[_Tile] = []
    for size, count in order:
        ways = [(p, p.flipped()) for p in task.turns[size]]
        width, height = min(p.width for p, _ in ways), min(p.height for p, _ in ways)
        at = 0
        for _ in range(count):
            # Tiles only fill up: what had no room for this size has none now.
            while at < len(tiles):
                t = tiles[at]
                if ((t.across >= width or t.along >= height) if t.upright else (t.across >= height or t.along >= width)) and any(
                    t.take(f if t.upright else p) for p, f in ways
                ):
                    break
                at += 1
            if at == len(tiles):
                p, flipped = ways[0]
                upright = _upright(p, task.bench)
                bench = task.bench.flipped() if upright else task.bench
                tiles.append(_Tile(upright, bench, bench.height))
                tiles[-1].take(flipped if upright else p)
    return tuple(t.pattern() for t in tiles)


def decreasing(task: Task, counts: Sequence[int]) -> list[tuple[int, int]]:
    """Sizes that are wanted, the largest first."""
    sizes = [i for i, n in enumerate(counts) if n]
    areas = [max((p.width * p.height, max(p.width, p.height)) for p in turns) for turns in task.turns]
    return [(i, counts[i]) for i in sorted(sizes, key=lambda i: (areas[i], -i), reverse=True)]

