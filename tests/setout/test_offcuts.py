"""Offcut plans: published and computed optima, plans checked piece by piece, and optima found by searches of another kind."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction as F
from functools import lru_cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.takeoff.building import laid, m, mm, mosaic, q, tile
from tilespec.job.types import Tile
from tilespec.practice.lookup import practice
from tilespec.quantity import Limit
from tilespec.setout.fewest import Fewest, area_bound, fewest
from tilespec.setout.firstfit import decreasing, first_fit
from tilespec.setout.offcuts import factory_sides, plan
from tilespec.setout.rows import Length, Link, Work, full
from tilespec.setout.stock import Demand, Stock, measured
from tilespec.setout.types import Begin, Layout, OffcutPlan, Row, SetOut, Shape, Way

HEIGHT = F(100)                 # of a stock from which strips are cut in one direction only


def strips(length: int, kerf: object, pieces: Sequence[tuple[int, int]]) -> tuple[Stock, list[Demand]]:
    """Bars: pieces (length, how many) cut off a length, all as high as it, no edge better than another."""
    stock = Stock(F(length), HEIGHT, F(str(kerf)))
    return stock, [Demand(("s", i), F(w), HEIGHT, n) for i, (w, n) in enumerate(pieces)]


# ---------------------------------------------------------------- instances with known optimum

# Source of each: data, then optimum. "seen": read there; "computed": by an integer programme of ours, with another formulation.
PAPER = [
    (1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20), (2000, 10), (2050, 12), (2100, 14),
    (2140, 16), (2150, 18), (2200, 20),
]
KNOWN = {
    # University page on the cutting-stock problem, and an encyclopaedia: 72.7 rolls, so at least 73 (seen); 73 computed.
    "I1": (5600, 0, PAPER, 73),
    # Gallery of optimisation models (data seen); chapter 13 of "Linear Programming", Freeman, 1983 (from memory); 453 computed.
    "I2": (100, 0, [(45, 97), (36, 610), (31, 395), (14, 211)], 453),
    # Board-cutting example of an operations-research textbook (from memory); 19 computed.
    "I3": (17, 0, [(3, 25), (5, 20), (9, 15)], 19),
    # Textbook instance (from memory); 47 computed.
    "I4": (110, 0, [(20, 48), (45, 35), (50, 24), (55, 10), (75, 8)], 47),
    # Teaching instances of bin packing (from memory); all computed.
    "I5": (10, 0, [(2, 1), (5, 1), (4, 1), (7, 1), (1, 1), (3, 1), (8, 1)], 3),
    "I6": (10, 0, [(4, 1), (8, 1), (1, 1), (4, 1), (2, 1), (1, 1)], 2),
    # Computed.
    "I7": (101, 0, [(51, 6), (27, 6), (26, 6), (23, 12)], 9),
    # Strips of tiles with and without kerf, all computed.
    "I8": (600, 0, [(297, 4), (200, 6), (150, 5)], 6),
    "I9": (600, 3, [(297, 4), (200, 6), (150, 5)], 6),
    "I10": (602, 0, [(298, 2), (304, 2)], 2),
    "I11": (600, 0, [(298, 2), (304, 2)], 3),
    "I11 with kerf": (600, 3, [(298, 2), (304, 2)], 3),
    "I12": (600, 0, [(296, 16)], 8),
    "I12 with the widest kerf": (600, 8, [(296, 16)], 8),
    "I12 with a wider one": (600, 9, [(296, 16)], 16),
    "I13": (600, 0, [(200, 10)], 4),
    "I14": (600, 3, [(200, 10)], 5),
    "I15": (600, 3, [(190, 10)], 4),
    "I16": (2440, 0, [(900, 4), (700, 5), (450, 7)], 5),
    "I16 with kerf": (2440, 3, [(900, 4), (700, 5), (450, 7)], 5),
}


@pytest.mark.parametrize("name", KNOWN)
def test_known_optimum(name: str) -> None:
    length, kerf, pieces, optimum = KNOWN[name]
    stock, demands = strips(length, kerf, pieces)
    found = fewest(stock, demands)
    assert (found.cut, found.bound, found.proven) == (optimum, optimum, True)
    assert_plan(stock, demands, found)


# Computed, beside the optima above: first-fit in the order given, first-fit with the largest first, the bound by area.
@pytest.mark.parametrize(("name", "first", "largest_first", "area"), [
    ("I1", None, 82, 73), ("I2", None, 485, 416), ("I4", None, None, 45), ("I5", 4, 3, 3), ("I6", 2, None, 2), ("I7", None, 9, 9),
])
def test_known_first_fit(name: str, first: int | None, largest_first: int | None, area: int) -> None:
    length, kerf, pieces, _ = KNOWN[name]
    stock, demands = strips(length, kerf, pieces)
    task = measured(stock, demands)
    assert area_bound(task) == area
    if largest_first is not None:
        assert len(first_fit(task, decreasing(task, task.counts))) == largest_first
    if first is not None:
        assert fewest(stock, demands).first_fit == first


# ---------------------------------------------------------------- what a saw can do: checks that share no code with the plan

TURNS = {"left": "low", "low": "right", "right": "high", "high": "left"}


def ways(stock: Stock, d: Demand) -> list[tuple[F, F, frozenset[str]]]:
    """A piece as it is and as it may be turned."""
    quarters = (0,) if stock.directional else (0, 1, 2, 3) if stock.width == stock.height else (0, 2)
    result = []
    for n in quarters:
        sides = set(d.factory)
        for _ in range(n):
            sides = {TURNS[s] for s in sides}
        one = (d.width, d.height) if n % 2 == 0 else (d.height, d.width)
        result.append((*one, frozenset(sides)))
    return result


Box = tuple[F, F, F, F]         # left, low, right, high


@lru_cache(maxsize=200_000)
def cut_apart(stock: Stock, region: Box, boxes: tuple[Box, ...]) -> bool:
    """A saw that cuts right across gets all boxes out of the region; what it cuts again is not too narrow to hold."""
    if len(boxes) == 1:
        return True
    least = (min(stock.least, stock.width), min(stock.least, stock.height))

    def held(part: Box) -> bool:
        return part[2] - part[0] >= least[0] and part[3] - part[1] >= least[1]

    for axis in (0, 1):
        for edge in sorted({b[axis + 2] for b in boxes}):
            first = tuple(b for b in boxes if b[axis + 2] <= edge)
            second = tuple(b for b in boxes if b[axis] >= edge + stock.kerf)
            if not second or len(first) + len(second) < len(boxes):
                continue
            # The cut may run along the last of the first boxes, or along the first of the second.
            for at in (edge, min(b[axis] for b in second) - stock.kerf):
                parts = []
                for low, high in ((region[axis], at), (at + stock.kerf, region[axis + 2])):
                    part = list(region)
                    part[axis], part[axis + 2] = low, high
                    parts.append((part[0], part[1], part[2], part[3]))
                a, b = parts
                kept = (held(a) or len(first) == 1, held(b) or len(second) == 1)
                if all(kept) and (held(a) or held(b)) and cut_apart(stock, a, first) and cut_apart(stock, b, second):
                    return True
    return False


def assert_plan(stock: Stock, demands: Sequence[Demand], found: Fewest) -> None:
    """Every piece once, inside its tile, a kerf apart, at the factory edges that it needs, to be had with a saw."""
    assert found.bound <= found.cut <= found.first_fit
    assert found.proven == (found.bound == found.cut)
    assert found.cut == sum(c.tiles for c in found.cuts)
    wanted = {d.key: d for d in demands}
    made: Counter[tuple[str, int]] = Counter()
    for cut in found.cuts:
        boxes: list[Box] = []
        for key, left, low, width, height in cut.boxes:
            made[key] += cut.tiles
            assert left >= 0 and low >= 0 and left + width <= stock.width and low + height <= stock.height
            touched = {
                name for name, there in (
                    ("left", left == 0), ("low", low == 0), ("right", left + width == stock.width),
                    ("high", low + height == stock.height),
                ) if there
            }
            assert any((w, h) == (width, height) and sides <= touched for w, h, sides in ways(stock, wanted[key]))
            boxes.append((left, low, left + width, low + height))
        for a, b in combinations(boxes, 2):
            assert any(a[i + 2] + stock.kerf <= b[i] or b[i + 2] + stock.kerf <= a[i] for i in (0, 1))
        assert boxes and cut_apart(stock, (F(0), F(0), stock.width, stock.height), tuple(boxes))
    assert made == Counter({d.key: d.count for d in demands})


class Brute:
    """Fewest tiles by trying everything: cut pieces off the ends of strips, strips off the ends of the tile."""

    def __init__(self, stock: Stock, demands: Sequence[Demand]) -> None:
        self.stock = stock
        self.counts = tuple(d.count for d in demands)
        self.ways = {False: [ways(stock, d) for d in demands]}
        flip = {"left": "low", "low": "left", "right": "high", "high": "right"}
        self.ways[True] = [[(h, w, frozenset(flip[s] for s in sides)) for w, h, sides in x] for x in self.ways[False]]
        self.strip = lru_cache(None)(self._strip)
        self.tile = lru_cache(None)(self._tile)
        self.fewest = lru_cache(None)(self._fewest)

    def fits(self, pieces: tuple[int, ...]) -> bool:
        s = self.stock
        every = frozenset(TURNS)
        return self.tile(pieces, s.height, every, False) or self.tile(pieces, s.width, every, True)

    def _sizes(self, flipped: bool) -> tuple[F, F, F]:
        """Length of a strip, and the least length and height that are cut again."""
        s = self.stock
        w, h = (s.height, s.width) if flipped else (s.width, s.height)
        return w, min(s.least, w), min(s.least, h)

    def _tile(self, pieces: tuple[int, ...], height: F, edges: frozenset[str], flipped: bool) -> bool:
        """What is left of the tile gives these pieces: as one strip, or after one more strip is cut off its low or high end."""
        length, _, least = self._sizes(flipped)
        if self.strip(pieces, length, height, edges, flipped):
            return True
        heights = {h for p in set(pieces) for _, h, _ in self.ways[flipped][p]} | {least}
        for n in range(1, len(pieces)):
            for chosen in sorted(set(combinations(range(len(pieces)), n))):
                first = tuple(pieces[i] for i in chosen)
                others = tuple(p for i, p in enumerate(pieces) if i not in chosen)
                for h in heights:
                    rest = height - h - self.stock.kerf
                    if rest < least or rest <= 0 or (n > 1 and h < least):
                        continue
                    for end, other in (("low", "high"), ("high", "low")):
                        if self.strip(first, length, h, edges - {other}, flipped) and self.tile(
                            others, rest, edges - {end}, flipped,
                        ):
                            return True
        return False

    def _strip(self, pieces: tuple[int, ...], length: F, height: F, edges: frozenset[str], flipped: bool) -> bool:
        """The strip gives these pieces: one, or one cut off its left or right end and the others out of the rest."""
        _, least, least_height = self._sizes(flipped)
        if len(pieces) == 1:
            return any(self._one(way, length, height, edges) for way in self.ways[flipped][pieces[0]])
        if height < least_height:
            return False
        for i, p in enumerate(pieces):
            for way in self.ways[flipped][p]:
                rest = length - way[0] - self.stock.kerf
                if rest < least or rest <= 0:
                    continue
                for end, other in (("left", "right"), ("right", "left")):
                    if self._one(way, way[0], height, edges - {other}) and self.strip(
                        pieces[:i] + pieces[i + 1:], rest, height, edges - {end}, flipped,
                    ):
                        return True
        return False

    @staticmethod
    def _one(way: tuple[F, F, frozenset[str]], length: F, height: F, edges: frozenset[str]) -> bool:
        w, h, sides = way
        return (
            w <= length and h <= height and sides <= edges and not ({"left", "right"} <= sides and w < length)
            and not ({"low", "high"} <= sides and h < height)
        )

    def loads(self, left: tuple[int, ...]) -> list[tuple[int, ...]]:
        """Numbers of each size that come out of one tile together."""
        found: dict[tuple[int, ...], None] = {}

        def more(pieces: tuple[int, ...]) -> None:
            for p in range(pieces[-1] if pieces else 0, len(left)):
                longer = (*pieces, p)
                if longer.count(p) <= left[p] and self.fits(longer):
                    found[tuple(longer.count(i) for i in range(len(left)))] = None
                    more(longer)

        more(())
        return list(found)

    def _fewest(self, left: tuple[int, ...]) -> int:
        if not any(left):
            return 0
        # Whatever else is cut, the first size that is left has to come from some tile.
        first = next(i for i, n in enumerate(left) if n)
        fits = [x for x in self.every if x[first] and all(a <= b for a, b in zip(x, left))]
        return 1 + min(self.fewest(tuple(a - b for a, b in zip(left, x))) for x in fits)

    def answer(self) -> int:
        self.every = self.loads(self.counts)
        return self.fewest(self.counts)


SIDES = ("left", "right", "low", "high")


@st.composite
def jobs(draw: st.DrawFn, sizes: int, most: int, one_way: bool = False) -> tuple[Stock, list[Demand]]:
    """Tiles and pieces such as walls give: cut at one side or two, or within; halves and thirds so that several fit."""
    width = draw(st.sampled_from((600, 300, 450)))
    height = draw(st.sampled_from((300, 600, 150)))
    stock = Stock(
        F(width), F(height), draw(st.sampled_from((F(0), F(5, 2), F(3), F(10)))), draw(st.sampled_from((F(0), F(30), F(80)))),
        draw(st.booleans()),
    )

    def size(whole: int) -> F:
        part = draw(st.sampled_from((2, 3, 4, 1)))
        return F(max(4, min(whole, whole // part + draw(st.integers(-12, 12)))))

    demands = []
    for i in range(draw(st.integers(1, sizes))):
        kind = "width" if one_way else draw(st.sampled_from(("width", "height", "both", "whole")))
        w = size(width) if kind in ("width", "both") else F(width)
        h = size(height) if kind in ("height", "both") else F(height)
        sides: list[str] = []
        for whole, got, pair in ((width, w, SIDES[:2]), (height, h, SIDES[2:])):
            sides += pair if got == whole else draw(st.sampled_from(((), (pair[0],), (pair[1],))))
        demands.append(Demand(("wall", i), w, h, draw(st.integers(1, most)), tuple(sides)))
    return stock, demands


@settings(max_examples=150, deadline=None)
@given(jobs(6, 9))
def test_every_plan_can_be_cut(case: tuple[Stock, list[Demand]]) -> None:
    stock, demands = case
    assert_plan(stock, demands, fewest(stock, demands))
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(sys.modules, "highspy", None)         # so the usual way is what comes out
        assert_plan(stock, demands, fewest(stock, demands))


@settings(max_examples=120, deadline=None)
@given(jobs(4, 2))
def test_no_plan_takes_fewer_tiles_both_ways(case: tuple[Stock, list[Demand]]) -> None:
    stock, demands = case
    found = fewest(stock, demands)
    optimum = Brute(stock, demands).answer()
    assert found.bound <= optimum <= found.cut
    assert found.proven and found.cut == optimum


@settings(max_examples=60, deadline=None)
@given(jobs(4, 7, one_way=True))
def test_no_plan_takes_fewer_tiles_one_way(case: tuple[Stock, list[Demand]]) -> None:
    stock, demands = case
    found = fewest(stock, demands)
    assert found.proven and found.cut == Brute(stock, demands).answer()


def test_more_pieces_than_anybody_tries_by_hand() -> None:
    """Twenty sizes, a thousand pieces, each with a factory edge: proven, and the same plan again.

    The bound is a proof by itself: it is worked out in whole numbers from the values of the pieces.
    """
    sides = (("left", "low", "high"), ("right", "low", "high"))
    demands = [Demand(("wall", i), F(1013 + 241 * i, 10), F(300), 31 + 3 * i, sides[i % 2]) for i in range(20)]
    assert sum(d.count for d in demands) >= 1000
    stock = Stock(F(600), F(300), F(5, 2), F(30))
    found = fewest(stock, demands)
    assert found.proven and found.cut < found.first_fit
    assert_plan(stock, demands, found)
    assert fewest(stock, demands) == found


def test_listing_rows_ends_with_its_work() -> None:
    """Thousands of strips that need an end make millions of pairs: none is looked at once the work is used up."""
    links = [Link(size, 1, ends) for size in range(10, 410) for ends in (0, 1, 2)]
    work = Work(1_000)
    list(full(links, Length(10_000, 3, 0), 0, work))
    assert -1_000 < work.left < 0


# ---------------------------------------------------------------- factory edges, turning, rests

def test_pieces_at_both_ends_of_a_wall() -> None:
    """Tile on the centre line of a wall 2400 wide, tile 600: 296 at either end, eight courses: 16 pieces, two a tile."""
    stock = Stock(F(600), F(300), F(5, 2), F(30), directional=True)
    demands = [
        Demand(("wall", 1), F(296), F(300), 8, ("right", "low", "high")),
        Demand(("wall", 2), F(296), F(300), 8, ("left", "low", "high")),
    ]
    found = fewest(stock, demands)
    assert (found.cut, found.proven) == (8, True)
    assert_plan(stock, demands, found)


@pytest.mark.parametrize(("directional", "tiles"), [(False, 3), (True, 4)])
def test_pieces_beside_a_window(directional: bool, tiles: int) -> None:
    """298 on its left and 304 on its right, two each: turned half round, two of 298 come out of one tile of 600 (worked example).
    A veined tile may not be turned, and has only one left edge."""
    stock = Stock(F(600), F(300), F(0), F(0), directional)
    demands = [
        Demand(("wall", 1), F(298), F(300), 2, ("left", "low", "high")),
        Demand(("wall", 2), F(304), F(300), 2, ("right", "low", "high")),
    ]
    assert fewest(stock, demands).cut == tiles


def test_a_piece_within_needs_no_factory_edge() -> None:
    """Three of 190 out of 600: the middle one is cut on both sides. With an edge wanted on each, two a tile."""
    stock = Stock(F(600), F(300), F(3))
    assert fewest(stock, [Demand(("wall", 1), F(190), F(300), 9, ("low", "high"))]).cut == 3
    assert fewest(stock, [Demand(("wall", 1), F(190), F(300), 9, ("left", "low", "high"))]).cut == 5


def test_a_tile_has_four_corners() -> None:
    """Quarters of a tile, each with its factory corner: four a tile, two of a veined one where only two corners are asked for."""
    quarter = {"width": F(290), "height": F(140)}
    corners = [("left", "low"), ("right", "low")]
    demands = [Demand(("floor", i), factory=c, count=4, **quarter) for i, c in enumerate(corners)]
    assert fewest(Stock(F(600), F(300), F(3)), demands).cut == 2
    assert fewest(Stock(F(600), F(300), F(3), directional=True), demands).cut == 4


def test_only_square_tiles_are_turned_by_a_quarter() -> None:
    """A strip 600 × 100 and one 100 × 600 come out of one square tile side by side; not where the tile has a direction."""
    demands = [
        Demand(("floor", 1), F(600), F(290), 1, ("left", "right", "low")),
        Demand(("floor", 2), F(290), F(600), 1, ("left", "low", "high")),
    ]
    assert fewest(Stock(F(600), F(600), F(3)), demands).cut == 1
    assert fewest(Stock(F(600), F(600), F(3), directional=True), demands).cut == 2


@pytest.mark.parametrize(("width", "height", "least", "a_tile"), [
    (20, 300, 0, 30), (20, 300, 30, 29),        # the last of thirty would be cut from a rest of 20
    (290, 20, 0, 30), (290, 20, 30, 28),        # two upright strips of 15 or 14 each; no level strip of 20 is cut again
    (590, 20, 0, 15), (590, 20, 30, 14),
])
def test_narrow_rests_are_not_cut_again(width: int, height: int, least: int, a_tile: int) -> None:
    """Worked by hand, kerf 0: what the last piece of a row is cut from is at least 30 wide."""
    stock = Stock(F(600), F(300), F(0), F(least))
    for count, tiles in ((2 * a_tile, 2), (2 * a_tile + 1, 3)):
        demands = [Demand(("wall", 1), F(width), F(height), count)]
        found = fewest(stock, demands)
        assert (found.cut, found.proven) == (tiles, True)
        assert_plan(stock, demands, found)


@pytest.mark.parametrize(("height", "least", "tiles"), [(60, 30, 1), (50, 30, 2), (50, 0, 1)])
def test_a_strip_that_is_cut_again_is_not_narrow(height: int, least: int, tiles: int) -> None:
    """By hand, kerf 0: 350 beside 250 and 200 beside 400, all 20 high, out of 600: two strips, 30 high, or 20."""
    stock = Stock(F(600), F(height), F(0), F(least), directional=True)
    demands = [Demand(("wall", w), F(w), F(20), 1) for w in (350, 250, 200, 400)]
    found = fewest(stock, demands)
    assert (found.cut, found.proven) == (tiles, True)
    assert_plan(stock, demands, found)


@pytest.mark.parametrize("demand", [
    Demand(("wall", 7), F(601), F(300), 1), Demand(("wall", 7), F(100), F(300), 0), Demand(("wall", 7), F(0), F(300), 1),
    Demand(("wall", 7), F(300), F(600), 1), Demand(("wall", 7), F(100), F(300), 1, ("left", "right")),
])
def test_a_piece_that_cannot_be_cut_is_named(demand: Demand) -> None:
    with pytest.raises(ValueError, match="wall, piece 7"):
        fewest(Stock(F(600), F(300)), [demand])


# ---------------------------------------------------------------- the solver

def test_without_a_solver_the_usual_way_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    length, kerf, pieces, optimum = KNOWN["I2"]
    stock, demands = strips(length, kerf, pieces)
    monkeypatch.setitem(sys.modules, "highspy", None)
    found = fewest(stock, demands)
    assert (found.cut, found.bound, found.proven) == (485, 416, False)
    assert found.bound <= optimum <= found.cut
    assert_plan(stock, demands, found)


def test_the_solver_says_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """Its banner would spoil what a command writes to standard output."""
    length, kerf, pieces, _ = KNOWN["I1"]
    fewest(*strips(length, kerf, pieces))
    captured = capfd.readouterr()
    assert captured.out == captured.err == ""


# ---------------------------------------------------------------- from a set-out

EN = practice("EN")


def row(number: int, count: int, outline: Sequence[tuple[object, object]], kind: str = "width") -> Row:
    corners = tuple((F(str(x)) / 1000, F(str(y)) / 1000) for x, y in outline)
    shape = Shape(corners)
    x1, y1, x2, y2 = shape.bounds
    return Row(number, kind, m(x2 - x1), m(y2 - y1), q(count, "count"), (), shape)


def box(left: object, low: object, right: object, high: object) -> list[tuple[object, object]]:
    return [(left, low), (right, low), (right, high), (left, high)]


def layout(t: Tile, full: int, rows: Sequence[Row], surface: str = "wall A") -> Layout:
    covering = laid(t, 2)
    way = Way("full tile at the left")
    begin = Begin(m(0), m(0), (), (way, way))
    return Layout(
        surface, surface, "field", covering, t.width, t.height, (), q(1, "m2"), begin, (), (), tuple(rows), q(full, "count"),
    )


def one(*layouts: Layout) -> OffcutPlan:
    (found,) = plan(SetOut((), layouts), EN)
    return found


def window_wall(notch: tuple[tuple[int, int], ...] = ((302, 4), (296, 4), (302, 290), (296, 290))) -> list[Row]:
    """A wall 2400 × 2400 of tiles 600 × 300, joint 2, full tile in the lower left corner, with a window 600 × 900 at 900, 900."""
    above = [row(5 + i, 1, [
        (0, 0), (600, 0), (600, 300 - h), (600 - w, 300 - h), (600 - w, 300), (0, 300),
    ], "notch") for i, (w, h) in enumerate(notch)]
    return [
        row(1, 7, box(0, 0, 594, 300)), row(2, 3, box(0, 0, 600, 286), "height"), row(3, 1, box(0, 0, 594, 286), "both"),
        row(4, 2, box(0, 0, 298, 300)), *above, row(9, 2, box(296, 0, 600, 300)),
    ]


def test_a_wall_with_a_window() -> None:
    """By hand and by polygons (worked example, computed): 32 positions, 13 full; three tiles and not four for the pieces beside
    the window, so 31 tiles."""
    found = one(layout(tile("t", 600, 300), 13, window_wall()))
    assert (found.whole.value, found.cut.value, found.bound.value, found.proven) == (13, 18, 18, True)
    assert found.whole.value + found.cut.value == 31
    beside = [c for c in found.cuttings if {n for _, n, _ in c.pieces} & {4, 9}]
    assert sum(c.tiles for c in beside) == 3
    assert all(n == 1 for c in found.cuttings for _, number, n in c.pieces if number != 4)
    assert isinstance(found.kerf.why, Limit) and found.kerf.mm == 2


def test_halves_beside_a_window_without_joints() -> None:
    """The same wall with joint 0: 26 full and six halves out of three tiles; 29 tiles, the net area by the area of a tile
    (computed). So it is where tiles are scored and snapped; a saw takes its kerf out of two halves, and needs six."""
    stock = Stock(F(600), F(300))
    halves = [
        Demand(("wall", 1), F(300), F(300), 3, ("left", "low", "high")),
        Demand(("wall", 2), F(300), F(300), 3, ("right", "low", "high")),
    ]
    assert 26 + fewest(stock, halves).cut == 29
    found = one(layout(tile("t", 600, 300), 26, [row(1, 3, box(0, 0, 300, 300)), row(2, 3, box(300, 0, 600, 300))]))
    assert found.cut.value == 6


def test_upright_and_landscape_come_out_of_the_same_boxes() -> None:
    """A strip of 290 off a tile laid upright and one off a tile laid landscape share a tile."""
    landscape = layout(tile("t", 600, 300), 3, [row(1, 1, box(0, 0, 290, 300))])
    upright = layout(tile("t", 300, 600), 4, [row(1, 1, box(0, 0, 300, 290), "height")], "wall B")
    found = one(landscape, upright)
    assert (found.whole.value, found.cut.value) == (7, 1)
    assert {(surface, w, h) for surface, _, _, _, w, h in found.cuttings[0].boxes} == {
        ("wall A", F(29, 100), F(3, 10)), ("wall B", F(29, 100), F(3, 10)),
    }


def test_each_article_has_its_plan() -> None:
    plans = plan(SetOut((), (
        layout(tile("a", 600, 300), 3, [row(1, 2, box(0, 0, 290, 300))]), layout(tile("b", 600, 300), 5, []),
        layout(tile("a", 600, 300), 1, [row(1, 1, box(310, 0, 600, 300))], "wall B"),
    )), EN)
    assert [(p.tile.name, p.whole.value, p.cut.value) for p in plans] == [("a", 4, 2), ("b", 5, 0)]
    assert plans[1].proven and plans[1].cuttings == ()


def test_natural_stone_is_not_turned() -> None:
    """Two pieces that both need the left edge: one tile where it may be turned half round."""
    rows = [row(1, 2, box(0, 0, 290, 300))]
    assert one(layout(tile("t", 600, 300), 0, rows)).cut.value == 1
    assert one(layout(tile("t", 600, 300, stone=True, body="stone"), 0, rows)).cut.value == 2


def test_sheets_are_cut_between_the_chips() -> None:
    """A sheet of six by six chips of 48 with joints of 2 gives three strips of two chips; nothing is sawn, no edge counts."""
    sheet = replace_size(mosaic(), 298, 298)
    found = one(layout(sheet, 10, [row(1, 3, box(0, 0, 98, 298)), row(2, 36, box(0, 0, 48, 48), "both")]))
    assert (found.cut.value, found.proven) == (2, True)
    assert found.kerf == mm(2)
    # Fine chips: no more than are there, though without the joints between them more would go into its width.
    fine = replace_size(mosaic("fine", 10, 2), 298, 298)
    assert one(layout(fine, 0, [row(1, 26, box(0, 0, 10, 298))])).cut.value == 2


def replace_size(t: Tile, width: int, height: int) -> Tile:
    return replace(t, width=mm(width), height=mm(height))


def test_factory_sides_are_those_that_the_piece_still_has() -> None:
    w, h = F(6, 10), F(3, 10)
    triangle = ((F(0), F(0)), (F(6, 10), F(0)), (F(0), F(2, 10)))
    assert factory_sides(triangle, w, h) == ("left", "low")
    apex = ((F(0), F(1, 10)), (F(3, 10), F(0)), (F(3, 10), F(2, 10)))         # touches the left side at a point only
    assert factory_sides(apex, w, h) == ()
    # Slanted work is rounded to a nanometre.
    off = F(1, 10**9)
    assert factory_sides(((off, -off), (F(3, 10), F(0)), (F(3, 10), h), (F(0), h - off)), w, h) == ("left", "low", "high")


def test_a_slanted_piece_counts_by_its_box() -> None:
    """Two triangles that would go into one tile as triangles: their boxes do not."""
    rows = [row(1, 2, [(0, 0), (600, 0), (0, 300)], "slant")]
    assert one(layout(tile("t", 600, 300), 0, rows)).cut.value == 2
    small = [row(1, 4, [(0, 0), (290, 0), (0, 140)], "slant")]
    assert one(layout(tile("t", 600, 300), 0, small)).cut.value == 2      # turned half round, at opposite corners
