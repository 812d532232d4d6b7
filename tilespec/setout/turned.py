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
    """What the spec says, for a tile that is turned by half a right angle: its middle or its corner stands on the line."""
    if not is_turned(site):
        return said
    start_ = site.covering.start
    word = start_.across if axis == 0 else start_.up
    if word == "found":
        word = start_.across
    w, h = site.width, site.height
    if word.startswith("tile on") or word == "full tile at drain":
        return _middle(site, axis, said.line, said.words)
    if word.startswith("joint on"):
        return Placed(said.line, said.line, said.words.replace("joint", "corner of a tile"))
    edge = site.edge(axis, word in ("from right", "full tile at top", "from top"))
    match word:
        case "from left":
            q = work("edge + height * sqrt(0.5)", "m", source=SOURCE, edge=edge, height=h)
        case "from right":
            q = work("edge - width * sqrt(0.5)", "m", source=SOURCE, edge=edge, width=w)
        case "full tile at top" | "from top":
            q = work("edge - (width + height) * sqrt(0.5)", "m", source=SOURCE, edge=edge, width=w, height=h)
        case _:
            return Placed(said.line, said.line, said.words)
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
    x, y = (_nano(q.corner.value) for q in (across, up))
    return Lattice(site.width.value, site.height.value, site.covering.joint.value, site.covering.pattern, x, y)


def _nano(v: Fraction) -> Fraction:
    """Slanted places come with long fractions: a nanometre is enough."""
    return v if v.denominator <= 10**9 else Fraction(round(v * 10**9), 10**9)
