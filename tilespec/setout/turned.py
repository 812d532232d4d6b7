"""Starts of patterns that do not lie in straight courses: turned by half a right angle, herringbone, two sizes.

What is placed is the first tile: its corner, or its middle, on the line. Where the spec leaves a direction open, the corner and
the middle are tried on the middle of the surface.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, counted, work
from tilespec.setout import start
from tilespec.setout.engine import Lattice, fill
from tilespec.setout.geometry import NANO, nano
from tilespec.setout.start import SOURCE, Placed, Site
from tilespec.setout.types import Candidate, Criterion


@dataclass(frozen=True, slots=True)
class Choice:
    """A start in both directions, and what it leads to."""

    across: Placed
    up: Placed
    score: tuple[Criterion, ...]

    @property
    def ranked(self) -> tuple[Fraction, ...]:
        return tuple(c.value.value for c in self.score)

    @property
    def candidate(self) -> Candidate:
        return Candidate((self.across.way, self.up.way), self.across.corner.value, self.up.corner.value, self.score)


def is_turned(site: Site) -> bool:
    p = site.covering.pattern
    return p.turned or p.name == "diagonal"


def placed(site: Site, axis: int, said: Placed) -> Placed:
    """A start as it is said, for a tile that is turned by half a right angle: its middle or one of its corners stands there."""
    if not is_turned(site):
        return said
    at, w, h = said.at, site.width, site.height
    match said.part, axis:
        case "middle", _:
            return _middle(site, axis, at, said.words)
        case "joint", _:
            return Placed(at, at, said.words.replace("joint", "corner of a tile"))
        case "near side", 0:
            q = work("edge + height * sqrt(0.5)", "m", source=SOURCE, edge=at, height=h)
        case "far side", 0:
            q = work("edge - width * sqrt(0.5)", "m", source=SOURCE, edge=at, width=w)
        case "far side", _:
            q = work("edge - (width + height) * sqrt(0.5)", "m", source=SOURCE, edge=at, width=w, height=h)
        case _:
            q = at
    return Placed(q, q, said.words)


def _middle(site: Site, axis: int, line: Quantity, words: str) -> Placed:
    sign = "-" if axis == 0 else "+"
    q = work(f"line - (width {sign} height) / 2 * sqrt(0.5)", "m", source=SOURCE, line=line, width=site.width, height=site.height)
    return Placed(q, line, words)


def _options(site: Site, axis: int) -> Iterator[Placed]:
    line = start.middle(site, axis)
    if is_turned(site):
        yield Placed(line, line, "corner of a tile on centre")
        yield _middle(site, axis, line, "tile on centre")
        return
    yield start.on(site, axis, line, False, "joint on centre")
    yield start.on(site, axis, line, True, "tile on centre")


def search(site: Site, known: tuple[Placed | None, Placed | None], practice: Practice) -> tuple[Choice, Choice | None]:
    """The best of the starts tried, and the next: fewest small bits of tile, then fewest cuts, then fewest tiles."""
    share = practice.limit("cut-poor-share")
    ways = [[known[axis]] if known[axis] is not None else list(_options(site, axis)) for axis in (0, 1)]
    found: list[Choice] = []
    for across in ways[0]:
        for up in ways[1]:
            assert across is not None and up is not None
            filled = fill(site.region, lattice(site, across, up))
            whole = site.width.value * site.height.value
            small = sum(p.shape.area < whole * share.value for p in filled.pieces)
            found.append(Choice(across, up, (
                Criterion("slivers", counted(small, "pieces under the least share of a tile")),
                Criterion("cuts", counted(len(filled.pieces), "cut pieces")),
                Criterion("courses", counted(len(filled.pieces) + filled.full, "pieces")),
            )))
    ranked = sorted(found, key=lambda c: c.ranked)
    return ranked[0], ranked[1] if len(ranked) > 1 else None


def lattice(site: Site, across: Placed, up: Placed) -> Lattice:
    # Slanted places come with long fractions.
    x, y = (v if v.denominator <= NANO else nano(v) for v in (across.corner.value, up.corner.value))
    return Lattice(site.width.value, site.height.value, site.covering.joint.value, site.covering.pattern, x, y)
